// Density and strength of ethanol in water: % by volume against % by mass.
//
// % vol is defined at 20 °C: litres of pure ethanol, measured at 20 °C, in 100 litres at 20 °C.
// Leaves out: extract. In beer use abv_of (chem/alcohol.hpp), which takes the beer's own density.
#pragma once

#include "units/temperature.hpp"

namespace undercroft::chem {

// kg/m3 at 20 °C, as OIML R22 gives it for p = 1.
inline constexpr double k_ethanol_density_at_20 = 789.24;

// kg/m3, mass fraction 0 to 1, -20 to 40 °C: OIML R22 (1975), general formula; Directive 76/766/EEC has the same.
[[nodiscard]] double ethanol_water_density(double mass_fraction, Temperature temperature);
// Both 0 to 100 %, each the inverse of the other.
[[nodiscard]] double percent_volume_of_percent_mass(double percent_mass);
[[nodiscard]] double percent_mass_of_percent_volume(double percent_volume);

}  // namespace undercroft::chem
