#include "engine/age/solera.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace undercroft::engine {
namespace {

// A liquid as the recursion needs it: litres, and either their fills or only the sum of litres times years.
class Fills {
public:
    Fills() = default;
    Fills(int turn, double litres, double) : m_by_turn(static_cast<std::size_t>(turn) + 1, 0.0), m_litres(litres) {
        m_by_turn.back() = litres;
    }
    [[nodiscard]] double litres() const { return m_litres; }
    [[nodiscard]] const std::vector<double>& by_turn() const { return m_by_turn; }
    void age(double) {}
    void scale(double factor) {
        for (double& litres : m_by_turn) litres *= factor;
        m_litres *= factor;
    }
    void add(const Fills& other) {
        if (m_by_turn.size() < other.m_by_turn.size()) m_by_turn.resize(other.m_by_turn.size(), 0.0);
        for (std::size_t i = 0; i < other.m_by_turn.size(); ++i) m_by_turn[i] += other.m_by_turn[i];
        m_litres += other.m_litres;
    }

private:
    std::vector<double> m_by_turn;
    double m_litres = 0.0;
};

class Moment {
public:
    Moment() = default;
    Moment(int, double litres, double years) : m_litres(litres), m_litre_years(litres * years) {}
    [[nodiscard]] double litres() const { return m_litres; }
    [[nodiscard]] double mean_years() const { return m_litre_years / m_litres; }
    void age(double years) { m_litre_years += years * m_litres; }
    void scale(double factor) {
        m_litres *= factor;
        m_litre_years *= factor;
    }
    void add(const Moment& other) {
        m_litres += other.m_litres;
        m_litre_years += other.m_litre_years;
    }

private:
    double m_litres = 0.0;
    double m_litre_years = 0.0;
};

template <class Liquid>
Liquid take_from(Liquid& liquid, double litres) {
    Liquid out = liquid;
    const double held = liquid.litres();
    const double part = held <= 0.0 ? 0.0 : std::min(1.0, litres / held);
    out.scale(part);
    liquid.scale(1.0 - part);
    return out;
}

// Two halves, each mixed in itself.
template <class Liquid>
class Vessel {
public:
    Vessel(double full, double years)
        : m_half(full / 2.0), m_full(full), m_lower(0, m_half, years), m_upper(0, m_half, years) {}

    [[nodiscard]] double full() const { return m_full; }
    [[nodiscard]] double held() const { return m_lower.litres() + m_upper.litres(); }
    [[nodiscard]] Liquid whole() const {
        Liquid sum = m_lower;
        sum.add(m_upper);
        return sum;
    }
    [[nodiscard]] std::array<double, 2> means() const { return {m_lower.mean_years(), m_upper.mean_years()}; }
    void set_means(double lower, double upper) {
        m_lower = Liquid(0, m_half, lower);
        m_upper = Liquid(0, m_half, upper);
    }
    void age(double years) {
        m_lower.age(years);
        m_upper.age(years);
    }
    void evaporate(double share) {
        m_lower.scale(1.0 - share);
        m_upper.scale(1.0 - share);
    }
    Liquid draw(double litres, DrawnFrom from) {
        Liquid& near = from == DrawnFrom::below ? m_lower : m_upper;
        Liquid& far = from == DrawnFrom::below ? m_upper : m_lower;
        const double first = std::min(litres, near.litres());
        Liquid out = take_from(near, first);
        if (litres > first) out.add(take_from(far, litres - first));
        return out;
    }
    void refill(Liquid coming, double mixing) {
        // What is missing below sinks down, first from what is there, then from what comes.
        m_lower.add(take_from(m_upper, std::max(0.0, m_half - m_lower.litres())));
        m_lower.add(take_from(coming, std::max(0.0, m_half - m_lower.litres())));
        m_upper.add(coming);
        Liquid lower_share = whole();
        Liquid upper_share = lower_share;
        const double held_now = held();
        lower_share.scale(mixing * m_lower.litres() / held_now);
        upper_share.scale(mixing * m_upper.litres() / held_now);
        m_lower.scale(1.0 - mixing);
        m_lower.add(lower_share);
        m_upper.scale(1.0 - mixing);
        m_upper.add(upper_share);
    }

private:
    double m_half;
    double m_full;
    Liquid m_lower;
    Liquid m_upper;
};

template <class Liquid>
class Chain {
public:
    explicit Chain(const SoleraPlan& plan) : m_plan(plan) {
        for (const Volume stage : plan.stages) m_stages.emplace_back(stage.in_litres(), plan.start_age_years);
    }
    void pass_interval() {
        ++m_turn;
        for (auto& stage : m_stages) {
            stage.age(m_plan.interval_years);
            stage.evaporate(m_plan.evaporation);
        }
    }
    [[nodiscard]] const std::vector<Vessel<Liquid>>& stages() const { return m_stages; }
    [[nodiscard]] std::vector<double> means() const {
        std::vector<double> list;
        for (const auto& stage : m_stages)
            for (const double mean : stage.means()) list.push_back(mean);
        return list;
    }
    void set_means(const std::vector<double>& means) {
        for (std::size_t i = 0; i < m_stages.size(); ++i) m_stages[i].set_means(means[2 * i], means[2 * i + 1]);
    }
    [[nodiscard]] double new_beer() const { return m_new_beer; }
    // Gives what is drawn from the last stage.
    Liquid pull_and_refill() {
        Liquid drawn = m_stages.back().draw(m_plan.pull_at(m_turn).in_litres(), m_plan.drawn);
        for (std::size_t i = m_stages.size(); i-- > 0;) {
            const double gap = m_stages[i].full() - m_stages[i].held();
            if (i == 0) m_new_beer = gap;
            m_stages[i].refill(
                i == 0 ? Liquid(m_turn, gap, m_plan.age_in_years) : m_stages[i - 1].draw(gap, m_plan.drawn),
                m_plan.mixing);
        }
        return drawn;
    }

private:
    const SoleraPlan& m_plan;
    std::vector<Vessel<Liquid>> m_stages;
    int m_turn = 0;
    double m_new_beer = 0.0;
};

// Gaussian elimination with pivots; nothing when the rows depend on each other.
std::optional<std::vector<double>> solve_in_place(std::vector<std::vector<double>>& rows, std::vector<double> right) {
    constexpr double k_singular = 1e-12;  // the entries are shares, near 1 where a half hardly moves
    const std::size_t size = right.size();
    for (std::size_t k = 0; k < size; ++k) {
        std::size_t pivot = k;
        for (std::size_t i = k + 1; i < size; ++i)
            if (std::fabs(rows[i][k]) > std::fabs(rows[pivot][k])) pivot = i;
        if (std::fabs(rows[pivot][k]) < k_singular) return std::nullopt;
        std::swap(rows[k], rows[pivot]);
        std::swap(right[k], right[pivot]);
        for (std::size_t i = k + 1; i < size; ++i) {
            const double factor = rows[i][k] / rows[k][k];
            for (std::size_t j = k; j < size; ++j) rows[i][j] -= factor * rows[k][j];
            right[i] -= factor * right[k];
        }
    }
    for (std::size_t k = size; k-- > 0;) {
        for (std::size_t j = k + 1; j < size; ++j) right[k] -= rows[k][j] * right[j];
        right[k] /= rows[k][k];
    }
    return right;
}

double years_of_fill(const SoleraPlan& plan, int fill, int turn) {
    return fill == 0 ? plan.start_age_years + turn * plan.interval_years
                     : plan.age_in_years + (turn - fill) * plan.interval_years;
}

double mean_of(const SoleraPlan& plan, const Fills& fills, int turn) {
    double sum = 0.0;
    for (std::size_t i = 0; i < fills.by_turn().size(); ++i)
        sum += fills.by_turn()[i] * years_of_fill(plan, static_cast<int>(i), turn);
    return sum / fills.litres();
}

}  // namespace

Volume SoleraPlan::pull_at(int turn) const {
    const auto index = static_cast<std::size_t>(turn - 1);
    return index < first_pulls.size() ? first_pulls[index] : pull;
}

const char* SoleraPlan::trouble() const {
    if (stages.empty()) return "A solera needs at least one vessel.";
    if (interval_years <= 0.0) return "The interval between two pulls must be more than nothing.";
    if (pull <= Volume{}) return "The pull must be more than nothing.";
    if (age_in_years < 0.0 || start_age_years < 0.0) return "No beer is younger than nothing.";
    if (evaporation < 0.0 || evaporation >= 1.0)
        return "Evaporation is a share of the vessel, from nothing to below 100 %.";
    if (mixing < 0.0 || mixing > 1.0) return "Mixing quality lies between 0 and 1.";
    Volume most = pull;
    for (const Volume first : first_pulls) {
        if (first < Volume{}) return "No pull is less than nothing.";
        most = std::max(most, first);
    }
    // What leaves a stage goes through all those before it, with what evaporates in between.
    double through = most.in_litres();
    for (std::size_t i = stages.size(); i-- > 0;) {
        const double full = stages[i].in_litres();
        if (full <= 0.0) return "A vessel must hold more than nothing.";
        if (through > full * (1.0 - evaporation))
            return "More flows through one of the vessels in a turn than it holds; pull less, or take a larger vessel.";
        through += full * evaporation;
    }
    return nullptr;
}

double SoleraTurn::share_older_than(double at_least_years) const {
    constexpr double k_rounding = 1e-9;  // an age is a whole number of intervals, in doubles
    double sum = 0.0;
    for (const FillShare& fill : fills)
        if (fill.years >= at_least_years - k_rounding) sum += fill.share;
    return sum;
}

std::vector<SoleraTurn> turns_of(const SoleraPlan& plan, int turns) {
    Chain<Fills> chain(plan);
    std::vector<SoleraTurn> list;
    for (int n = 1; n <= turns; ++n) {
        chain.pass_interval();
        SoleraTurn one;
        one.turn = n;
        one.years = n * plan.interval_years;
        one.pulled = plan.pull_at(n);
        for (const auto& stage : chain.stages()) one.stage_years.push_back(mean_of(plan, stage.whole(), n));
        const Fills standing = chain.stages().back().whole();
        Fills drawn = chain.pull_and_refill();
        const Fills left = chain.stages().back().whole();
        one.refilled = Volume::from_litres(chain.new_beer());
        one.after_refill_years = mean_of(plan, left, n);
        one.original_share_left = left.by_turn().front() / left.litres();
        // A turn without a pull still has beer to speak of: what stood there before it was topped up.
        if (drawn.litres() <= 0.0) drawn = standing;
        double squares = 0.0;
        for (std::size_t i = drawn.by_turn().size(); i-- > 0;) {
            const double share = drawn.by_turn()[i] / drawn.litres();
            if (share <= 0.0) continue;
            const int fill = static_cast<int>(i);
            one.fills.push_back({fill, years_of_fill(plan, fill, n), share});
            one.mean_years += share * one.fills.back().years;
            squares += share * share;
        }
        std::stable_sort(one.fills.begin(), one.fills.end(),
                         [](const FillShare& a, const FillShare& b) { return a.years < b.years; });
        double variance = 0.0;
        for (const FillShare& fill : one.fills)
            variance += fill.share * (fill.years - one.mean_years) * (fill.years - one.mean_years);
        one.sd_years = std::sqrt(variance);
        one.effective_fills = 1.0 / squares;
        one.original_share = drawn.by_turn().front() / drawn.litres();
        list.push_back(std::move(one));
    }
    return list;
}

std::vector<double> mean_ages_of(const SoleraPlan& plan, int turns) {
    Chain<Moment> chain(plan);
    std::vector<double> ages;
    for (int n = 1; n <= turns; ++n) {
        chain.pass_interval();
        const double standing = chain.stages().back().whole().mean_years();
        const Moment drawn = chain.pull_and_refill();
        ages.push_back(drawn.litres() > 0.0 ? drawn.mean_years() : standing);
    }
    return ages;
}

std::optional<SettledAges> settled_ages(const SoleraPlan& plan) {
    SoleraPlan steady = plan;
    steady.first_pulls.clear();
    const std::size_t zones = 2 * plan.stages.size();
    SettledAges at_turn;
    // One turn from given means of the halves: an affine map, so its matrix is read off by trying unit vectors.
    const auto after_a_turn = [&](const std::vector<double>& means) {
        Chain<Moment> chain(steady);
        chain.set_means(means);
        chain.pass_interval();
        at_turn.stage_years.clear();
        for (const auto& stage : chain.stages()) at_turn.stage_years.push_back(stage.whole().mean_years());
        at_turn.mean_years = chain.pull_and_refill().mean_years();
        at_turn.after_refill_years = chain.stages().back().whole().mean_years();
        return chain.means();
    };
    std::vector<double> unit(zones, 0.0);
    const std::vector<double> offset = after_a_turn(unit);
    std::vector<std::vector<double>> rows(zones, std::vector<double>(zones, 0.0));  // identity less the matrix
    for (std::size_t j = 0; j < zones; ++j) {
        unit.assign(zones, 0.0);
        unit[j] = 1.0;
        const std::vector<double> column = after_a_turn(unit);
        for (std::size_t i = 0; i < zones; ++i) rows[i][j] = (i == j ? 1.0 : 0.0) - (column[i] - offset[i]);
    }
    const auto solved = solve_in_place(rows, offset);
    if (!solved) return std::nullopt;
    at_turn.zone_after_refill = after_a_turn(*solved);
    return at_turn;
}

std::optional<int> turns_to_settle(const SoleraPlan& plan, double tolerance, int most) {
    const auto limit = settled_ages(plan);
    if (!limit) return std::nullopt;
    const double reach = tolerance * limit->mean_years;
    Chain<Moment> chain(plan);
    int last_outside = 0;
    for (int n = 1; n <= most; ++n) {
        chain.pass_interval();
        const Moment drawn = chain.pull_and_refill();
        if (drawn.litres() <= 0.0 || std::fabs(drawn.mean_years() - limit->mean_years) > reach) last_outside = n;
        const std::vector<double> means = chain.means();
        bool all_near = n > static_cast<int>(plan.first_pulls.size());
        for (std::size_t i = 0; i < means.size(); ++i)
            all_near = all_near && std::fabs(means[i] - limit->zone_after_refill[i]) <= reach;
        if (all_near) return last_outside + 1;
    }
    return std::nullopt;
}

}  // namespace undercroft::engine
