// What a liquid is when it enters the cellar: by what was said of it, with usual values and wide spreads for the rest.
#pragma once

#include "engine/state/state.hpp"

namespace undercroft::engine {

inline constexpr double k_assumed_alcohol_sd = 2.0;       // % vol; common practice, no source
inline constexpr double k_alcohol_from_gravity_sd = 0.2;  // Balling against measured beers, within 0.25 °P
inline constexpr double k_ph_reading_sd = 0.05;
inline constexpr double k_ta_reading_sd = 0.2;  // g/L

[[nodiscard]] Estimate exactly_none();
[[nodiscard]] LiquidState of_beer(const ledger::LotEnters& lot);
// Water, syrup, spirit, fruit, or what nobody knows.
[[nodiscard]] LiquidState of_other(const ledger::LotEnters& lot);
[[nodiscard]] LiquidState of_addition(const ledger::Addition& addition);

}  // namespace undercroft::engine
