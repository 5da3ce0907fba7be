// What an air-locked jar on a kitchen scale loses, as carbon dioxide and as gravity: finer than any hydrometer, since
// one gram of CO2 from a litre is half a volume.
//
// Holds: the loss is the slope of the weights by least squares, less that of the evaporation twin (a like jar of water,
// with a like air lock, beside it). Its doubt is what the weights lie off their line, but never less than what the
// scale can tell apart. Without a twin evaporation counts as gas, which errs to the safe side. Leaves out: alcohol and
// aroma that leave with the gas; changes of the air's pressure, 0.01 g a litre for 10 hPa.
#pragma once

#include <optional>
#include <vector>

#include "base/line_fit.hpp"
#include "base/result.hpp"

namespace undercroft::engine::package {

struct Weighing {
    int readings = 0;
    double days = 0.0;         // from first to last
    double grams_a_day = 0.0;  // lost, less the twin
    double grams_a_day_sd = 0.0;
    double co2_g_per_l_a_day = 0.0;
    double co2_most_a_day = 0.0;         // g/L: with 95 of 100, no more than that; zero or more
    double extract_g_per_l_a_day = 0.0;  // real extract fermented, by Balling's ratio
    double gravity_a_month = 0.0;        // apparent fall that goes with it, SG in 30 days
};

// What a scale shows apart, by weights in grams that it showed: the largest step of 1, 2 or 5 times a power of ten, up
// to 100 g, that all of them are multiples of; 0.001 at the least. Few round weights make it coarse, which errs to the
// safe side.
[[nodiscard]] double scale_step(const std::vector<FitPoint>& weights);

// `weights` and `twin` in days and grams; `litres` of beer in the jar; `scale_g`: what the scale shows apart, nullopt:
// by the weights.
// Fails: bad_input below three weights or three days, for a volume that is none, or a jar that grew heavier by more
// than the doubt of its weights.
[[nodiscard]] Result<Weighing> weighed(const std::vector<FitPoint>& weights, const std::vector<FitPoint>& twin,
                                       double litres, std::optional<double> scale_g = {});

}  // namespace undercroft::engine::package
