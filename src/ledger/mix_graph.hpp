// Compositions as an immutable graph: a leaf is a lot, any other node is a mix of two earlier nodes.
//
// Holds: nodes refer backwards only, so shares always end and one sweep answers any question; a pull
// changes no node, a pour into a filled vessel adds one. The shares of a node sum to one.
// Leaves out: volumes (they stay whole microlitres in the replay).
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "units/volume.hpp"

namespace undercroft::ledger {

using NodeId = std::int32_t;
inline constexpr NodeId k_no_node = -1;

class MixGraph {
public:
    struct Node {
        NodeId there;   // k_no_node for a leaf
        NodeId coming;  // the lot number for a leaf
        double weight;  // poured / (poured + present)
    };
    // A new leaf for lot number `lot` (its index in Cellar::lots).
    NodeId leaf(int lot);
    // What is there after `poured` of one liquid went onto `present` of another. Pouring onto nothing,
    // or nothing onto something, adds no node. Both volumes zero is a bug.
    NodeId mix(NodeId there, Volume present, NodeId coming, Volume poured);

    [[nodiscard]] std::size_t size() const { return m_nodes.size(); }
    [[nodiscard]] std::span<const Node> nodes() const { return m_nodes; }

    // Share of every lot in one node, by lot number: one backward sweep. Empty for k_no_node.
    [[nodiscard]] std::vector<double> shares(NodeId node, std::size_t lots) const;
    // The same for many nodes: a row of `lots` shares for each of them, of zeros for k_no_node. Equal to the shares one
    // by one up to rounding (1e-12).
    [[nodiscard]] std::vector<double> share_rows(std::span<const NodeId> nodes, std::size_t lots) const;
    // A property that mixes by volume, for every node at once: one forward sweep over the value of each lot.
    [[nodiscard]] std::vector<double> sweep(std::span<const double> value_of_lot) const;

private:
    [[nodiscard]] std::vector<std::int32_t> last_uses(std::span<const NodeId> nodes) const;
    void sweep_back(std::span<const NodeId> nodes, std::size_t lots, double* rows) const;
    void fill_rows(std::span<const NodeId> nodes, std::size_t lots, std::vector<std::int32_t> last_use,
                   double* rows) const;

    std::vector<Node> m_nodes;
};

}  // namespace undercroft::ledger
