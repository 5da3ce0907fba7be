// Finds where a rising or falling function crosses zero between two bounds.
//
// Holds: never leaves the bounds; where there is no crossing between them, the bound with the smaller
// distance from zero comes back, so a caller that can be asked the impossible checks its ends first.
// Leaves out: functions with several crossings.
#pragma once

#include <cmath>

namespace undercroft::chem {

// Chandrupatla 1997 (Adv. Eng. Softw. 28:145): inverse quadratic steps where they are safe, halving where not.
// Ends at the resolution of a double, after some 10 calls of `f` for the smooth functions of this folder.
template <class F>
[[nodiscard]] double bracketed_root(const F& f, double low, double high) {
    double a = high;
    double b = low;
    double fa = f(a);
    double fb = f(b);
    if ((fa > 0.0) == (fb > 0.0)) return std::abs(fa) < std::abs(fb) ? a : b;
    double c = a;
    double fc = fa;
    double step = 0.5;
    for (int i = 0; i < 200; ++i) {
        const double x = a + step * (b - a);
        const double fx = f(x);
        if ((fx > 0.0) == (fa > 0.0)) {
            c = a;
            fc = fa;
        } else {
            c = b;
            fc = fb;
            b = a;
            fb = fa;
        }
        a = x;
        fa = fx;
        const double best = std::abs(fa) < std::abs(fb) ? a : b;
        if (fa == 0.0) return a;
        const double tolerance = (2.3e-16 * std::abs(best) + 1e-300) / std::abs(b - c);
        if (tolerance > 0.5) return best;
        const double xi = (a - b) / (c - b);
        const double phi = (fa - fb) / (fc - fb);
        if (phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi) {
            step = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
        } else {
            step = 0.5;
        }
        step = std::fmin(1.0 - tolerance, std::fmax(tolerance, step));
    }
    return std::abs(fa) < std::abs(fb) ? a : b;
}

}  // namespace undercroft::chem
