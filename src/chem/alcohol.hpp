// Alcohol, real and apparent extract of beer, and how they move as it ferments and is blended.
//
// Alcohol by mass and extracts are in % by mass (g per 100 g of beer), alcohol by volume in % vol at 20 °C, gravity
// in SG 20/20. Balling's balance: 2.0665 g extract give 1 g ethanol, 0.9565 g CO2 and 0.11 g yeast (read in Nielsen,
// Kristiansen et al., Brauwelt Int. 2007).
// Holds: gravity_of(composition_of(original, gravity)) is `gravity` wherever fermenting that wort can reach it, and
// fermenting in two steps ends where one step does. Blends are mixed as Composition, per litre, never as gravities
// or original extracts.
// Leaves out: the fit is of beers to some 12 % by mass; alcohol made from anything but extract; acids as extract.
// Against measured beers the original extract comes back within 0.25 °P (tests/published/extract_alcohol_test.cpp).
#pragma once

#include "base/result.hpp"
#include "chem/ethanol_water.hpp"

namespace undercroft::chem {

inline constexpr double k_extract_per_ethanol = 2.0665;                       // g/g
inline constexpr double k_ethanol_per_extract = 1.0 / k_extract_per_ethanol;  // 0.4839 g/g
inline constexpr double k_co2_per_extract = 0.9565 / k_extract_per_ethanol;   // 0.4629 g/g
// What leaves the liquid per gram of ethanol made: CO2 and the yeast that settles.
inline constexpr double k_lost_per_ethanol = k_extract_per_ethanol - 1.0;

// Real from apparent extract: RE = (AE + 0.4654 A - 0.003615 A^2)/0.9962, analysts' practice for finished beer.
// It makes unfermented wort 0.4 % richer than itself, so the divisor fades in from 1 at no alcohol to its full value
// at 1 % by mass: wort is then exactly wort, and beer exactly as published.
[[nodiscard]] double real_extract_of(double apparent_extract, double alcohol_by_mass);
[[nodiscard]] double apparent_extract_of(double real_extract, double alcohol_by_mass);
// Balling: OE = 100 (2.0665 A + RE)/(100 + 1.0665 A). Holds for one wort, not for beer thinned with water.
[[nodiscard]] double original_extract_of(double alcohol_by_mass, double real_extract);
// % vol from % mass and the beer's gravity: the factor is 1.2648.
[[nodiscard]] double abv_of(double alcohol_by_mass, double gravity);

struct Attenuation {
    double alcohol_by_mass = 0;    // %
    double alcohol_by_volume = 0;  // %
    double original_extract = 0;   // °P
    double apparent_extract = 0;   // °P, negative below 1.000
    double real_extract = 0;       // % by mass
    double real_degree = 0;        // % of the extract fermented, by mass (ASBC Beer-6)
    double apparent_degree = 0;    // %, above 100 when the beer is lighter than water
};

// Fails: bad_input when the original gravity is not above 1.000 or the gravity is above the original;
// outside_model when the gravity is lower than fermenting every gram of extract could make it.
[[nodiscard]] Result<Attenuation> attenuation_of(double original_gravity, double gravity);

// What a litre at 20 °C holds. This is what mixes: the blend of two liquids has the mean of each field, by volume.
struct Composition {
    double ethanol_g_per_l = 0;
    double real_extract_g_per_l = 0;
    friend bool operator==(const Composition&, const Composition&) = default;
};

// SG 20/20, by the relations above; water gives 1. Falls with ethanol, rises with extract.
// Fields must be finite and not negative.
[[nodiscard]] double gravity_of(const Composition& composition);
[[nodiscard]] double abv_of(const Composition& composition);
// °P of the wort that would have given it: Balling's sum, so water blended in lowers it.
[[nodiscard]] double original_extract_of(const Composition& composition);

// The wort of `original_gravity` fermented to `gravity`. Stays on that wort's line: unfermented when `gravity` is
// above the original, all extract gone when it is lower than fermenting could bring.
[[nodiscard]] Composition composition_of(double original_gravity, double gravity);
// For beer of known strength. Extract is never negative: a gravity too low for the alcohol leaves 0.
[[nodiscard]] Composition composition_from_gravity_and_abv(double gravity, double abv);
// Ferments on (or back, for a reading above) along Balling's line until gravity_of equals the reading; where that
// cannot be, stops at no extract left or no ethanol. Counts the shrinkage of the liquid: per litre of what it became.
[[nodiscard]] Composition fermented_to(const Composition& before, double gravity_read);

// g CO2 made per litre of `before` when it ferments to `after` (both on one Balling line); negative going back.
[[nodiscard]] double co2_made_between(const Composition& before, const Composition& after);

}  // namespace undercroft::chem
