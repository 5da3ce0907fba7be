// What becomes of strength, gravity and volume when liquids are poured together, or one ferments to its limit.
//
// Holds: masses of ethanol, extract and the whole add up; volumes do not, they shrink. In beer the shrinkage is below
// 0.1
// %, which is why the book adds volumes (it counts what a dip stick finds by `settle`); with spirit it is up to 3.7 %.
// Leaves out: heat of mixing (all at 20 °C).
#pragma once

#include <span>

#include "base/result.hpp"
#include "chem/alcohol.hpp"

namespace undercroft::chem {

struct Poured {
    Composition composition;  // per litre of it; {} is water
    double litres = 0.0;
};
struct Mixed {
    Composition composition;  // per litre of the mix
    double litres = 0.0;
    double shrinks = 0.0;  // share of the volumes added up; negative when it grows
};
// Beers, worts, water, fruit juice as extract. Gravities by chem/alcohol.hpp.
// Fails: bad_input for a negative volume or none; outside_model above 15 % vol, where those relations end.
[[nodiscard]] Result<Mixed> mixed(std::span<const Poured> parts);

struct PouredSpirit {
    double abv = 0.0;  // % vol; 0 is water
    double litres = 0.0;
};
struct MixedSpirit {
    double abv = 0.0;
    double litres = 0.0;
    double shrinks = 0.0;
};
// Ethanol and water alone, 0 to 100 % vol, by the densities of OIML R22.
[[nodiscard]] Result<MixedSpirit> mixed_spirit(std::span<const PouredSpirit> parts);

// Where wort of that original gravity stands at an apparent attenuation in per cent (a forced test, a yeast's sheet).
// Fails: bad_input for an original gravity not above 1.000; outside_model beyond what fermenting every gram would
// reach.
[[nodiscard]] Result<Attenuation> at_attenuation(double original_gravity, double apparent_percent);
// With every gram of extract fermented: the lowest any culture could reach.
[[nodiscard]] Result<Attenuation> at_the_limit(double original_gravity);

}  // namespace undercroft::chem
