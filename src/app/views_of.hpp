// Views of vessels and runs, made from a replayed cellar.
#pragma once

#include "app/describe.hpp"
#include "app/views.hpp"
#include "engine/state/state.hpp"
#include "engine/trace/trace.hpp"
#include "ledger/replay.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// A cellar at a moment with what the engines say of it.
struct Seen {
    const ledger::Cellar& cellar;
    const engine::StateBook& states;
    const Telling& telling;
    Instant when;
    const tables::Tables& tables;
};

// At that moment: what the ledger carries, less what time does (engine/state/alive.hpp).
[[nodiscard]] ledger::Certainty certainty_of(const Seen& seen, engine::HolderRef holder,
                                             const ledger::CultureHere& here);
[[nodiscard]] VesselSummary vessel_summary(const Seen& seen, int vessel);
// "solera, oak, 225 L brimful, north wall"; what nobody said is left out.
[[nodiscard]] std::string described(const VesselSummary& vessel, VolumeUnit unit);
// By place, then tag, then name; what has no place or tag comes after what has, and "Jar 5" before "Jar 12".
[[nodiscard]] bool stands_before(const VesselSummary& a, const VesselSummary& b);
[[nodiscard]] RunSummary run_summary(const Seen& seen, int run);
// `entries`: how many of its entries to list, newest first; 0 lists none.
[[nodiscard]] HoldingView holding_view(const Seen& seen, engine::HolderRef holder, std::size_t entries);

// Before and after, row by row: what a keeper compares. Views without a vessel and run are "not there".
[[nodiscard]] std::vector<Change> changes_between(const HoldingView& before, const HoldingView& after, VolumeUnit unit);

// The same in short. What is not there holds nothing.
[[nodiscard]] Touched touched_of(const HoldingView& before, const HoldingView& after);

// "2.4 ± 1.1 years, youngest part 3 months (18 %)"
[[nodiscard]] std::string age_text(const engine::Age& age);

}  // namespace undercroft::app
