#include "engine/blend/conflict.hpp"

#include <algorithm>

#include "base/index.hpp"
#include "engine/blend/judged.hpp"
#include "engine/blend/program.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::blend {

namespace {

constexpr int k_most_trials = 3'000;
constexpr double k_seconds = 2.0;
constexpr double k_a_little = 1e-3;

class Searching {
public:
    explicit Searching(const Programmed& programmed) : m_programmed(programmed) {
        for (solve::Column& column : m_programmed.program.columns) column.cost = 0.0;
    }

    std::optional<std::vector<std::size_t>> fewest() {
        std::vector<std::size_t> totals;
        for (std::size_t i = 0; i < m_programmed.limits.size(); ++i)
            (m_programmed.limits[i].total ? totals : m_others).push_back(i);
        std::vector<std::size_t> all = m_others;
        all.insert(all.end(), totals.begin(), totals.end());
        if (!contradict(all)) return std::nullopt;
        if (contradict({})) return std::vector<std::size_t>{};
        for (const std::size_t total : totals)
            if (contradict({total})) return std::vector<std::size_t>{total};
        // Of nothing every figure holds. So something is made: first a little, and where the limits contradict each
        // other even then, how much it shall be has no part in it.
        m_totals = totals;
        const Programmed whole = m_programmed;
        for (const std::size_t total : totals)
            for (const int row : m_programmed.rows_of_limit[total]) {
                m_programmed.program.rows[at(row)].low *= k_a_little;
                m_programmed.program.rows[at(row)].high *= k_a_little;
            }
        if (contradict(m_others)) return smallest();
        m_programmed = whole;
        auto set = smallest();
        set.insert(set.begin(), totals.begin(), totals.end());
        return set;
    }

private:
    std::vector<std::size_t> smallest() {
        for (std::size_t size = 1; size <= 3; ++size)
            if (auto found = of_size(size)) return *found;
        return none_spared(m_others);
    }

    bool contradict(const std::vector<std::size_t>& kept) {
        ++m_trials;
        std::vector<bool> keep(m_programmed.limits.size(), false);
        for (const std::size_t limit : kept) keep[limit] = true;
        for (const std::size_t total : m_totals) keep[total] = true;
        return solve::least_cost(with_limits(m_programmed, keep), {k_seconds}).standing == solve::Standing::infeasible;
    }

    std::optional<std::vector<std::size_t>> of_size(std::size_t size) {
        const std::size_t limits = m_others.size();
        if (size > limits) return std::nullopt;
        std::vector<std::size_t> chosen(size);  // among the others
        for (std::size_t i = 0; i < size; ++i) chosen[i] = i;
        while (m_trials < k_most_trials) {
            std::vector<std::size_t> set;
            for (const std::size_t place : chosen) set.push_back(m_others[place]);
            if (contradict(set)) return set;
            std::size_t at = size;
            while (at > 0 && chosen[at - 1] == limits - size + at - 1) --at;
            if (at == 0) return std::nullopt;
            ++chosen[at - 1];
            for (std::size_t i = at; i < size; ++i) chosen[i] = chosen[i - 1] + 1;
        }
        return std::nullopt;
    }

    std::vector<std::size_t> none_spared(std::vector<std::size_t> set) {
        for (std::size_t i = set.size(); i-- > 0;) {
            std::vector<std::size_t> without = set;
            without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
            if (contradict(without)) set = std::move(without);
        }
        return set;
    }

    Programmed m_programmed;
    std::vector<std::size_t> m_others;  // limits but how much it shall be
    std::vector<std::size_t> m_totals;  // kept in every trial
    int m_trials = 0;
};

// The problem with only these limits, and that figure wished for instead of demanded.
Result<std::optional<double>> nearest_of(const Problem& problem, const Programmed& programmed,
                                         const std::vector<std::size_t>& kept, std::size_t relaxed,
                                         const std::vector<Medium>& media) {
    const Limit& limit = programmed.limits[relaxed];
    Problem soft = problem;
    for (std::size_t j = 0; j < soft.blends.size(); ++j) {
        Blend& blend = soft.blends[j];
        const bool only_limits = blend.aim != Aim::nearest;
        blend.aim = Aim::nearest;
        if (!blend.litres) blend.litres = 1.0;
        for (Wish& wish : blend.wishes) {
            const bool is_it = j == limit.blend && wish.figure == limit.figure;
            wish.weight = is_it ? 1.0 : 0.0;
            wish.must = !is_it && (wish.must || only_limits);
        }
    }
    TRY(const Programmed softened, blend::programmed(soft, media));
    std::vector<bool> keep(softened.limits.size(), false);
    for (std::size_t i = 0; i < softened.limits.size(); ++i)
        for (const std::size_t other : kept)
            keep[i] = keep[i] || (other != relaxed && softened.limits[i].words == programmed.limits[other].words);
    // Something has to be made for it to have a figure.
    for (std::size_t i = 0; i < softened.limits.size(); ++i)
        if (softened.limits[i].blend == limit.blend && softened.limits[i].total) keep[i] = true;
    const solve::Answer answer = solve::least_cost(with_limits(softened, keep), {k_seconds});
    if (!answer.has_values()) return std::optional<double>{};
    std::vector<double> litres;
    for (const int column : softened.layout.litres[limit.blend]) litres.push_back(answer.values[at(column)]);
    TRY(const Made made, judged(soft, soft.blends[limit.blend], litres));
    const auto figure = made.figures.find(limit.figure);
    if (figure == made.figures.end()) return std::optional<double>{};
    return std::optional<double>(figure->second);
}

}  // namespace

std::string Conflict::words() const {
    if (limits.empty()) return "The stocks do not suffice for it.";
    std::string words;
    for (std::size_t i = 0; i < limits.size(); ++i)
        words += (i == 0 ? "" : i + 1 == limits.size() ? " and " : ", ") + limits[i];
    words += limits.size() == 1 ? " cannot be had from these stocks" : " cannot all hold";
    if (nearest)
        words += ": the nearest is " + number_text(*nearest, figure == k_ph ? 2 : 1) +
                 (figure == k_ph ? " pH" : " " + figure);
    return words + ".";
}

Result<std::optional<Conflict>> conflict_of(const Problem& asked) {
    Problem problem = asked;
    // Of the most there can be, something at least.
    for (Blend& blend : problem.blends)
        if (!blend.litres) blend.litres = k_a_little;
    const std::vector<Medium> media(problem.blends.size());
    TRY(const Programmed programmed, blend::programmed(problem, media));
    const auto set = Searching(programmed).fewest();
    if (!set) return std::optional<Conflict>{};
    Conflict conflict;
    for (const std::size_t limit : *set) conflict.limits.push_back(programmed.limits[limit].words);
    for (const std::size_t limit : *set) {
        if (programmed.limits[limit].figure.empty()) continue;
        conflict.figure = programmed.limits[limit].figure;
        TRY(conflict.nearest, nearest_of(problem, programmed, *set, limit, media));
        if (conflict.nearest) break;
    }
    return std::optional<Conflict>(std::move(conflict));
}

}  // namespace undercroft::engine::blend
