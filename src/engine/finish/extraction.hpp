// How strong a spice or wood has become, and when to lift it out: first order, corrected by what was tasted on the way.
//
// strength(t) = full (1 - exp(-k t)), k = ln(10)/t90. How full it will be and how fast it comes are both uncertain: a
// normal spread on the full strength, a log-normal one on k (40 of 100, own choice: lots, cut and temperature).
// Tastings on the way narrow both. Holds: strength never falls; at t90 nine tenths are there. Leaves out: compounds of
// wood that come at different speeds (no published single constant fits them; Kadim & Mannheim 1999), which tasting
// corrects.
#pragma once

#include <optional>
#include <vector>

#include "base/result.hpp"
#include "engine/finish/portion.hpp"

namespace undercroft::engine::finish {

struct TastedOnTheWay {
    double days = 0.0;    // since it went in
    double points = 0.0;  // above what was there before
    double sd = 0.5;
};

struct Extraction {
    Figure full;      // points at this dose, all of it extracted
    Figure t90_days;  // by the middle of k and its spread
    // Of the days asked for.
    [[nodiscard]] double share_at(double days) const;
    std::optional<double> lift_days;        // until `wanted` points; nullopt: it never gets there
    std::optional<double> lift_early_days;  // one in ten is there by then
    double chance_never = 0.0;              // that even all of it stays below
};

inline constexpr double k_speed_spread = 0.4;

// 1 - exp(-ln(10) days/t90).
[[nodiscard]] double extracted_share(double t90_days, double days);
// `full` prior points at the dose; `wanted` points to be reached, 0 or less: not asked.
// Fails: bad_input for a t90 or a spread that is not above 0, days or points below 0.
[[nodiscard]] Result<Extraction> extraction_of(const Figure& full, double t90_days,
                                               const std::vector<TastedOnTheWay>& tastings, double wanted);

}  // namespace undercroft::engine::finish
