#include "engine/finish/extraction.hpp"

#include <algorithm>
#include <cmath>

#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

const double k_ln_ten = std::log(10.0);

// What is held of the full strength where k is known.
struct AtSpeed {
    double k = 0.0;
    double weight = 0.0;
    double mean = 0.0;
    double sd = 0.0;
};

double below(double x) {
    return 0.5 * std::erfc(-x / std::sqrt(2.0));
}

}  // namespace

double extracted_share(double t90_days, double days) {
    return 1.0 - std::exp(-k_ln_ten * days / t90_days);
}

double Extraction::share_at(double days) const {
    return extracted_share(t90_days.mean, days);
}

Result<Extraction> extraction_of(const Figure& full, double t90_days, const std::vector<TastedOnTheWay>& tastings,
                                 double wanted) {
    if (!(t90_days > 0.0 && t90_days <= 1000.0))
        return fail(ErrorKind::bad_input, "t90", "The days to nine tenths must be above 0 and at most 1000.");
    if (!(full.sd > 0.0)) return fail(ErrorKind::bad_input, "full", "The full strength needs a spread above 0.");
    for (const TastedOnTheWay& one : tastings)
        if (!(one.days >= 0.0 && one.points >= -10.0 && one.points <= 10.0 && one.sd > 0.0))
            return fail(ErrorKind::bad_input, "tasted",
                        number_text(one.points, 1) + " points after " + number_text(one.days, 1) +
                            " days cannot be: days are 0 or more, points -10 to 10.");
    // k on a grid of its prior; the full strength is normal at each (conjugate), so the whole is a mixture.
    constexpr int k_steps = 81;
    constexpr double k_reach = 3.0;
    std::vector<AtSpeed> grid;
    double most = -1e300;
    std::vector<double> logs;
    for (int i = 0; i < k_steps; ++i) {
        const double z = -k_reach + 2.0 * k_reach * i / (k_steps - 1);
        AtSpeed at;
        at.k = k_ln_ten / t90_days * std::exp(k_speed_spread * z);
        double precision = 1.0 / (full.sd * full.sd);
        double pull = full.mean * precision;
        double log_weight = -z * z / 2.0;
        for (const TastedOnTheWay& one : tastings) {
            const double share = 1.0 - std::exp(-at.k * one.days);
            // Evidence of this tasting given those before: normal.
            const double mean = pull / precision;
            const double variance = share * share / precision + one.sd * one.sd;
            const double miss = one.points - share * mean;
            log_weight += -0.5 * (miss * miss / variance + std::log(variance));
            precision += share * share / (one.sd * one.sd);
            pull += share * one.points / (one.sd * one.sd);
        }
        at.mean = pull / precision;
        at.sd = std::sqrt(1.0 / precision);
        grid.push_back(at);
        logs.push_back(log_weight);
        most = std::max(most, log_weight);
    }
    double total = 0.0;
    for (int i = 0; i < k_steps; ++i)
        total += grid[static_cast<std::size_t>(i)].weight = std::exp(logs[static_cast<std::size_t>(i)] - most);
    Extraction out;
    double square = 0.0;
    double t90_square = 0.0;
    for (AtSpeed& at : grid) {
        at.weight /= total;
        const double t90 = k_ln_ten / at.k;
        out.full.mean += at.weight * at.mean;
        square += at.weight * (at.mean * at.mean + at.sd * at.sd);
        out.t90_days.mean += at.weight * std::log(t90);
        t90_square += at.weight * std::log(t90) * std::log(t90);
    }
    out.full.sd = std::sqrt(std::max(0.0, square - out.full.mean * out.full.mean));
    const double log_sd = std::sqrt(std::max(0.0, t90_square - out.t90_days.mean * out.t90_days.mean));
    out.t90_days.mean = std::exp(out.t90_days.mean);
    out.t90_days.sd = out.t90_days.mean * log_sd;
    if (!(wanted > 0.0)) return out;
    // Chance that `wanted` is reached by a day, over the mixture.
    const auto reached = [&](double days) {
        double chance = 0.0;
        for (const AtSpeed& at : grid) {
            const double share = 1.0 - std::exp(-at.k * days);
            if (share <= 0.0) continue;
            chance += at.weight * below((at.mean * share - wanted) / (at.sd * share));
        }
        return chance;
    };
    double ever = 0.0;
    for (const AtSpeed& at : grid) ever += at.weight * below((at.mean - wanted) / at.sd);
    out.chance_never = 1.0 - ever;
    const auto day_of_chance = [&](double chance) -> std::optional<double> {
        if (ever <= chance) return std::nullopt;
        double low = 0.0;
        double high = t90_days;
        constexpr double k_longest = 1e5;
        while (reached(high) < chance && high < k_longest) high *= 2.0;
        if (high >= k_longest) return std::nullopt;
        constexpr int k_halvings = 60;
        for (int i = 0; i < k_halvings; ++i) {
            const double middle = (low + high) / 2.0;
            (reached(middle) < chance ? low : high) = middle;
        }
        return high;
    };
    out.lift_days = day_of_chance(0.5);
    out.lift_early_days = day_of_chance(0.1);
    return out;
}

}  // namespace undercroft::engine::finish
