// What is due in the cellar, when, why, and the command that would settle it.
//
// Holds: pure, from the book alone: nothing is due that a later entry has settled, and every line names what it rests
// on. Intervals are those the keeper set (entry `interval`), else the defaults below.
// Leaves out: hands, conflicts between soleras, and forecasts: a pull window is reckoned from past turns and from
// common practice, and the reading decides.
#pragma once

#include <vector>

#include "app/views.hpp"
#include "app/views_of.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// Common practice, no source; the keeper's `remind` comes first.
inline constexpr int k_solera_reading_days = 42;
inline constexpr int k_watched_reading_days = 14;  // while a gravity is watched before packaging
inline constexpr int k_wood_top_up_days = 91;

// Everything to come, most urgent first: what does harm by waiting, then by day.
[[nodiscard]] std::vector<DueLine> due_lines(const Seen& seen, const tables::Tables& tables);

}  // namespace undercroft::app
