// Colour of wort and beer: EBC and SRM, what malt gives, and what mixing does.
//
// EBC = 25 A, SRM = 12.7 A with A the absorbance at 430 nm through 1 cm of clear beer (EBC Analytica 8.5, ASBC
// Beer-10). Absorbances add, so the colour of a blend is the mean of its parts by volume (Lambert and Beer). Leaves
// out: hue. Fruit breaks the average spectrum of malt: a red beer and a brown one may read the same.
#pragma once

#include <span>

#include "base/result.hpp"

namespace undercroft::chem {

inline constexpr double k_ebc_per_absorbance = 25.0;
inline constexpr double k_srm_per_absorbance = 12.7;
inline constexpr double k_ebc_per_srm = k_ebc_per_absorbance / k_srm_per_absorbance;  // 1.9685

[[nodiscard]] constexpr double ebc_of_srm(double srm) {
    return srm * k_ebc_per_srm;
}
[[nodiscard]] constexpr double srm_of_ebc(double ebc) {
    return ebc / k_ebc_per_srm;
}

// A sample is clear enough to be read when its absorbance at 700 nm is below 0.039 of that at 430.
[[nodiscard]] constexpr bool clear_enough(double absorbance_430, double absorbance_700) {
    return absorbance_700 < 0.039 * absorbance_430;
}
// Absorbance through 1 cm at a wavelength of 400 to 700 nm, for the average spectrum of malt beers:
// A = SRM/12.7 (0.02465 exp(-(l - 430)/17.591) + 0.97535 exp(-(l - 430)/82.122)), J. ASBC 2008, from memory.
[[nodiscard]] double absorbance_at(double nm, double srm);

struct ColourPart {
    double ebc = 0.0;
    double litres = 0.0;
};
// Fails: bad_input for a negative part or nothing at all.
[[nodiscard]] Result<double> ebc_of_blend(std::span<const ColourPart> parts);

struct MaltPart {
    double kilograms = 0.0;
    double ebc = 0.0;  // of the malt, as on its sheet (EBC of the congress wort)
};
inline constexpr double k_malt_law_until_srm = 50.0;
// SRM of the wort: 1.4922 m^0.6859, m = sum of lb x degrees Lovibond in a US gallon; a trade journal's letter of the
// 1990s (secondary reproduction), fitted to beers up to 50 SRM. Lovibond of malt = (EBC + 1.2)/2.65 (from memory).
// Fails: bad_input for what cannot be; outside_model above 50 SRM.
[[nodiscard]] Result<double> srm_of_malt(std::span<const MaltPart> malts, double litres);
// The same from malt colour units.
[[nodiscard]] double srm_of_malt_colour_units(double units);
[[nodiscard]] double lovibond_of_malt_ebc(double ebc);

}  // namespace undercroft::chem
