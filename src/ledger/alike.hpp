// Which vessels and runs of two replays hold the same liquid, told without working out what it is made of.
//
// Holds: what is called alike is alike to the last bit: volume, make-up, cultures and since when, allergens,
// additions, and all that is said of the vessel or run itself. What is alike may be called different, which costs
// whoever asked only the time to compare it himself.
// Leaves out: readings and what follows from them (engine/state).
#pragma once

#include <vector>

#include "ledger/replay.hpp"

namespace undercroft::ledger {

class Alike {
public:
    // Both must outlive this. Costs a step for each node of either graph.
    Alike(const Cellar& one, const Cellar& other);

    // Indices in Cellar::vessels and Cellar::runs of the one and of the other.
    [[nodiscard]] bool vessels(int of_one, int of_other) const;
    [[nodiscard]] bool runs(int of_one, int of_other) const;

private:
    [[nodiscard]] bool same_lot(const LotState& a, const LotState& b) const;
    [[nodiscard]] bool same_node(NodeId a, NodeId b) const;
    [[nodiscard]] bool same_culture(int a, int b) const;
    [[nodiscard]] bool same_vessel_key(int a, int b) const;
    [[nodiscard]] bool same_additions(const std::vector<int>& a, const std::vector<int>& b) const;
    [[nodiscard]] bool same_liquid(const Liquid& a, const Liquid& b) const;
    void number_nodes();

    const Cellar& m_one;
    const Cellar& m_other;
    // A name, tag or place said of any of them otherwise may be told of all the others.
    bool m_names_kept = true;
    // Nodes of one make-up have one number.
    std::vector<int> m_number_in_one;
    std::vector<int> m_number_in_other;
};

}  // namespace undercroft::ledger
