#include "engine/blend/program.hpp"

#include <algorithm>
#include <cmath>

#include "base/index.hpp"
#include "engine/blend/judged.hpp"
#include "engine/blend/refermentation.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::blend {

namespace {

std::string shown(const std::string& figure, double value) {
    return number_text(value, figure == k_ph ? 2 : std::abs(value) < 10.0 ? 1 : 0);
}

bool all_or_nothing(const Problem& problem, const std::string& stock) {
    return std::any_of(problem.uses.begin(), problem.uses.end(),
                       [&](const Use& one) { return one.stock == stock && one.whole; });
}

constexpr double k_centring = 1e-3;  // steps that a step off the middle of a range counts for

double available(const Stock& stock) {
    return std::max(0.0, stock.litres - stock.keep_back);
}

// The pH an "undissociated" limit is worked out at: where it is most for a high one, least for a low one.
std::optional<double> ph_for(const Blend& blend, bool high_limit) {
    for (const Wish& wish : blend.wishes) {
        if (wish.figure != k_ph) continue;
        return high_limit ? (wish.range.low ? wish.range.low : wish.range.high)
                          : (wish.range.high ? wish.range.high : wish.range.low);
    }
    return std::nullopt;
}

// mmol/L of organic acid with a proton left.
std::optional<double> undissociated_at(const Stock& stock, double ph) {
    if (!stock.acids) return std::nullopt;
    const auto moved = acid_system().with_ph(*stock.acids, ph);
    if (!moved) return std::nullopt;
    const auto state = acid_system().state(*moved);
    if (!state) return std::nullopt;
    double sum = 0.0;
    for (const chem::Acid acid : chem::k_all_acids)
        if (chem::constants_of(acid).organic)
            sum += (*stock.acids)[acid] * state->protonated[static_cast<std::size_t>(acid)];
    return 1000.0 * sum;
}

// Charge of a litre at that pH, mol; nothing without acids.
std::optional<double> charge_at(const Stock& stock, double ph, const Medium& medium) {
    if (!stock.acids) return std::nullopt;
    return acid_system().charge(*stock.acids, {ph, medium.ionic_strength, medium.abv});
}

class Writing {
public:
    Writing(const Problem& problem, const std::vector<Medium>& media) : m_problem(problem), m_media(media) {}

    Result<Programmed> write() {
        add_columns();
        share_stocks();
        for (std::size_t j = 0; j < m_problem.blends.size(); ++j) {
            add_total(j);
            add_counts(j);
            for (const Wish& wish : m_problem.blends[j].wishes) TRY_VOID(add_wish(j, wish));
            add_aim(j);
        }
        add_uses();
        return std::move(m_out);
    }

private:
    [[nodiscard]] const Blend& blend(std::size_t j) const { return m_problem.blends[j]; }
    [[nodiscard]] bool needs_used(std::size_t j, std::size_t i) const {
        return blend(j).most_stocks > 0 || blend(j).least_draw > 0.0 ||
               all_or_nothing(m_problem, m_problem.stocks[i].name);
    }

    void add_columns() {
        for (std::size_t j = 0; j < m_problem.blends.size(); ++j) {
            std::vector<int> litres;
            std::vector<int> used;
            for (std::size_t i = 0; i < m_problem.stocks.size(); ++i) {
                litres.push_back(m_out.program.add({0.0, available(m_problem.stocks[i]), 0.0, false}));
                used.push_back(needs_used(j, i) ? m_out.program.add({0.0, 1.0, 0.0, true}) : -1);
                if (used.back() >= 0)
                    m_out.program.add(
                        solve::Row{-solve::k_no_limit,
                                   0.0,
                                   {{litres.back(), 1.0}, {used.back(), -available(m_problem.stocks[i])}}});
            }
            m_out.layout.litres.push_back(std::move(litres));
            m_out.layout.used.push_back(std::move(used));
        }
    }

    void share_stocks() {
        if (m_problem.blends.size() < 2) return;
        for (std::size_t i = 0; i < m_problem.stocks.size(); ++i) {
            solve::Row row{-solve::k_no_limit, available(m_problem.stocks[i]), {}};
            for (const std::vector<int>& litres : m_out.layout.litres) row.terms.emplace_back(litres[i], 1.0);
            m_out.program.add(std::move(row));
        }
    }

    void begin_limit(std::string words, std::size_t j, std::string figure = {}) {
        m_out.limits.push_back({std::move(words), j, std::move(figure), false});
        m_out.rows_of_limit.emplace_back();
    }
    void add_limit_row(solve::Row row) { m_out.rows_of_limit.back().push_back(m_out.program.add(std::move(row))); }

    [[nodiscard]] std::string of_product(std::size_t j) const {
        return blend(j).name.empty() ? std::string() : " of " + blend(j).name;
    }

    void add_total(std::size_t j) {
        if (!blend(j).litres) return;
        begin_limit(number_text(*blend(j).litres, 1) + " L" + of_product(j), j);
        m_out.limits.back().total = true;
        solve::Row row{*blend(j).litres, *blend(j).litres, {}};
        for (const int column : m_out.layout.litres[j]) row.terms.emplace_back(column, 1.0);
        add_limit_row(std::move(row));
    }

    void add_counts(std::size_t j) {
        if (blend(j).most_stocks > 0) {
            begin_limit("at most " + std::to_string(blend(j).most_stocks) +
                            (blend(j).most_stocks == 1 ? " stock" : " stocks") + of_product(j),
                        j);
            solve::Row row{-solve::k_no_limit, static_cast<double>(blend(j).most_stocks), {}};
            for (const int column : m_out.layout.used[j]) row.terms.emplace_back(column, 1.0);
            add_limit_row(std::move(row));
        }
        if (blend(j).least_draw > 0.0) {
            begin_limit("at least " + number_text(blend(j).least_draw, 2) + " L of what is used", j);
            for (std::size_t i = 0; i < m_problem.stocks.size(); ++i)
                add_limit_row({0.0,
                               solve::k_no_limit,
                               {{m_out.layout.litres[j][i], 1.0}, {m_out.layout.used[j][i], -blend(j).least_draw}}});
        }
    }

    // Rows of the form sum (value - limit) litres <= 0, the excess taken up by `over` where the wish may be missed.
    Result<void> add_side(std::size_t j, const Wish& wish, bool high) {
        const std::optional<double>& limit = high ? wish.range.high : wish.range.low;
        if (!limit) return {};
        const bool may_miss = !wish.must && blend(j).aim == Aim::nearest;
        solve::Row row{-solve::k_no_limit, 0.0, {}};
        double capacity = 1.0;
        if (wish.figure == k_ph) capacity = mean_capacity(*limit, m_media[j]);
        for (std::size_t i = 0; i < m_problem.stocks.size(); ++i) {
            const Stock& stock = m_problem.stocks[i];
            std::optional<double> excess;
            if (wish.figure == k_ph) {
                excess = charge_at(stock, *limit, m_media[j]);
                if (excess) *excess /= capacity;
            } else if (wish.figure == k_undissociated) {
                const auto ph = ph_for(blend(j), high);
                if (!ph)
                    return fail(ErrorKind::bad_input, k_undissociated,
                                "What is undissociated goes with the pH: say a pH as well.");
                excess = undissociated_at(stock, *ph);
                if (excess) *excess -= *limit;
            } else if (const auto figure = stock.figures.find(wish.figure); figure != stock.figures.end()) {
                excess = figure->second.mean - *limit;
            }
            const int column = m_out.layout.litres[j][i];
            // What is not known of a stock keeps it out.
            if (!excess)
                m_out.program.columns[at(column)].high = 0.0;
            else
                row.terms.emplace_back(column, high ? *excess : -*excess);
        }
        if (may_miss) {
            const int over = m_out.program.add({0.0, solve::k_no_limit, wish.weight, false});
            row.terms.emplace_back(over, -wish.unit * blend(j).litres.value_or(1.0));
            m_out.program.add(std::move(row));
        } else {
            add_limit_row(std::move(row));
        }
        return {};
    }

    Result<void> add_wish(std::size_t j, const Wish& wish) {
        if (wish.must || blend(j).aim != Aim::nearest) begin_limit(words_of(wish) + of_product(j), j, wish.figure);
        TRY_VOID(add_side(j, wish, true));
        TRY_VOID(add_side(j, wish, false));
        if (blend(j).aim != Aim::nearest || !wish.range.low || !wish.range.high) return {};
        // Among blends that are as good, one well inside its range is the surer.
        Wish middle = wish;
        middle.must = false;
        middle.weight = k_centring * std::max(wish.weight, 1.0);
        middle.range.low = middle.range.high = (*wish.range.low + *wish.range.high) / 2.0;
        TRY_VOID(add_side(j, middle, true));
        return add_side(j, middle, false);
    }

    // mol of base that lifts a litre by one pH there.
    [[nodiscard]] double mean_capacity(double ph, const Medium& medium) const {
        constexpr double k_small = 0.01;
        double sum = 0.0;
        int count = 0;
        for (const Stock& stock : m_problem.stocks) {
            const auto above = charge_at(stock, ph + k_small, medium);
            const auto below = charge_at(stock, ph - k_small, medium);
            if (!above || !below) continue;
            sum += (*below - *above) / (2.0 * k_small);
            ++count;
        }
        return count == 0 ? 1.0 : std::max(sum / count, 1e-6);
    }

    void add_aim(std::size_t j) {
        std::vector<double> drops;
        if (blend(j).aim == Aim::least_ferment) drops = points_left(m_problem.stocks);
        for (std::size_t i = 0; i < m_problem.stocks.size(); ++i) {
            solve::Column& column = m_out.program.columns[at(m_out.layout.litres[j][i])];
            switch (blend(j).aim) {
                case Aim::nearest:
                    break;
                case Aim::most:
                    column.cost = -1.0;
                    break;
                case Aim::cheapest: {
                    const auto cost = m_problem.stocks[i].figures.find("cost");
                    if (cost == m_problem.stocks[i].figures.end())
                        column.high = 0.0;
                    else
                        column.cost = cost->second.mean;
                    break;
                }
                case Aim::least_ferment:
                    column.cost = drops[i];
                    break;
            }
        }
    }

    void add_uses() {
        for (const Use& use : m_problem.uses) {
            const auto stock = std::find_if(m_problem.stocks.begin(), m_problem.stocks.end(),
                                            [&](const Stock& one) { return one.name == use.stock; });
            if (stock == m_problem.stocks.end()) continue;
            const auto i = static_cast<std::size_t>(stock - m_problem.stocks.begin());
            if (use.excluded) {
                begin_limit("none of " + use.stock, 0);
                for (const std::vector<int>& litres : m_out.layout.litres)
                    add_limit_row({-solve::k_no_limit, 0.0, {{litres[i], 1.0}}});
            }
            if (use.least > 0.0) {
                begin_limit("at least " + number_text(use.least, 1) + " L of " + use.stock, 0);
                solve::Row row{use.least, solve::k_no_limit, {}};
                for (const std::vector<int>& litres : m_out.layout.litres) row.terms.emplace_back(litres[i], 1.0);
                add_limit_row(std::move(row));
            }
            if (use.whole) {
                begin_limit("all of " + use.stock + " or nothing", 0);
                for (std::size_t j = 0; j < m_problem.blends.size(); ++j)
                    add_limit_row({0.0,
                                   solve::k_no_limit,
                                   {{m_out.layout.litres[j][i], 1.0}, {m_out.layout.used[j][i], -available(*stock)}}});
            }
        }
    }

    const Problem& m_problem;
    const std::vector<Medium>& m_media;
    Programmed m_out;
};

}  // namespace

Result<Programmed> programmed(const Problem& problem, const std::vector<Medium>& media) {
    return Writing(problem, media).write();
}

solve::Program with_limits(const Programmed& programmed, const std::vector<bool>& kept) {
    std::vector<bool> row_kept(programmed.program.rows.size(), true);
    for (std::size_t limit = 0; limit < programmed.limits.size(); ++limit)
        for (const int row : programmed.rows_of_limit[limit]) row_kept[at(row)] = kept[limit];
    solve::Program program;
    program.columns = programmed.program.columns;
    for (std::size_t row = 0; row < row_kept.size(); ++row)
        if (row_kept[row]) program.rows.push_back(programmed.program.rows[row]);
    return program;
}

std::string words_of(const Wish& wish) {
    const std::string name = wish.figure == k_ph ? "pH" : wish.figure;
    const Range& range = wish.range;
    if (range.low && range.high)
        return name + " " + shown(wish.figure, *range.low) +
               (*range.low == *range.high ? "" : " to " + shown(wish.figure, *range.high));
    if (range.high) return name + " at most " + shown(wish.figure, *range.high);
    return name + " at least " + shown(wish.figure, range.low.value_or(0.0));
}

}  // namespace undercroft::engine::blend
