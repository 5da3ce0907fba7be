// A second model of a closed bottle, written apart from src/chem, to hold it to.
#pragma once

#include <algorithm>
#include <cmath>

namespace undercroft::testing {

// CO2 shared between beer and gas by bisection on the partial pressure, in moles; water's density by a short quadratic
// through 0.99984, 0.99820 and 0.98803 at 0, 20 and 50 °C is too coarse, so Kell's polynomial (J. Chem. Eng. Data
// 1975).
inline double kell_density(double t) {
    return (999.83952 +
            t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))))) /
           (1.0 + 16.879850e-3 * t);
}

inline double solubility_mol_per_l_bar(double t, double abv, double extract) {
    // Sander's compilation form is 7 % low at 0 °C, so Weiss 1974; above 40 °C the slope of Carroll et al. 1991.
    const auto weiss = [](double c) {
        const double k = (c + 273.15) / 100.0;
        return std::exp(-58.0931 + 90.5069 / k + 22.2940 * std::log(k)) / 1.01325;
    };
    const auto carroll = [](double c) {
        const double k = c + 273.15;
        const double henry = std::exp(-6.8346 + 1.2817e4 / k - 3.7668e6 / (k * k) + 2.997e8 / (k * k * k));  // MPa
        return kell_density(c) / 18.015 / (henry * 10.0);
    };
    const double water = t <= 40.0 ? weiss(t) : weiss(40.0) * carroll(t) / carroll(40.0);
    const double by_composition = water * (0.86 - 0.01 * abv) / 0.86 * (1.0 - 0.00144 * extract);
    const double by_chart = 10.0 * std::exp(-10.73797 + 2617.25 / (t + 273.15)) / 44.009;
    return std::min(by_composition, by_chart);
}

inline double bottle_gauge(double co2_g_per_l, double head, bool air, double abv, double extract, double ambient,
                           double t) {
    constexpr double k_r = 0.0831446;  // L bar/(mol K)
    const double kelvin = t + 273.15;
    const double liquid = (1.0 - head) * kell_density(20.0) / kell_density(t);
    const double gas = 1.0 - liquid;
    const double moles = co2_g_per_l * (1.0 - head) / 44.009;
    const double dissolves = solubility_mol_per_l_bar(t, abv, extract);
    double low = 0.0;
    double high = 1000.0;
    for (int i = 0; i < 100; ++i) {
        const double middle = 0.5 * (low + high);
        const double held = middle * (dissolves * liquid + gas / (k_r * kelvin));
        (held < moles ? low : high) = middle;
    }
    const auto vapour = [](double c) { return 6.1121e-3 * std::exp((18.678 - c / 234.5) * (c / (257.14 + c))); };
    const double trapped = air ? (ambient - vapour(20.0)) * head / gas * kelvin / 293.15 : 0.0;
    return low + trapped + vapour(t) - ambient;
}

}  // namespace undercroft::testing
