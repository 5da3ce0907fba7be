#include "chem/gas.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "chem/extract.hpp"
#include "chem/sugar.hpp"
#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_gas_constant_bar_l = 0.08314462618;  // bar L/(mol K)
constexpr double k_oxygen_in_air = 0.2095;              // by volume, dry
constexpr Temperature k_weiss_until = Temperature::from_celsius(40.0);

double co2_gas_g_per_l_per_bar(Temperature temperature) {
    return k_co2_g_per_mol / (k_gas_constant_bar_l * temperature.in_kelvin());
}

bool between(double value, double low, double high) {
    return value >= low && value <= high;
}

Result<void> check_ambient(AbsolutePressure ambient) {
    if (between(ambient.in_bar(), 0.5, 1.1)) return {};
    return fail(
        ErrorKind::bad_input, "ambient pressure",
        number_text(ambient.in_bar(), 3) + " bar is no air pressure a cellar has; it is between 0.5 and 1.1 bar.");
}

Result<void> check_keg(Temperature temperature, AbsolutePressure ambient) {
    TRY_VOID(check_ambient(ambient));
    if (between(temperature.in_celsius(), 0.0, 30.0)) return {};
    return fail(ErrorKind::outside_model, "temperature",
                text_of(temperature) + " is outside 0 to 30 °C, where the carbonation chart holds.");
}

Result<void> check_temperature(const char* where, Temperature temperature) {
    if (between(temperature.in_celsius(), 0.0, 50.0)) return {};
    return fail(ErrorKind::outside_model, where,
                text_of(temperature) + " is outside 0 to 50 °C, where the pressure in a bottle can be worked out.");
}

Result<void> check_head_space(double head_space, Temperature temperature) {
    if (!(head_space >= 0.0 && head_space < 1.0)) {
        return fail(ErrorKind::bad_input, "head space",
                    percent_text(head_space, 1) + " is no share of a container; it is between 0 and 100 %.");
    }
    const bool warm = temperature.in_celsius() > 35.0;
    const double least = warm ? 0.03 : 0.02;
    if (head_space >= least) return {};
    return fail(ErrorKind::outside_model, "head space",
                percent_text(head_space, 1) + " is below " + percent_text(least, 0) +
                    (warm ? ", the least for a store above 35 °C" : ", the least that is safe") +
                    ": the beer grows as it warms and soon leaves the gas no room.",
                {}, "Leave more head space.");
}

Result<void> check_contents(const ClosedContainer& container) {
    if (!(container.co2_g_per_l >= 0.0 && std::isfinite(container.co2_g_per_l))) {
        return fail(ErrorKind::bad_input, "CO2",
                    number_text(container.co2_g_per_l, 2) + " g/L cannot be; it is zero or more.");
    }
    if (!between(container.abv, 0.0, 20.0)) {
        return fail(
            ErrorKind::outside_model, "alcohol",
            number_text(container.abv, 1) + " % vol is outside 0 to 20 % vol, where the solubility of CO2 is known.");
    }
    if (!between(container.extract_g_per_l, 0.0, 200.0)) {
        return fail(ErrorKind::outside_model, "extract",
                    number_text(container.extract_g_per_l, 0) +
                        " g/L is outside 0 to 200 g/L, where the solubility of CO2 is known.");
    }
    return {};
}

}  // namespace

double co2_in_water_weiss(Temperature temperature) {
    const double hundreds = temperature.in_kelvin() / 100.0;
    const double mol_per_l_atm = std::exp(-58.0931 + 90.5069 / hundreds + 22.2940 * std::log(hundreds));
    return mol_per_l_atm * k_co2_g_per_mol / k_standard_atmosphere_bar;
}

double co2_in_water_carroll(Temperature temperature) {
    const double t = temperature.in_kelvin();
    const double henry_mpa = std::exp(-6.8346 + (1.2817e4 + (-3.7668e6 + 2.997e8 / t) / t) / t);  // per mole fraction
    const double water_mol_per_l = water_density(temperature) / k_water_g_per_mol;
    return 0.1 / henry_mpa * water_mol_per_l * k_co2_g_per_mol;
}

double co2_fugacity_coefficient(AbsolutePressure pressure, Temperature temperature) {
    const double t = temperature.in_kelvin();
    const double b = -1636.75 + t * (12.0408 + t * (-3.27957e-2 + t * 3.16528e-5));  // mL/mol
    return std::exp(b * 1e-3 * pressure.in_bar() / (k_gas_constant_bar_l * t));
}

double co2_solubility_factor(double abv, double extract_g_per_l) {
    return (0.86 - 0.01 * abv) / 0.86 * (1.0 - 0.00144 * extract_g_per_l);
}

double co2_in_beer_by_composition(double abv, double extract_g_per_l, Temperature temperature) {
    const double in_water = temperature <= k_weiss_until
                                ? co2_in_water_weiss(temperature)
                                : co2_in_water_weiss(k_weiss_until) * co2_in_water_carroll(temperature) /
                                      co2_in_water_carroll(k_weiss_until);
    return in_water * co2_solubility_factor(abv, extract_g_per_l);
}

double co2_in_beer_by_chart(Temperature temperature) {
    return 10.0 * std::exp(-10.73797 + 2617.25 / temperature.in_kelvin());
}

double co2_in_beer_for_safety(double abv, double extract_g_per_l, Temperature temperature) {
    return std::min(co2_in_beer_by_composition(abv, extract_g_per_l, temperature), co2_in_beer_by_chart(temperature));
}

AbsolutePressure water_vapour_pressure(Temperature temperature) {
    const double t = temperature.in_celsius();
    return AbsolutePressure::from_bar(6.1121e-3 * std::exp((18.678 - t / 234.5) * t / (257.14 + t)));
}

AbsolutePressure ambient_pressure_at(double altitude_m) {
    return AbsolutePressure::from_bar(k_standard_atmosphere_bar * std::pow(1.0 - 2.25577e-5 * altitude_m, 5.25588));
}

Result<GaugePressure> pressure_for_carbonation(double co2_g_per_l, Temperature temperature, AbsolutePressure ambient) {
    TRY_VOID(check_keg(temperature, ambient));
    if (!(co2_g_per_l >= 0.0 && std::isfinite(co2_g_per_l))) {
        return fail(ErrorKind::bad_input, "CO2", number_text(co2_g_per_l, 2) + " g/L cannot be; it is zero or more.");
    }
    return gauge(AbsolutePressure::from_bar(co2_g_per_l / co2_in_beer_by_chart(temperature)), ambient);
}

Result<double> carbonation_under(GaugePressure pressure, Temperature temperature, AbsolutePressure ambient) {
    TRY_VOID(check_keg(temperature, ambient));
    const double absolute = pressure.above(ambient).in_bar();
    if (!(absolute >= 0.0 && std::isfinite(absolute))) {
        return fail(ErrorKind::bad_input, "pressure", text_of(pressure) + " is below vacuum.");
    }
    return absolute * co2_in_beer_by_chart(temperature);
}

double chart_volumes(GaugePressure pressure, Temperature temperature) {
    const double per_psi = 0.01821 + 0.090115 * std::exp(-(temperature.in_fahrenheit() - 32.0) / 43.11);
    return (pressure.in_psi() + 14.695) * per_psi - 0.003342;
}

double co2_left_after_fermentation(Temperature warmest_since, AbsolutePressure ambient) {
    const double celsius = std::clamp(warmest_since.in_celsius(), 0.0, 34.0);
    const double f = Temperature::from_celsius(celsius).in_fahrenheit();
    const double volumes = 3.0378 - 0.050062 * f + 0.00026555 * f * f;
    return co2_g_per_l_of_volumes(volumes) * ambient.in_bar() / k_standard_atmosphere_bar;
}

double co2_left_for_safety(Temperature warmest_since, Temperature coolest_while_working, AbsolutePressure ambient) {
    return std::max(co2_left_after_fermentation(warmest_since, ambient),
                    co2_left_after_fermentation(coolest_while_working, ambient));
}

double co2_of_malolactic(double malic_g_per_l) {
    return malic_g_per_l * k_co2_per_malic_by_bacteria;
}

Result<ContainerPressure> pressure_in(const ClosedContainer& container, Temperature temperature) {
    TRY_VOID(check_temperature("filled at", container.filled_at));
    TRY_VOID(check_temperature("temperature", temperature));
    TRY_VOID(check_ambient(container.ambient));
    TRY_VOID(check_head_space(container.head_space, temperature));
    TRY_VOID(check_contents(container));

    return PressureAt(container, temperature).of(container.co2_g_per_l, container.head_space);
}

PressureAt::PressureAt(const ClosedContainer& like, Temperature temperature)
    : m_growth(water_density(like.filled_at) / water_density(temperature)),
      m_dissolves(co2_in_beer_for_safety(like.abv, like.extract_g_per_l, temperature)),
      m_gas(co2_gas_g_per_l_per_bar(temperature)),
      m_air_per_headspace(0.0),
      m_vapour(water_vapour_pressure(temperature).in_bar()),
      m_ambient(like.ambient) {
    if (like.air == AirInHeadSpace::purged) return;
    const double at_filling = like.ambient.in_bar() - water_vapour_pressure(like.filled_at).in_bar();
    m_air_per_headspace = at_filling * temperature.in_kelvin() / like.filled_at.in_kelvin();
    if (like.air == AirInHeadSpace::without_oxygen) m_air_per_headspace *= 1.0 - k_oxygen_in_air;
}

ContainerPressure PressureAt::of(double co2_g_per_l, double head_space) const {
    // Per litre of the container: the beer filled into it, as it stands now, and the gas above it.
    const double beer = 1.0 - head_space;
    const double liquid = beer * m_growth;
    const double gas = 1.0 - liquid;
    const double co2 = co2_g_per_l * beer / (m_dissolves * liquid + m_gas * gas);
    const double air = m_air_per_headspace * head_space / gas;
    return ContainerPressure{
        AbsolutePressure::from_bar(co2),
        AbsolutePressure::from_bar(air),
        AbsolutePressure::from_bar(m_vapour),
        gauge(AbsolutePressure::from_bar(co2 + air + m_vapour), m_ambient),
    };
}

}  // namespace undercroft::chem
