// Carbon dioxide in beer: how much dissolves, and what pressure a closed container comes to.
//
// CO2 is counted in g per litre of beer; "volumes" are litres of gas at 0 °C and 1 atm per litre, for display.
// Pressures of CO2, air and vapour are absolute; what a gauge shows, and what glass feels, is GaugePressure.
// Two bases, never mixed: *display* (the charts the trade carbonates by) and *safety* (at each temperature the model
// that gives the higher pressure; models of CO2 in beer differ by 9 to 12 %).
// Leaves out: the gas not being ideal, which would add 1 to 3.5 % to the pressure of CO2 between 1 and 6 bar (by
// Weiss's virial coefficient), so keep a margin; gas lost through closures.
#pragma once

#include "base/result.hpp"
#include "units/pressure.hpp"
#include "units/temperature.hpp"

namespace undercroft::chem {

// 44.009 g/mol over 22.263 L/mol, the real molar volume at 0 °C and 1 atm (second virial coefficient of Weiss 1974,
// -149.6 mL/mol). Printed tables round to 1.977, and some take the ideal gas, 1.963.
inline constexpr double k_co2_g_per_volume = 1.9768;
inline constexpr double k_co2_g_per_mol = 44.009;

[[nodiscard]] constexpr double co2_g_per_l_of_volumes(double volumes) {
    return volumes * k_co2_g_per_volume;
}
[[nodiscard]] constexpr double co2_volumes_of_g_per_l(double g_per_l) {
    return g_per_l / k_co2_g_per_volume;
}

// --- how much dissolves: g/L per bar of CO2, absolute ------------------------------------------

// Weiss 1974, Mar. Chem. 2:203, at zero salinity. 0 to 40 °C.
[[nodiscard]] double co2_in_water_weiss(Temperature temperature);
// Carroll, Slupsky & Mather 1991, J. Phys. Chem. Ref. Data 20:1201. 0 to 160 °C; up to 2.5 % from Weiss.
[[nodiscard]] double co2_in_water_carroll(Temperature temperature);
// Of the real gas: its fugacity over its pressure, exp(B p/RT) with the second virial coefficient of Weiss 1974. Not in
// the pressures below, which it would raise by 1 to 3.5 % between 1 and 6 bar. 0 to 50 °C, to 10 bar.
[[nodiscard]] double co2_fugacity_coefficient(AbsolutePressure pressure, Temperature temperature);
// What alcohol and dissolved extract take off, as a factor: Commission Reg. (EEC) 2676/90 chapter 37, made at 20 °C
// for wine; its sugar term probably overstates dextrins. To 20 % vol and 200 g/L.
[[nodiscard]] double co2_solubility_factor(double abv, double extract_g_per_l);
// Weiss times that factor; above 40 °C Weiss at 40 °C carried on along Carroll's slope, so that there is no step (it
// is 2 % below Carroll's own value, the safer side). 0 to 50 °C.
[[nodiscard]] double co2_in_beer_by_composition(double abv, double extract_g_per_l, Temperature temperature);
// Exponential fit to the printed carbonation chart of average beer (constants from memory; the chart confirms them to
// its last digit, 0 to 25 °C).
[[nodiscard]] double co2_in_beer_by_chart(Temperature temperature);
// Safety: the smaller of the two above.
[[nodiscard]] double co2_in_beer_for_safety(double abv, double extract_g_per_l, Temperature temperature);

// Buck 1981/1996, over water; 0 to 50 °C. Beer's own vapour is a little lower in water and higher in ethanol.
[[nodiscard]] AbsolutePressure water_vapour_pressure(Temperature temperature);
// International Standard Atmosphere, -500 to 5000 m: 1.013 bar at sea level, 0.899 at 1000 m.
[[nodiscard]] AbsolutePressure ambient_pressure_at(double altitude_m);
inline constexpr AbsolutePressure k_sea_level_pressure = AbsolutePressure::from_bar(k_standard_atmosphere_bar);

// --- display: carbonation of kegs --------------------------------------------------------------

// Both by co2_in_beer_by_chart, under pure CO2 at rest; each the inverse of the other. The pressure is negative when
// the beer holds less than it would in the open under CO2.
// Fails: outside_model outside 0 to 30 °C; bad_input for a negative amount or a pressure below vacuum.
[[nodiscard]] Result<GaugePressure> pressure_for_carbonation(double co2_g_per_l, Temperature temperature,
                                                             AbsolutePressure ambient = k_sea_level_pressure);
[[nodiscard]] Result<double> carbonation_under(GaugePressure pressure, Temperature temperature,
                                               AbsolutePressure ambient = k_sea_level_pressure);
// Volumes, as the industry chart of ASBC Beer-13 lineage prints them (fit from memory, within 0.03 on its rows of 0
// to 7 °C and 4 to 15 psi). For showing beside the others; kegs are set by pressure_for_carbonation.
[[nodiscard]] double chart_volumes(GaugePressure pressure, Temperature temperature);

// g/L still in beer that finished fermenting open to an air lock, by the highest temperature it has seen since: a fit
// common in the trade, 0 to 34 °C and held level outside. Beer that still works, or lies under CO2, holds what its
// coolest recent temperature allows instead, so safety takes the larger of the two unless it was measured.
[[nodiscard]] double co2_left_after_fermentation(Temperature warmest_since,
                                                 AbsolutePressure ambient = k_sea_level_pressure);

// Safety, of beer that was not measured: the larger of what stays at the warmest since it finished, and what a beer
// that still works or lies under CO2 holds at its coolest of late.
[[nodiscard]] double co2_left_for_safety(Temperature warmest_since, Temperature coolest_while_working,
                                         AbsolutePressure ambient = k_sea_level_pressure);

// g/L of CO2 that bacteria make of so much malic acid, 0.328 g a gram; hardly any fall of gravity shows it.
[[nodiscard]] double co2_of_malolactic(double malic_g_per_l);

// --- safety: closed bottles, cans and kegs -----------------------------------------------------

// without_oxygen: trapped, and yeast has eaten its oxygen (20.95 % of dry air). Never for safety: nothing proves it.
enum class AirInHeadSpace { trapped, purged, without_oxygen };

struct ClosedContainer {
    double co2_g_per_l = 0;  // all that will be in it, per litre of beer at filling: dissolved, primed, still to come
    double head_space = 0;   // share of the whole inside that is gas at filling, 0 to 1
    AirInHeadSpace air = AirInHeadSpace::trapped;
    double abv = 0;              // % vol
    double extract_g_per_l = 0;  // real extract
    Temperature filled_at = Temperature::from_celsius(20.0);
    AbsolutePressure ambient = k_sea_level_pressure;  // at filling and around it now
};

struct ContainerPressure {
    AbsolutePressure co2 = AbsolutePressure::from_bar(0.0);
    AbsolutePressure air = AbsolutePressure::from_bar(0.0);
    AbsolutePressure vapour = AbsolutePressure::from_bar(0.0);
    GaugePressure total = GaugePressure::from_bar(0.0);  // the sum above ambient: what the wall bears
};

// The same container at one temperature, asked about many contents: what depends on the temperature alone is worked
// out once. Checks nothing; pressure_in is this with its checks.
class PressureAt {
public:
    // Of `like` only alcohol, extract, air, filled_at and ambient are taken.
    PressureAt(const ClosedContainer& like, Temperature temperature);
    // Head space must leave gas at this temperature.
    [[nodiscard]] ContainerPressure of(double co2_g_per_l, double head_space) const;

private:
    double m_growth;             // litres of beer at the temperature for a litre filled
    double m_dissolves;          // g/L per bar
    double m_gas;                // g/L of gas per bar
    double m_air_per_headspace;  // bar of air for a share of head space that stays as large as it was
    double m_vapour;             // bar
    AbsolutePressure m_ambient;
};

// Pressure at rest on the safety basis: co2_in_beer_for_safety, trapped air with its oxygen still there, the liquid
// growing like water (beer grows 0.05 % more from 20 to 35 °C: 1 % of a head space of 4 %), vapour of water.
// Rises with temperature from 4 °C on, with CO2, and with less head space once the beer is warm.
// Fails: outside_model outside 0 to 50 °C (filled or now), below 2 % head space, or below 3 % above 35 °C, where the
// liquid itself would soon press on the glass, above 20 % vol or 200 g/L; bad_input for what cannot be.
[[nodiscard]] Result<ContainerPressure> pressure_in(const ClosedContainer& container, Temperature temperature);

}  // namespace undercroft::chem
