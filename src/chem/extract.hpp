// Density and extract: what a hydrometer or a Brix refractometer says about wort, juice and beer.
//
// Gravity is SG 20/20 °C. Extract is in % by mass: degrees Plato for wort, Brix for juice, one scale here.
// Holds: plato_of_gravity rises everywhere, is 0 at 1.000 and negative below it, since the apparent extract of a
// dry beer is negative and a fall from 1.002 to 0.998 hides a volume of CO2. gravity_of_plato is its inverse.
// Leaves out: the 0.00005 (at 10 %) to 0.0001 (at 20 %) between SG weighed in air, as in the extract tables, and in
// vacuum, the density ratio: below what a hydrometer shows; refractometer readings of beer, where alcohol spoils it.
#pragma once

#include "base/result.hpp"
#include "units/temperature.hpp"

namespace undercroft::chem {

inline constexpr double k_water_g_per_mol = 18.015;

// kg/m3 at 20 °C by water_density(); turns a gravity into g per litre.
inline constexpr double k_water_density_at_20 = 998.2031;

// °P from SG: the ASBC cubic to 1.083 (20 °P), the cubic of NBS Circular 440 from 1.087 on, blended between; both
// describe the same table. The cubic itself says -0.003 °P at 1.000: that offset is taken out in full at 1.000 and
// below, and fades to nothing at 1.010. Made for 0 to 40 °P; below 1.000 the cubic runs on.
[[nodiscard]] double plato_of_gravity(double gravity);
// The SG that plato_of_gravity sends to `plato`. Asked outside -70 to 150 °P, it gives the gravity of that end.
[[nodiscard]] double gravity_of_plato(double plato);
// SG of juice, puree or syrup from its Brix (% by mass, as sucrose), 0 to 85 °Bx, from sucrose_density() weighed in
// air. The same scale as Plato: within 5e-5 of gravity_of_plato to 20 °Bx and 1.2e-4 to 40, where those tables end.
[[nodiscard]] double gravity_of_brix(double brix);

// What a hydrometer read at `read_at` would have shown at 20 °C, in SG 20/20. The glass grows by 25e-6 per kelvin
// (soda glass, NBS practice, from memory) and the liquid expands like a sucrose solution of its density; beer of
// 5 % vol expands a little more, which leaves up to 0.0002 at 30 °C.
// Fails: outside_model when either temperature is outside 0 to 40 °C or the reading outside 0.95 to 1.25.
[[nodiscard]] Result<double> gravity_at_20(double reading, Temperature read_at, Temperature calibrated_at);

// kg/m3, air-free water at 1 atm, 0 to 80 °C: Kell 1975 restated on ITS-90, as in ICUMSA SPS-4.
[[nodiscard]] double water_density(Temperature temperature);
// kg/m3, 0 to 80 °C, mass fraction 0 to 0.85 (it runs on smoothly a little below 0): ICUMSA SPS-4, Bubnik, Kadlec,
// Urban & Bruhns, Sugar Technologists Manual, 1995.
[[nodiscard]] double sucrose_density(double mass_fraction, Temperature temperature);

}  // namespace undercroft::chem
