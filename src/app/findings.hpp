// Standing findings: printed labels, verdicts and accepted cautions that later entries made untrue (DESIGN 5, rule 9).
//
// Holds: what was kept is compared with what the same sums say by all that is known now, and only what entries that
// arrived after it changed is a finding: another version of the program, or another table, opens none. A gas verdict
// that became better is none. A finding ends when no container that carries it is left, when what was kept is voided,
// or when it is acknowledged, until something changes again. Nothing is booked here.
// Leaves out: that bottles grow old, and make-up and age on a label.
#pragma once

#include <set>
#include <vector>

#include "app/describe.hpp"
#include "app/views.hpp"
#include "engine/state/state.hpp"
#include "ledger/replay.hpp"
#include "tables/tables.hpp"
#include "units/amount.hpp"

namespace undercroft::app {

// Id of the caution that acknowledging a finding books.
inline constexpr const char* k_finding_caution = "finding";

// `cellar` and `states` are those of all entries of `telling`, which stand in order of arrival, drafts last.
// Costs one sum for every label and verdict with a container left, and replays of the book only to say since when.
// Nothing is asked about the runs `passed_over`, by the keys of their first entries.
[[nodiscard]] std::vector<FindingView> findings_of(const Telling& telling, const tables::Tables& tables,
                                                   Gallons gallons, const ledger::Cellar& cellar,
                                                   const engine::StateBook& states,
                                                   const std::set<ledger::EntryKey>& passed_over = {});

}  // namespace undercroft::app
