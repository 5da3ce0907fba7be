// How sure it is on a day that a culture still lives in a liquid: what the ledger carries, less what time does.
//
// Brettanomyces, bacteria and whatever is not known never fall without a kill step. Saccharomyces, killers included,
// falls to possible after 12 months below pH 3.4 without fermentables (common practice, no source), and stays there
// until it is pitched, poured in or found alive again. It is held to that strictly: pH and gravity must have been read,
// the gravity at or below what that kind can reach at its best, and beer, fruit, sugar, priming or any pitch begin the
// 12 months anew. So a diastatic yeast practically never falls. Leaves out: what was fallen where it came from. Liquid
// that is poured onto another is likely to bring what it carried.
#pragma once

#include <optional>

#include "base/instant.hpp"
#include "engine/state/state.hpp"
#include "ledger/liquid.hpp"
#include "tables/culture.hpp"

namespace undercroft::engine {

inline constexpr double k_starving_below_ph = 3.4;
inline constexpr double k_years_to_fall = 1.0;

// The time of at least a year up to `until` in which nothing was left for what ferments no further than it says;
// nothing when there may have been something to eat, or when nobody looked.
[[nodiscard]] std::optional<LiquidState::Starved> starving(const LiquidState& state, Instant until);

// Of what stands in the ledger for the liquid of `state`, as it is at `when`. `kind` is its row of data/cultures.csv,
// nullptr for one that this program does not know.
[[nodiscard]] ledger::Certainty certainty_at(const ledger::CultureHere& here, const LiquidState& state,
                                             const tables::CultureKind* kind, Instant when);

}  // namespace undercroft::engine
