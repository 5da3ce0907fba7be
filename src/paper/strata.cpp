#include "paper/strata.hpp"

#include <algorithm>

namespace undercroft::paper {

namespace {

double lightness_of(double years) {
    constexpr double k_young = 0.93;
    constexpr double k_old = 0.30;
    constexpr double k_old_years = 6.0;
    return k_young + (k_old - k_young) * std::clamp(years / k_old_years, 0.0, 1.0);
}

}  // namespace

void draw_strata(Canvas& canvas, double x, double y, double width, double height,
                 const std::vector<app::Stratum>& strata) {
    double from = x;
    for (const app::Stratum& stratum : strata) {
        const double wide = stratum.share * width;
        canvas.fill(from, y, wide, height, lightness_of(stratum.age_years));
        if (from > x) canvas.line(from, y, from, y + height, 0.15);
        from += wide;
    }
    canvas.frame(x, y, width, height, 0.15);
}

}  // namespace undercroft::paper
