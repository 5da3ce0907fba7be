#include "engine/package/canary.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string>

#include "base/index.hpp"
#include "engine/package/gas_draw.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::package {

namespace {

// What a squeezed bottle of plastic feels like, in bar of gauge pressure: 0 gives like an open one, 1 springs back, 2
// firm, 3 hard but for a dent under the thumb, 4 no dent, 5 hard as wood. Own reckoning; common practice, no source.
struct Felt {
    double from;
    double to;
};
constexpr auto k_squeeze =
    std::to_array<Felt>({{-0.2, 0.3}, {0.1, 0.9}, {0.6, 1.7}, {1.3, 2.8}, {2.2, 4.5}, {3.5, 20.0}});
constexpr double k_squeeze_sd = 0.3;       // bar, beyond its ends
constexpr double k_gauge_sd = 0.1;         // bar
constexpr double k_model_sd = 0.05;        // of the pressure
constexpr double k_least_fitting = 0.005;  // of the draws: with fewer they do not explain the canary
constexpr double k_takes_less = 0.05;      // how often cultures take less than their reach, before the canary
constexpr double k_quick_days_least = 10.0;
constexpr double k_quick_days_most = 28.0;

// 95 of 100 parts of it have come when `done` is 1.
double quickly(double done) {
    return 1.0 - std::exp(-3.0 * done);
}
double waking_late(double done) {
    return 1.0 - std::exp(-3.0 * done * done * done);
}

struct Slowest {
    double least_days = k_quick_days_least;
    double most_days = k_quick_days_most;
};
Slowest slowest_of(const std::vector<const tables::CultureKind*>& cultures) {
    Slowest slowest;
    for (const tables::CultureKind* kind : cultures) {
        if (!kind->makes_gas()) continue;
        slowest.least_days = std::max(slowest.least_days, kind->days_to_stable_low.value_or(0.0));
        slowest.most_days = std::max(slowest.most_days, kind->days_to_stable_high.value_or(0.0));
    }
    return slowest;
}

// Spread evenly over 0 to 1, another for every draw (multiples of numbers that no fraction is near).
struct Pace {
    double quick, slow, wakes, takes;
    explicit Pace(std::size_t draw)
        : quick(evenly(draw, 0.8191725133961645)),
          slow(evenly(draw, 0.6710436067037893)),
          wakes(evenly(draw, 0.5497004779019702)),
          takes(evenly(draw, 0.4142135623730951)) {}

private:
    static double evenly(std::size_t draw, double step) {
        const double sum = (static_cast<double>(draw) + 0.5) * step;
        return sum - std::floor(sum);
    }
};

// Volumes there after so many days at 20 °C.
double come_by(double days, const CauseVolumes& all, const Pace& pace, const Slowest& slowest) {
    const double quick = quickly(days / (k_quick_days_least + pace.quick * (k_quick_days_most - k_quick_days_least)));
    const double late =
        pace.wakes < 0.5
            ? quick
            : waking_late(days / (slowest.least_days + pace.slow * (slowest.most_days - slowest.least_days)));
    return all[Cause::dissolved] + quick * (all[Cause::priming] + all[Cause::fruit_sugar] + all[Cause::creep]) +
           late * (all[Cause::fermentables] + all[Cause::malic] + all[Cause::citric] + all[Cause::sorbitol]);
}

// How far off the reading is, in standard deviations: positive when the canary shows more.
double off_by(const CanaryReading& reading, double bar) {
    if (reading.gauge) return (reading.gauge->in_bar() - bar) / std::hypot(k_gauge_sd, k_model_sd * bar);
    const Felt& felt = k_squeeze[at(*reading.squeeze)];
    const double sd = std::hypot(k_squeeze_sd, k_model_sd * bar);
    return bar < felt.from ? (felt.from - bar) / sd : bar > felt.to ? (felt.to - bar) / sd : 0.0;
}

// Draws by their weights, at even steps: `count` of them.
std::vector<Luck> drawn_by(const std::vector<double>& weights, double sum, const std::vector<Luck>& luck,
                           std::size_t count) {
    std::vector<Luck> drawn;
    drawn.reserve(count);
    const double step = sum / static_cast<double>(count);
    double reached = 0.0;
    std::size_t from = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double wanted = (static_cast<double>(i) + 0.5) * step;
        while (from + 1 < luck.size() && reached + weights[from] < wanted) reached += weights[from++];
        drawn.push_back(luck[from]);
        drawn.back().head_space = luck[i].head_space;  // another bottle's
    }
    return drawn;
}

}  // namespace

Result<void> canary_said_well(const std::vector<CanaryReading>& readings) {
    constexpr double k_most_days = 3653.0;
    for (const CanaryReading& reading : readings) {
        if (!(reading.days > 0.0) || reading.days > k_most_days)
            return fail(ErrorKind::bad_input, "canary",
                        "A canary is looked at some days after packaging, up to ten years; asked for " +
                            number_text(reading.days, 0) + ".");
        if (reading.kept.in_celsius() < 20.0 || reading.kept.in_celsius() > 35.0)
            return fail(ErrorKind::bad_input, "canary",
                        "A canary is kept at 20 to 35 °C, 30 °C is usual; asked for " + text_of(reading.kept) +
                            ". Cooler it is no faster than the shelf, warmer its cultures die.");
        if (reading.gauge && (reading.gauge->in_bar() < 0.0 || reading.gauge->in_bar() > 20.0))
            return fail(ErrorKind::bad_input, "canary",
                        "A gauge on a bottle shows 0 to 20 bar; asked for " + text_of(*reading.gauge) + ".");
        if (!reading.gauge && (!reading.squeeze || *reading.squeeze < 0 || *reading.squeeze >= int(k_squeeze.size())))
            return fail(ErrorKind::bad_input, "canary",
                        "A squeeze is graded 0 (like an open bottle) to 5 (hard as wood).");
    }
    return {};
}

CanaryTold told_by_canary(const GasQuestion& question, const Asked& asked, const Drawing& drawing,
                          const std::vector<Luck>& luck) {
    CanaryTold told;
    told.luck = luck;
    if (question.canary.empty()) return told;
    const Slowest slowest = slowest_of(asked.bound.cultures);
    // Every draw as it is, then again with cultures that take less.
    std::vector<Luck> all = luck;
    all.insert(all.end(), luck.begin(), luck.end());
    std::vector<double> weights(all.size(), 1.0);
    for (std::size_t i = luck.size(); i < all.size(); ++i) {
        all[i].takes = Pace(i).takes;
        weights[i] = k_takes_less;
    }
    std::vector<double> off_squared(all.size(), 0.0);
    double off_sum = 0.0;
    for (const CanaryReading& reading : question.canary) {
        const double days = reading.days * canary_speed(reading.kept, Temperature::from_celsius(20.0));
        std::vector<Bottle> bottles;
        bottles.reserve(all.size());
        for (std::size_t i = 0; i < all.size(); ++i)
            bottles.push_back(
                bottle_of(come_by(days, drawing.volumes(all[i]), Pace(i), slowest), asked.closed, all[i]));
        const std::vector<double> bars = bars_at(reading.kept, bottles, question, asked);
        for (std::size_t i = 0; i < all.size(); ++i) {
            const double off = off_by(reading, bars[i]);
            off_squared[i] += off * off;
            off_sum += off;
        }
    }
    double fitting = 0.0;  // each draw that fits as well as can be counts for one
    for (std::size_t i = 0; i < all.size(); ++i) {
        const double fit = std::exp(-0.5 * off_squared[i]);
        fitting += fit;
        weights[i] *= fit;
    }
    if (fitting < k_least_fitting * static_cast<double>(all.size())) {
        told.verdict = off_sum > 0.0 ? CanaryVerdict::shows_more : CanaryVerdict::leaks;
        return told;
    }
    told.verdict = CanaryVerdict::narrows;
    told.own = drawn_by(weights, std::accumulate(weights.begin(), weights.end(), 0.0), all, luck.size());
    told.luck = told.own;
    return told;
}

double canary_speed(Temperature kept, Temperature store) {
    return std::pow(2.0, (kept.in_celsius() - store.in_celsius()) / 10.0);
}

std::vector<int> canary_days(const Asked& asked) {
    if (!asked.bound.alive || asked.bound.to_come <= 0.0) return {};
    const double twice = canary_speed(k_canary_kept, Temperature::from_celsius(20.0));
    const double first = k_quick_days_most / twice;
    const double last = std::max(2.0 * first, slowest_of(asked.bound.cultures).most_days / twice);
    std::vector<int> days;
    for (const double day : {first, std::sqrt(first * last), last})
        days.push_back(static_cast<int>(std::lround(std::ceil(day))));
    return days;
}

}  // namespace undercroft::engine::package
