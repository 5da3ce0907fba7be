// The watch over the gravity before packaging: what the cultures that may live in the beer ask for, and what it proves.
#pragma once

#include <vector>

#include "engine/package/gas_question.hpp"
#include "engine/state/state.hpp"
#include "tables/tables.hpp"

namespace undercroft::engine::package {

inline constexpr Temperature k_watch_warm = Temperature::from_celsius(15.0);

// The watch that the possible cultures ask for: the worst of every column of data/cultures.csv.
struct EvidenceNeeded {
    int readings = 0;
    double days = 0.0;
    double days_below_15_c = 0.0;
    double resolution_sg = 0.001;
    Temperature nothing_below = Temperature::from_celsius(0.0);  // colder than this a culture sleeps: proves nothing
};
[[nodiscard]] EvidenceNeeded evidence_needed(const std::vector<const tables::CultureKind*>& cultures);

// The newest readings that agree within `resolution_sg`: index of the first of them; the size when there are none.
// A fall before them was work, and the watch begins when it ended.
[[nodiscard]] std::size_t plateau_begin(const std::vector<engine::GravityReading>& watch, double resolution_sg);

// A forced test of days shows what these leave: they are done by then.
[[nodiscard]] bool forced_test_counts(const tables::CultureKind& kind);
// The longest way to a stable gravity among them: before it, slow organisms may still wake.
[[nodiscard]] double days_to_wake(const std::vector<const tables::CultureKind*>& cultures);
// Long, warm and late enough that no change bounds what can still come.
[[nodiscard]] bool past_the_false_plateau(const Evidence& seen,
                                          const std::vector<const tables::CultureKind*>& cultures);

}  // namespace undercroft::engine::package
