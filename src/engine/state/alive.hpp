// How sure it is on a day that a culture still lives in a liquid: what the ledger carries, less what time does.
//
// Brettanomyces, bacteria and whatever is not known never fall without a kill step. Saccharomyces, killers included,
// falls to possible after 12 months below pH 3.4 without fermentables (common practice, no source). It is held to that
// strictly: pH and gravity must have been read, the gravity at or below what that kind can reach at its best, and
// beer, fruit, sugar, priming or a pitch begin the 12 months anew. So a diastatic yeast practically never falls.
// Leaves out: it does not travel. Liquid that is poured onto another is likely to bring what it carried, asleep or not.
#pragma once

#include <vector>

#include "base/instant.hpp"
#include "engine/state/state.hpp"
#include "ledger/liquid.hpp"
#include "tables/culture.hpp"

namespace undercroft::engine {

inline constexpr double k_starving_below_ph = 3.4;

// When the 12 months began for a Saccharomyces of that kind in the liquid; nothing when it may have something to eat,
// or when nobody looked.
[[nodiscard]] std::optional<Instant> starving_since(const LiquidState& state, const tables::CultureKind& kind);

// Of what stands in the ledger for the liquid of `state`, as it is at `when`. `kind` is the row of data/cultures.csv,
// nullptr for one that this program does not know.
[[nodiscard]] ledger::Certainty certainty_at(ledger::Certainty in_ledger, const LiquidState& state,
                                             const tables::CultureKind* kind, Instant when);

}  // namespace undercroft::engine
