#include "chem/extract.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "chem/root.hpp"
#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_air_density = 1.2;                   // kg/m3, at 20 °C
constexpr double k_hydrometer_glass_expansion = 25e-6;  // per kelvin, by volume

// ASBC table of extract, cubic fit.
double asbc_plato(double s) {
    return ((135.997 * s - 630.272) * s + 1111.14) * s - 616.868;
}

// NBS Circular 440 (1942), cubic fit, good to 0.0009 °Bx from 1.00000 to 1.17874.
double nbs_brix(double s) {
    return ((182.4601 * s - 775.6821) * s + 1262.7794) * s - 669.5622;
}

constexpr double k_asbc_offset_at_water = 0.003;
constexpr double k_offset_gone_at = 1.010;
constexpr double k_asbc_until = 1.083;
constexpr double k_nbs_from = 1.087;
constexpr double k_lowest_gravity = 0.7;
constexpr double k_highest_gravity = 1.7;

Result<void> check_hydrometer_temperature(const char* where, Temperature temperature) {
    const double t = temperature.in_celsius();
    if (t >= 0.0 && t <= 40.0) return {};
    return fail(ErrorKind::outside_model, where,
                text_of(temperature) + " is outside 0 to 40 °C, where a hydrometer reading can be corrected.", {},
                "Let the sample come to room temperature and read it again.");
}

}  // namespace

double plato_of_gravity(double gravity) {
    if (gravity >= k_nbs_from) return nbs_brix(gravity);
    const double fade = std::clamp((k_offset_gone_at - gravity) / (k_offset_gone_at - 1.0), 0.0, 1.0);
    const double asbc = asbc_plato(gravity) + k_asbc_offset_at_water * fade;
    if (gravity <= k_asbc_until) return asbc;
    const double share = (gravity - k_asbc_until) / (k_nbs_from - k_asbc_until);
    return (1.0 - share) * asbc + share * nbs_brix(gravity);
}

double gravity_of_plato(double plato) {
    return bracketed_root([plato](double s) { return plato_of_gravity(s) - plato; }, k_lowest_gravity,
                          k_highest_gravity);
}

double gravity_of_brix(double brix) {
    const double density = sucrose_density(brix / 100.0, Temperature::from_celsius(20.0));
    return (density - k_air_density) / (k_water_density_at_20 - k_air_density);
}

Result<double> gravity_at_20(double reading, Temperature read_at, Temperature calibrated_at) {
    TRY_VOID(check_hydrometer_temperature("read at", read_at));
    TRY_VOID(check_hydrometer_temperature("calibrated at", calibrated_at));
    if (!(reading >= 0.95 && reading <= 1.25)) {
        return fail(
            ErrorKind::outside_model, "gravity",
            number_text(reading, 4) + " is outside 0.950 to 1.250, where the correction for temperature holds.");
    }
    const double density =
        reading * water_density(calibrated_at) * (1.0 - k_hydrometer_glass_expansion * (read_at - calibrated_at));
    // Beer can be lighter than water; it is then treated as sugar solution of a negative strength.
    const double mass_fraction =
        bracketed_root([&](double w) { return sucrose_density(w, read_at) - density; }, -0.20, 0.70);
    const Temperature at_20 = Temperature::from_celsius(20.0);
    return sucrose_density(mass_fraction, at_20) / water_density(at_20);
}

double water_density(Temperature temperature) {
    const double t = temperature.in_celsius();
    const double numerator =
        999.83952 +
        t * (16.952577 + t * (-7.9905127e-3 + t * (-46.241757e-6 + t * (105.84601e-9 - t * 281.03006e-12))));
    return numerator / (1.0 + 16.887236e-3 * t);
}

double sucrose_density(double mass_fraction, Temperature temperature) {
    // c_jk of ICUMSA SPS-4: row j goes with ((t - 20)/100)^j, column k with w^(k+1).
    static constexpr std::array<std::array<double, 6>, 5> k_terms{{
        {385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
        {-46.2720, -7.1720, 1.1597, 5.1126, 17.5254, 0.0},
        {59.7712, 7.2491, 12.3630, -35.4791, 0.0, 0.0},
        {-47.2207, -21.6977, 27.6301, 0.0, 0.0, 0.0},
        {18.3184, 12.3081, 0.0, 0.0, 0.0, 0.0},
    }};
    const double tau = (temperature.in_celsius() - 20.0) / 100.0;
    double by_temperature = 0.0;
    for (std::size_t j = k_terms.size(); j-- > 0;) {
        double by_strength = 0.0;
        for (std::size_t k = k_terms[j].size(); k-- > 0;) by_strength = (by_strength + k_terms[j][k]) * mass_fraction;
        by_temperature = by_temperature * tau + by_strength;
    }
    return water_density(temperature) + by_temperature;
}

}  // namespace undercroft::chem
