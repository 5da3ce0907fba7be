// The cellar at a moment: what you get by replaying the entries up to it.
//
// Holds: pure and deterministic; the same set of entries gives the same cellar in whatever order they
// arrive; over any book, liquid in = liquid out + liquid on hand, to the microlitre. Only a pitch, a live
// lot and a live addition bring organisms; every other act, and the gear it is done with, carries or kills them.
// Allergens never drop out.
// Leaves out: everything that changes inside a vessel (gravity, acid, alcohol): engine/state.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "ledger/entry.hpp"
#include "ledger/fault.hpp"
#include "ledger/gear.hpp"
#include "ledger/liquid.hpp"
#include "ledger/mix_graph.hpp"
#include "ledger/order.hpp"

namespace undercroft::ledger {

struct VesselState {
    EntryKey key;  // first entry of its chain
    VesselJoins as;
    Instant joined;
    bool retired = false;
    Liquid liquid;
    std::vector<int> additions_inside;    // loose fruit, bags: indices in Cellar::additions
    std::optional<Instant> filled_since;  // when it was last empty before what it holds now
    Volume came_in;                       // all that went in by the book since it was cleaned; what was found apart
    NodeId held_last = k_no_node;         // what it held before it stood empty
    std::vector<int> entries;             // indices in Cellar::entries that concern it

    [[nodiscard]] Volume full() const { return as.capacity - as.ullage; }
};

struct RunState {
    EntryKey key;
    Package as;
    Instant packaged;
    int source = 0;  // index in Cellar::vessels
    int left = 0;    // containers on hand
    std::map<TakeCause, int> taken;
    int missing = 0;  // not there at stock-takes
    int found = 0;    // there although the book had them gone
    Liquid liquid;    // volume: what is left on hand; the rest as packaged
    std::vector<int> entries;
};

struct LotState {
    EntryKey key;
    std::string name;
    LotKind kind = LotKind::beer;
    Volume volume;
    Instant entered;
    std::optional<Day> brewed_from;
    std::optional<Day> brewed_to;
    bool age_assumed = false;
    NodeId like = k_no_node;  // found liquid: as old as what the vessel held
    int vessel = 0;           // where it entered; of found bottles where they were filled
    int addition = -1;        // index in Cellar::additions when an addition or priming brought it
    bool priming = false;
};

struct AdditionState {
    EntryKey key;
    Addition as;
    int vessel = 0;
    Instant from;
    std::optional<Instant> until;  // lifted, or gone at cleaning
};

struct CultureState {
    EntryKey key;  // pitch, lot or addition that brought it
    Culture as;
    int vessel = 0;
    Instant from;
    bool suspected = false;
};

enum class FlowKind { lot, found, addition, priming, move, package, taken, returned, loss };

// One stream of liquid, in the order of the book. `engine` folds over these.
struct Flow {
    int entry = 0;  // index in Cellar::entries
    FlowKind kind = FlowKind::move;
    int from_vessel = -1;  // each -1 when it does not apply
    int from_run = -1;
    int to_vessel = -1;
    int to_run = -1;
    int lot = -1;
    Volume volume;
    Volume present;                        // in the target before it came
    NodeId node = k_no_node;               // what flowed
    LossCause cause = LossCause::unknown;  // of a loss
};

struct Totals {
    Volume in;       // lots, found, additions, priming
    Volume out;      // losses and bottles that left
    Volume on_hand;  // vessels and bottles
};

struct Cellar {
    std::vector<const Entry*> entries;  // live, in order: points into what was replayed, which must outlive it
    std::vector<VesselState> vessels;   // in order of joining
    std::vector<RunState> runs;
    std::vector<LotState> lots;
    std::vector<AdditionState> additions;
    std::vector<CultureState> cultures;
    std::vector<Flow> flows;
    std::vector<GearState> gear;
    std::vector<Arrival> arrivals;  // through gear, in order
    MixGraph graph;
    std::shared_ptr<const Chains> chains;
    // By the number of the first entry of the chain (Chains::first_of).
    std::unordered_map<int, int> vessel_by_first;
    std::unordered_map<int, int> run_by_first;
    std::unordered_map<int, int> addition_by_first;
    std::unordered_set<std::string> run_codes;
    std::vector<int> calibrations;  // indices of entries, in order

    [[nodiscard]] Totals totals() const;
    // Share of every lot in a liquid, by index in `lots`; sums to one. Empty for an empty liquid.
    [[nodiscard]] std::vector<double> shares(const Liquid& liquid) const {
        return graph.shares(liquid.node, lots.size());
    }
    // Index of the vessel or run an entry key (of any entry of its chain) stands for, -1 when none does.
    [[nodiscard]] int vessel_of(const EntryKey& key) const;
    [[nodiscard]] int run_of(const EntryKey& key) const;
    [[nodiscard]] int addition_of(const EntryKey& key) const;
    // What holds for an instrument at an entry (index in `entries`); nullptr when it was not calibrated by then.
    [[nodiscard]] const Calibrate* calibration_at(int entry, const std::string& instrument, Quantity quantity) const;
};

// Takes a cellar further by the next live entries of its book, in their order: a replay in two parts gives what one
// in one part gives. Begins with a Cellar that has nothing but `chains`. After a fault the cellar is spoilt.
[[nodiscard]] tl::expected<void, ReplayFault> replay_on(Cellar& cellar, std::span<const Entry* const> next);

[[nodiscard]] tl::expected<Cellar, ReplayFault> replay(std::span<const Entry> entries, const Scope& scope = {});
[[nodiscard]] tl::expected<Cellar, ReplayFault> replay(std::span<const Entry* const> entries, const Scope& scope = {});

}  // namespace undercroft::ledger
