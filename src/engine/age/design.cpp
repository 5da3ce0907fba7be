#include "engine/age/design.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <tuple>
#include <utility>

namespace undercroft::engine {
namespace {

constexpr double k_nearly = 1e-9;

int pulls_within(double wait_years, double interval_years) {
    return static_cast<int>(std::floor(wait_years / interval_years + k_nearly));
}

// P(Bin(k, f) < N) for every k up to a last one and every N, and its running sums over k: what the ages of equal stages
// begun with new beer are made of.
class NotYetThrough {
public:
    NotYetThrough(double f, int most_stages, int last_k) : m_stages(static_cast<std::size_t>(most_stages)) {
        std::vector<double> exactly(m_stages, 0.0);  // P(Bin(k, f) = j)
        exactly[0] = 1.0;
        m_below.reserve(static_cast<std::size_t>(last_k + 1) * m_stages);
        std::vector<double> sums(m_stages, 0.0);
        for (int k = 0; k <= last_k; ++k) {
            double below = 0.0;
            for (std::size_t j = 0; j < m_stages; ++j) {
                below += exactly[j];
                m_below.push_back(below);
                m_sum_before.push_back(sums[j]);
                sums[j] += below;
            }
            for (std::size_t j = m_stages; j-- > 0;)
                exactly[j] = (1.0 - f) * exactly[j] + (j == 0 ? 0.0 : f * exactly[j - 1]);
        }
    }
    [[nodiscard]] double at(int k, int stages) const { return m_below[index(k, stages)]; }
    // Sum over all k below `k`.
    [[nodiscard]] double sum_before(int k, int stages) const { return m_sum_before[index(k, stages)]; }

private:
    [[nodiscard]] std::size_t index(int k, int stages) const {
        return static_cast<std::size_t>(k) * m_stages + static_cast<std::size_t>(stages) - 1;
    }
    std::size_t m_stages;
    std::vector<double> m_below;
    std::vector<double> m_sum_before;
};

// What does not depend on the size of the vessels.
struct Ages {
    double mean = 0.0;
    std::vector<double> older;
    double fit = 1.0;
};

Ages ages_at_wait(const DesignWish& wish, const NotYetThrough& table, int stages, double interval) {
    Ages ages;
    const int n = pulls_within(wish.wait_years, interval);
    if (n > 0) ages.mean = wish.age_in_years + interval * table.sum_before(n, stages);
    if (wish.mean_years) ages.fit = std::min(ages.fit, ages.mean / *wish.mean_years);
    for (const OlderWish& older : wish.older) {
        const int k = static_cast<int>(std::ceil((older.years - wish.age_in_years) / interval - k_nearly));
        const double share = n == 0 ? 0.0 : k <= 0 ? 1.0 : k > n ? 0.0 : table.at(k - 1, stages);
        ages.older.push_back(share);
        ages.fit = std::min(ages.fit, share / older.share);
    }
    if (n == 0) ages.fit = 0.0;
    ages.fit = std::max(0.0, ages.fit);
    return ages;
}

// Designs that fall short by the same percent are told apart by their burden, not by a thousandth of a year.
auto rank_of(const Design& design) {
    const int percent_short =
        design.reached() ? 0 : std::max(1, static_cast<int>(std::ceil(100.0 * (1.0 - design.fit))));
    return std::tuple(percent_short, design.burden, design.stages, design.abreast, design.vessel, design.interval_years,
                      design.share);
}

}  // namespace

std::vector<double> usual_shares() {
    return {0.02, 0.03, 0.04, 0.05, 0.06, 0.08,      0.10, 0.12, 0.15, 0.18,
            0.20, 0.22, 0.25, 0.28, 0.30, 1.0 / 3.0, 0.36, 0.40, 0.45, 0.50};
}

std::vector<double> usual_intervals() {
    std::vector<double> years;
    for (const int months : {1, 2, 3, 4, 5, 6, 8, 9, 10, 12, 18, 24}) years.push_back(months / 12.0);
    return years;
}

std::vector<Volume> usual_vessels() {
    std::vector<Volume> volumes;
    for (const int litres : {5, 10, 15, 20, 30, 50, 60, 100, 200, 225})
        volumes.push_back(Volume::from_ul(std::int64_t{1'000'000} * litres));
    return volumes;
}

const char* trouble_of(const DesignWish& wish) {
    if (wish.demand_litres <= 0.0) return "The demand must be more than nothing.";
    if (!wish.mean_years && wish.older.empty()) return "An age is wanted: a mean, or a share older than one.";
    if (wish.mean_years && *wish.mean_years <= 0.0) return "The mean age wanted must be more than nothing.";
    for (const OlderWish& older : wish.older)
        if (older.years <= 0.0 || older.share <= 0.0 || older.share > 1.0)
            return "A share older than an age lies above nothing and at 100 % at most.";
    if (wish.wait_years <= 0.0) return "The wait must be more than nothing.";
    if (wish.vessels.empty() || wish.shares.empty() || wish.intervals.empty())
        return "There must be vessels, shares and intervals to choose from.";
    if (wish.fewest_stages < 1 || wish.most_stages < wish.fewest_stages || wish.most_stages > 20)
        return "Between 1 and 20 stages can be searched.";
    for (const VesselOffer& vessel : wish.vessels)
        if (vessel.full <= Volume{} || vessel.price < 0.0) return "A vessel holds more than nothing and costs no less.";
    for (const double share : wish.shares)
        if (share <= 0.0 || share > k_share_hard_stop) return "A share lies above nothing and at 60 % at most.";
    for (const double interval : wish.intervals)
        if (interval <= 0.0) return "An interval is more than nothing.";
    return nullptr;
}

std::vector<Design> designs_of(const DesignWish& wish, std::size_t most, const Patience& patience) {
    const double shortest = *std::min_element(wish.intervals.begin(), wish.intervals.end());
    const int last_k = pulls_within(wish.wait_years, shortest) + 1;
    std::vector<Design> best(wish.vessels.size() * static_cast<std::size_t>(wish.most_stages));
    std::vector<bool> there(best.size(), false);
    std::size_t done = 0;
    for (const double share : wish.shares) {
        if (patience.is_over()) return {};
        patience.told(done++, wish.shares.size());
        const NotYetThrough table(share, wish.most_stages, last_k);
        for (const double interval : wish.intervals)
            for (int stages = wish.fewest_stages; stages <= wish.most_stages; ++stages) {
                const Ages ages = ages_at_wait(wish, table, stages, interval);
                for (std::size_t v = 0; v < wish.vessels.size(); ++v) {
                    const VesselOffer& offer = wish.vessels[v];
                    const double pull_each = std::floor(share * static_cast<double>(offer.full.ul()) + k_nearly);
                    if (pull_each < 1.0) continue;
                    const double needed = wish.demand_litres * interval * 1e6 / pull_each;
                    const int abreast = std::max(1, static_cast<int>(std::ceil(needed - k_nearly)));
                    if (abreast > wish.most_abreast) continue;
                    Design design;
                    design.stages = stages;
                    design.abreast = abreast;
                    design.vessel = offer.full;
                    design.ullage = offer.ullage;
                    design.price_each = offer.price;
                    design.interval_years = interval;
                    design.share = share;
                    design.pull = Volume::from_ul(static_cast<std::int64_t>(pull_each) * abreast);
                    design.yearly_litres = design.pull.in_litres() / interval;
                    design.age_at_wait = ages.mean;
                    design.fit = ages.fit;
                    design.settled_years = wish.age_in_years + stages * interval / share;
                    design.hands_on_days = (k_days_per_turn + k_days_per_vessel * stages * abreast) / interval;
                    design.price = offer.price * stages * abreast;
                    design.burden = design.price / k_vessel_life_years + design.hands_on_days * wish.day_worth;
                    const std::size_t slot =
                        v * static_cast<std::size_t>(wish.most_stages) + static_cast<std::size_t>(stages) - 1;
                    if (there[slot] && !(rank_of(design) < rank_of(best[slot]))) continue;
                    design.older_at_wait = ages.older;
                    best[slot] = std::move(design);
                    there[slot] = true;
                }
            }
    }
    std::vector<Design> designs;
    for (std::size_t i = 0; i < best.size(); ++i)
        if (there[i]) designs.push_back(std::move(best[i]));
    std::sort(designs.begin(), designs.end(), [](const Design& a, const Design& b) { return rank_of(a) < rank_of(b); });
    if (designs.size() > most) designs.resize(most);
    return designs;
}

SoleraPlan plan_of(const Design& design, const DesignWish& wish) {
    SoleraPlan plan;
    plan.stages.assign(static_cast<std::size_t>(design.stages), design.vessel * design.abreast);
    plan.pull = design.pull;
    plan.interval_years = design.interval_years;
    plan.age_in_years = wish.age_in_years;
    plan.start_age_years = wish.age_in_years;
    return plan;
}

const char* word(Start value) {
    switch (value) {
        case Start::plain:
            return "plain";
        case Start::aged_half:
            return "aged_half";
        case Start::aged_full:
            return "aged_full";
        case Start::half_pulls:
            return "half_pulls";
        case Start::no_pulls:
            break;
    }
    return "no_pulls";
}

std::vector<FastStart> starts_of(const Design& design, const DesignWish& wish) {
    constexpr double k_longest_years = 100.0;
    constexpr double k_held_back_years = 1.0;
    double wanted = wish.mean_years.value_or(0.0);
    for (const OlderWish& older : wish.older) wanted = std::max(wanted, older.years);
    const int held_back = std::max(1, pulls_within(k_held_back_years, design.interval_years));
    std::vector<FastStart> list;
    for (const Start start : {Start::plain, Start::aged_half, Start::aged_full, Start::half_pulls, Start::no_pulls}) {
        FastStart one;
        one.start = start;
        one.plan = plan_of(design, wish);
        if (start == Start::aged_half) one.plan.start_age_years = std::max(wish.age_in_years, wanted / 2.0);
        if (start == Start::aged_full) one.plan.start_age_years = std::max(wish.age_in_years, wanted);
        const Volume half = Volume::from_ul(design.pull.ul() / 2);
        if (start == Start::half_pulls || start == Start::no_pulls)
            one.plan.first_pulls.assign(static_cast<std::size_t>(held_back),
                                        start == Start::half_pulls ? half : Volume{});
        const int last = std::min(400, pulls_within(k_longest_years, design.interval_years));
        const int at_wait = pulls_within(wish.wait_years, design.interval_years);
        for (const SoleraTurn& turn : turns_of(one.plan, std::max(last, at_wait))) {
            if (turn.turn == at_wait) one.mean_at_wait = turn.mean_years;
            if (one.turn_reached) continue;
            bool met = turn.pulled > Volume{} && (!wish.mean_years || turn.mean_years >= *wish.mean_years - k_nearly);
            for (const OlderWish& older : wish.older)
                met = met && turn.share_older_than(older.years) >= older.share - k_nearly;
            if (met) {
                one.turn_reached = turn.turn;
                one.years_reached = turn.years;
            } else {
                one.litres_before += turn.pulled.in_litres();
            }
        }
        list.push_back(std::move(one));
    }
    return list;
}

}  // namespace undercroft::engine
