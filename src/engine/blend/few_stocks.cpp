#include "engine/blend/few_stocks.hpp"

#include <algorithm>
#include <cmath>

#include "base/index.hpp"
#include "solve/few.hpp"

namespace undercroft::engine::blend {

namespace {

constexpr int k_few = 6;  // beyond, choices are too many to search, and the general solver is as good

bool is_of_few(const Problem& problem) {
    if (problem.blends.size() != 1) return false;
    const Blend& blend = problem.blends.front();
    return blend.aim == Aim::nearest && blend.litres && blend.most_stocks > 0 && blend.most_stocks <= k_few &&
           std::none_of(problem.uses.begin(), problem.uses.end(), [](const Use& use) { return use.whole; });
}

// Rows that differ by a factor of +-1 and a constant for every litre say the same figure: as the shares add up to one,
// the constant only moves where the cost bends.
struct Alike {
    double sign = 1.0;
    double constant = 0.0;
};

std::optional<Alike> alike(const solve::Figure& known, const std::vector<double>& values,
                           const std::vector<solve::FewColumn>& columns) {
    double size = 1.0;
    for (std::size_t i = 0; i < values.size(); ++i)
        size = std::max({size, std::abs(values[i]), std::abs(known.values[i])});
    for (const double sign : {1.0, -1.0}) {
        std::optional<double> constant;
        bool same = true;
        for (std::size_t i = 0; i < values.size() && same; ++i) {
            if (columns[i].most <= 0.0) continue;
            const double rest = values[i] - sign * known.values[i];
            if (!constant) constant = rest;
            same = std::abs(rest - *constant) <= 1e-13 * size;
        }
        if (same) return Alike{sign, constant.value_or(0.0)};
    }
    return std::nullopt;
}

class Reading {
public:
    Reading(const Problem& problem, const Programmed& programmed)
        : m_programmed(programmed), m_litres(*problem.blends.front().litres) {
        const auto& litres = programmed.layout.litres.front();
        m_stock_of.assign(programmed.program.columns.size(), -1);
        m_used.assign(programmed.program.columns.size(), false);
        for (std::size_t i = 0; i < litres.size(); ++i) {
            m_stock_of[at(litres[i])] = static_cast<int>(i);
            if (const int used = programmed.layout.used.front()[i]; used >= 0) m_used[at(used)] = true;
            m_few.columns.push_back({problem.blends.front().least_draw / m_litres,
                                     programmed.program.columns[at(litres[i])].high / m_litres});
        }
        m_few.most_used = problem.blends.front().most_stocks;
    }

    // In shares of the blend; nothing where a row is of no kind that is known here.
    std::optional<solve::FewProblem> read() {
        for (const solve::Row& row : m_programmed.program.rows)
            if (!read_row(row)) return std::nullopt;
        return std::move(m_few);
    }

private:
    bool read_row(const solve::Row& row) {
        std::vector<double> values(m_few.columns.size(), 0.0);
        int missed = -1;
        double by = 0.0;
        for (const auto& [column, factor] : row.terms) {
            if (m_used[at(column)]) return true;  // the count and the least draw, known from the problem
            if (m_stock_of[at(column)] >= 0) {
                values[at(m_stock_of[at(column)])] += factor * m_litres;
            } else {
                if (missed >= 0) return false;
                missed = column;
                by = factor;
            }
        }
        if (missed < 0) {
            add(values, row.low, row.high, {});
            return true;
        }
        // sum(values * shares) - |by| * missed <= 0
        if (row.low != -solve::k_no_limit || row.high != 0.0 || !(by < 0.0)) return false;
        add(values, -solve::k_no_limit, solve::k_no_limit,
            solve::Hinge{m_programmed.program.columns[at(missed)].cost / -by, 0.0, true});
        return true;
    }

    void add(std::vector<double> values, double low, double high, std::optional<solve::Hinge> hinge) {
        // One size for all rows: the tolerance of the search is one number.
        double size = 0.0;
        for (const double value : values) size = std::max(size, std::abs(value));
        if (size > 0.0 && !hinge) {
            for (double& value : values) value /= size;
            low /= size;
            high /= size;
        }
        if (!hinge) {
            m_few.figures.push_back({std::move(values), low, high, {}});
            return;
        }
        for (solve::Figure& known : m_few.figures) {
            if (known.hinges.empty()) continue;
            const auto how = alike(known, values, m_few.columns);
            if (!how) continue;
            // values = sign * known + constant, and it costs above zero.
            known.hinges.push_back({hinge->slope, -how->sign * how->constant, how->sign > 0.0});
            return;
        }
        m_few.figures.push_back({std::move(values), low, high, {*hinge}});
    }

    const Programmed& m_programmed;
    double m_litres;
    std::vector<int> m_stock_of;
    std::vector<bool> m_used;
    solve::FewProblem m_few;
};

void to_one_size(solve::FewProblem& few) {
    for (solve::Figure& figure : few.figures) {
        double size = 0.0;
        for (const double value : figure.values) size = std::max(size, std::abs(value));
        if (figure.hinges.empty() || size <= 0.0) continue;
        for (double& value : figure.values) value /= size;
        for (solve::Hinge& hinge : figure.hinges) {
            hinge.at /= size;
            hinge.slope *= size;
        }
    }
}

}  // namespace

std::optional<solve::Answer> nearest_of_few_stocks(const Problem& problem, const Programmed& programmed,
                                                   const solve::Effort& effort) {
    if (!is_of_few(problem)) return std::nullopt;
    auto few = Reading(problem, programmed).read();
    if (!few) return std::nullopt;
    to_one_size(*few);
    solve::Answer answer = solve::nearest_of_few(*few, effort);
    if (!answer.has_values()) return answer;
    std::vector<double> values(programmed.program.columns.size(), 0.0);
    for (std::size_t i = 0; i < answer.values.size(); ++i)
        values[at(programmed.layout.litres.front()[i])] = answer.values[i] * *problem.blends.front().litres;
    answer.values = std::move(values);
    return answer;
}

}  // namespace undercroft::engine::blend
