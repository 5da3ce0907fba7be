// What a refractometer says: of wort, and, with a hydrometer beside it, of beer.
//
// Refractive index at 589 nm and 20 °C. Holds: brix_of_index(index_of_brix(b)) is b.
// Leaves out: wort is not sucrose (many multiply its reading by 0.96 to 1.0 for their own instrument: give the
// corrected one); temperature, which a refractometer corrects itself.
#pragma once

#include "base/result.hpp"

namespace undercroft::chem {

// Brix of a sucrose solution from its refractive index, 0 to 85 °Bx: fifth-degree fit to the ICUMSA table (secondary
// reproduction), which it meets to 0.02 °Bx, freed of its -0.009 °Bx at water.
[[nodiscard]] double brix_of_index(double index);
[[nodiscard]] double index_of_brix(double brix);
// How much % by mass of ethanol raises the refractive index of water, to 20 %: CRC Handbook, concentrative properties
// of aqueous solutions (from memory).
[[nodiscard]] double index_rise_of_ethanol(double percent_mass);

struct FromBothInstruments {
    double alcohol_by_mass = 0.0;    // %
    double alcohol_by_volume = 0.0;  // %
    double real_extract = 0.0;       // % by mass
    double original_extract = 0.0;   // °P, by Balling
};
// Strength of beer from its gravity and its refractometer reading alone, nothing known of its wort: alcohol raises the
// one and lowers the other. The indices of extract and ethanol are added. An error of 0.1 °Bx makes 0.15 % vol, one of
// 0.001 SG 0.2 % vol; sugar-free acids and dextrins add some 0.3 % vol of doubt.
// Fails: bad_input when no strength of 0 to 20 % by mass gives both readings.
[[nodiscard]] Result<FromBothInstruments> strength_from(double gravity, double brix_read);

// What the refractometer would read in such beer.
[[nodiscard]] double brix_read_in(double real_extract, double alcohol_by_mass);

}  // namespace undercroft::chem
