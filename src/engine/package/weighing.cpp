#include "engine/package/weighing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "chem/gas.hpp"
#include "chem/sugar.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::package {

namespace {

constexpr double k_least_days = 3.0;
constexpr double k_one_sided_95 = 1.645;
// Balling: 2.0665 g of extract give 0.9565 g of CO2 and 0.11 g of yeast.
constexpr double k_extract_per_co2 = 2.0665 / 0.9565;

double days_of(const std::vector<FitPoint>& points) {
    const auto [first, last] =
        std::minmax_element(points.begin(), points.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
    return last->x - first->x;
}

// Rounding to `scale_g` is an error of scale / sqrt(12) each, and n weights evenly over the days have a sum of squares
// of n days² / 12.
double slope_sd(const LineFit& fit, double days, double scale_g) {
    return std::max(fit.slope_sd, scale_g / (std::sqrt(static_cast<double>(fit.points)) * days));
}

constexpr auto k_steps_g = std::to_array<double>(
    {100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001});

}  // namespace

double scale_step(const std::vector<FitPoint>& weights) {
    const auto shows = [&](double step) {
        return std::all_of(weights.begin(), weights.end(), [step](const FitPoint& weight) {
            const double steps = weight.y / step;
            return std::abs(steps - std::round(steps)) * step < 1e-5;
        });
    };
    const auto step = std::find_if(k_steps_g.begin(), k_steps_g.end(), shows);
    return step == k_steps_g.end() ? k_steps_g.back() : *step;
}

Result<Weighing> weighed(const std::vector<FitPoint>& weights, const std::vector<FitPoint>& twin, double litres,
                         std::optional<double> scale_g) {
    if (!(litres > 0.0)) return fail(ErrorKind::bad_input, "volume", "The jar must hold something to be weighed for.");
    const auto fit = line_through(weights);
    if (!fit || days_of(weights) < k_least_days)
        return fail(ErrorKind::bad_input, "weight",
                    std::to_string(weights.size()) +
                        " weights since it was last touched do not tell a loss: weigh it at least three times over at "
                        "least three days, on the same scale, at the same warmth.");
    Weighing found;
    found.readings = fit->points;
    found.days = days_of(weights);
    found.grams_a_day = -fit->slope;
    found.grams_a_day_sd = slope_sd(*fit, found.days, scale_g.value_or(scale_step(weights)));
    if (!twin.empty()) {
        const auto dry = line_through(twin);
        if (!dry || days_of(twin) < k_least_days)
            return fail(ErrorKind::bad_input, "twin",
                        "The evaporation twin was weighed too little: at least three times over at least three days.");
        found.grams_a_day += dry->slope;
        found.grams_a_day_sd =
            std::hypot(found.grams_a_day_sd, slope_sd(*dry, days_of(twin), scale_g.value_or(scale_step(twin))));
    }
    if (found.grams_a_day < -3.0 * found.grams_a_day_sd)
        return fail(ErrorKind::bad_input, "weight",
                    "It grew heavier by " + number_text(-found.grams_a_day, 2) +
                        " g a day: something was added, or the scale moved. Begin again.");
    found.co2_g_per_l_a_day = std::max(0.0, found.grams_a_day) / litres;
    found.co2_most_a_day = std::max(0.0, found.grams_a_day + k_one_sided_95 * found.grams_a_day_sd) / litres;
    found.extract_g_per_l_a_day = found.co2_g_per_l_a_day * k_extract_per_co2;
    found.gravity_a_month = chem::co2_volumes_of_g_per_l(found.co2_g_per_l_a_day * 30.0) /
                            chem::k_volumes_per_gravity_point_display / 1000.0;
    return found;
}

}  // namespace undercroft::engine::package
