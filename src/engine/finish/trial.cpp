#include "engine/finish/trial.hpp"

#include <algorithm>
#include <cmath>

#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

// The next dose among several: the peak of the least-squares parabola, where there is one.
std::optional<double> peak_of(const std::vector<LikedDose>& tried) {
    // Normal equations of y = a + b x + c x^2, about the mean for good conditioning.
    double mean = 0.0;
    for (const LikedDose& one : tried) mean += one.g_per_l / static_cast<double>(tried.size());
    double s[5] = {0, 0, 0, 0, 0};
    double t[3] = {0, 0, 0};
    for (const LikedDose& one : tried) {
        const double x = one.g_per_l - mean;
        double power = 1.0;
        for (int i = 0; i < 5; ++i) {
            s[i] += power;
            if (i < 3) t[i] += power * one.liking;
            power *= x;
        }
    }
    const double det =
        s[0] * (s[2] * s[4] - s[3] * s[3]) - s[1] * (s[1] * s[4] - s[2] * s[3]) + s[2] * (s[1] * s[3] - s[2] * s[2]);
    if (std::abs(det) < 1e-12) return std::nullopt;
    const double b =
        (s[0] * (t[1] * s[4] - s[3] * t[2]) - t[0] * (s[1] * s[4] - s[2] * s[3]) + s[2] * (s[1] * t[2] - t[1] * s[2])) /
        det;
    const double c =
        (s[0] * (s[2] * t[2] - t[1] * s[3]) - s[1] * (s[1] * t[2] - t[1] * s[2]) + t[0] * (s[1] * s[3] - s[2] * s[2])) /
        det;
    if (!(c < 0.0)) return std::nullopt;
    return mean - b / (2.0 * c);
}

}  // namespace

Result<Batch> batch_of(const GlassTrial& trial, double litres) {
    if (!(trial.glass_ml > 0.0 && trial.glass_ml <= 1000.0))
        return fail(ErrorKind::bad_input, "glass", "A glass holds above 0 and at most 1000 mL.");
    if (!(trial.added_ml > 0.0 && trial.added_ml <= trial.glass_ml / 4.0))
        return fail(ErrorKind::bad_input, "added",
                    number_text(trial.added_ml, 2) + " mL into " + number_text(trial.glass_ml, 0) +
                        " mL is no trial: above 0, and at most a quarter of the glass.");
    if (!(trial.strength_g_per_l > 0.0 && trial.strength_g_per_l <= 1500.0))
        return fail(ErrorKind::bad_input, "strength", "Say how strong it is: above 0 and at most 1500 g/L.");
    if (!(litres > 0.0)) return fail(ErrorKind::bad_input, "volume", "Say how many litres it shall go into.");
    Batch it;
    // Grams of the addition in a litre of beer before it.
    it.g_per_l.mean = trial.added_ml * trial.strength_g_per_l / trial.glass_ml;
    it.relative_sd = std::hypot(trial.pipette_sd_ml / trial.added_ml, trial.glass_sd_ml / trial.glass_ml);
    it.g_per_l.sd = it.g_per_l.mean * it.relative_sd;
    it.grams = {it.g_per_l.mean * litres, it.g_per_l.sd * litres};
    constexpr double k_ml = 1000.0;
    it.ml = {trial.added_ml / trial.glass_ml * litres * k_ml, 0.0};
    it.ml.sd = it.ml.mean * it.relative_sd;
    const double share = trial.added_ml / (trial.glass_ml + trial.added_ml);
    it.alcohol_change = share * trial.alcohol_percent;
    return it;
}

Result<NextDose> next_dose(const std::vector<LikedDose>& tried) {
    if (tried.empty()) return fail(ErrorKind::bad_input, "liked", "No glass was tried yet.");
    for (const LikedDose& one : tried)
        if (!(one.g_per_l >= 0.0 && one.liking >= 0.0 && one.liking <= 10.0))
            return fail(ErrorKind::bad_input, "liked", "A dose is 0 or more, and a liking 0 to 10.");
    std::vector<LikedDose> sorted = tried;
    std::sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.g_per_l < b.g_per_l; });
    const auto best = *std::max_element(sorted.begin(), sorted.end(),
                                        [](const auto& a, const auto& b) { return a.liking < b.liking; });
    const double low = sorted.front().g_per_l;
    const double high = sorted.back().g_per_l;
    NextDose next;
    std::vector<double> different;
    for (const LikedDose& one : sorted)
        if (different.empty() || one.g_per_l - different.back() > 1e-9) different.push_back(one.g_per_l);
    if (different.size() == 1) {
        constexpr double k_liked = 6.0;
        next.g_per_l = best.liking >= k_liked ? 2.0 * best.g_per_l : best.g_per_l / 2.0;
        if (best.g_per_l == 0.0) return fail(ErrorKind::bad_input, "liked", "Try a glass with some of it in.");
        next.why = best.liking >= k_liked ? "liked: see whether twice as much is better"
                                          : "little liked: see whether half as much is better";
        return next;
    }
    const double reach = (high - low) / 2.0;
    if (different.size() == 2) {
        const bool more = best.g_per_l == high;
        next.g_per_l =
            more ? high + reach : std::max(0.0, low > 0.0 ? low - std::min(reach, low / 2.0) : (low + high) / 2.0);
        next.why = more ? "the stronger one is liked better: one step beyond it"
                        : "the weaker one is liked better: one step below it";
        return next;
    }
    const auto peak = peak_of(sorted);
    if (!peak) {
        next.g_per_l = best.g_per_l == high ? high + reach : std::max(0.0, low - std::min(reach, low / 2.0));
        next.why = "no peak yet between the doses tried: one step beyond the best liked end";
        return next;
    }
    next.g_per_l = std::clamp(*peak, std::max(0.0, low - reach), high + reach);
    constexpr double k_near = 0.1;
    next.enough = std::abs(next.g_per_l - best.g_per_l) <= k_near * std::max(best.g_per_l, 1e-9);
    next.why = next.enough ? "the curve through the glasses peaks where the best liked one is: enough tried"
                           : "where the curve through the glasses peaks";
    return next;
}

}  // namespace undercroft::engine::finish
