#include "engine/blend/recipe.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/index.hpp"
#include "engine/blend/conflict.hpp"
#include "engine/blend/few_stocks.hpp"
#include "engine/blend/judged.hpp"
#include "engine/blend/program.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::blend {

namespace {

constexpr int k_most_turns = 6;  // of solving for the medium
constexpr double k_same_medium = 2e-4;
constexpr std::size_t k_most_stocks = 1000;
constexpr std::size_t k_most_rounded = 12;  // of a blend: beyond, parts are rounded by the largest remainder

using Litres = std::vector<std::vector<double>>;  // by blend and stock

Result<void> check(const Problem& problem) {
    if (problem.stocks.empty()) return fail(ErrorKind::bad_input, "stocks", "There is nothing to blend.");
    if (problem.stocks.size() > k_most_stocks)
        return fail(ErrorKind::bad_input, "stocks", "More than 1,000 stocks are too many to choose from.");
    if (problem.blends.empty()) return fail(ErrorKind::bad_input, "blend", "Nothing is asked for.");
    std::set<std::string> names;
    for (const Stock& stock : problem.stocks) {
        if (!names.insert(stock.name).second)
            return fail(ErrorKind::bad_input, "stocks", stock.name + " stands there twice.");
        if (!(stock.litres >= 0.0) || !(stock.keep_back >= 0.0))
            return fail(ErrorKind::bad_input, "stocks", "A volume of " + stock.name + " is below zero.");
    }
    for (const Use& use : problem.uses)
        if (!names.contains(use.stock))
            return fail(ErrorKind::bad_input, "stocks", "\"" + use.stock + "\" is none of the stocks.");
    for (const Blend& blend : problem.blends) {
        if (blend.aim != Aim::most && !(blend.litres && *blend.litres > 0.0))
            return fail(ErrorKind::bad_input, "volume", "How much shall it be? A volume above zero.");
        for (const Wish& wish : blend.wishes) {
            if (!wish.range.low && !wish.range.high)
                return fail(ErrorKind::bad_input, wish.figure, "A wish needs a figure: at most, at least, or both.");
            if (wish.range.low && wish.range.high && *wish.range.low > *wish.range.high)
                return fail(ErrorKind::bad_input, wish.figure, words_of(wish) + " runs backwards.");
            if (!(wish.weight >= 0.0) || !(wish.unit > 0.0))
                return fail(ErrorKind::bad_input, wish.figure, "A weight is zero or more, and a step above zero.");
        }
    }
    return {};
}

bool asks_for_ph(const Problem& problem) {
    for (const Blend& blend : problem.blends)
        for (const Wish& wish : blend.wishes)
            if (wish.figure == k_ph) return true;
    return false;
}

std::vector<std::string> left_out_of(const Problem& problem) {
    std::vector<std::string> words;
    for (const Stock& stock : problem.stocks) {
        std::set<std::string> lacks;
        for (const Blend& blend : problem.blends)
            for (const Wish& wish : blend.wishes) {
                const bool by_acids = wish.figure == k_ph || wish.figure == k_undissociated;
                if (by_acids ? !stock.acids.has_value() : !stock.figures.contains(wish.figure))
                    lacks.insert(wish.figure == k_ph ? "pH" : wish.figure);
            }
        if (lacks.empty()) continue;
        std::string line = stock.name + " (no ";
        bool first = true;
        for (const std::string& one : lacks) {
            line += (first ? "" : ", ") + one;
            first = false;
        }
        words.push_back(line + " known)");
    }
    return words;
}

// Another make-up: at most 1 - `differ` of the volume may be what an earlier recipe took.
void add_difference(Programmed& programmed, const Litres& earlier, double differ) {
    solve::Row same{-solve::k_no_limit, 0.0, {}};
    double total = 0.0;
    for (std::size_t j = 0; j < earlier.size(); ++j)
        for (std::size_t i = 0; i < earlier[j].size(); ++i) {
            const double was = earlier[j][i];
            total += was;
            if (was <= k_nothing) continue;
            const int litres = programmed.layout.litres[j][i];
            const double most = programmed.program.columns[at(litres)].high;
            // Not below the smaller of both; which one it is, the whole column says.
            const int shared = programmed.program.add({0.0, solve::k_no_limit, 0.0, false});
            const int more = programmed.program.add({0.0, 1.0, 0.0, true});
            programmed.program.add(solve::Row{-solve::k_no_limit, 0.0, {{litres, 1.0}, {more, -most}, {shared, -1.0}}});
            programmed.program.add(solve::Row{-solve::k_no_limit, 0.0, {{more, was}, {shared, -1.0}}});
            same.terms.emplace_back(shared, 1.0);
        }
    same.high = (1.0 - differ) * total;
    programmed.program.add(std::move(same));
}

Litres litres_of(const Programmed& programmed, const solve::Answer& answer) {
    Litres litres;
    for (const std::vector<int>& columns : programmed.layout.litres) {
        std::vector<double> of_blend;
        for (const int column : columns) {
            const double value = answer.values[at(column)];
            of_blend.push_back(value > k_nothing ? value : 0.0);
        }
        litres.push_back(std::move(of_blend));
    }
    return litres;
}

struct Solved {
    solve::Answer answer;
    Litres litres;
    std::vector<Medium> media;
};

class Finding {
public:
    Finding(const Problem& problem, const Asking& asking) : m_problem(problem), m_asking(asking) {
        m_media.assign(problem.blends.size(), first_medium());
    }

    Result<Found> find() {
        Found found;
        found.left_out = left_out_of(m_problem);
        for (int number = 0; number < m_asking.recipes; ++number) {
            TRY(const auto solved, solve_with(0.0));
            if (!solved) {
                if (number > 0) break;
                return fail_for_good();
            }
            if (number == 0) {
                found.proven = solved->answer.standing == solve::Standing::proven;
                found.bound = solved->answer.bound;
            }
            TRY(auto recipe, measured_out(*solved));
            if (!recipe) {
                if (number > 0) break;
                return fail(ErrorKind::impossible, "step",
                            "It can be blended, but not in steps of " + number_text(m_problem.step, 2) +
                                " L: a limit breaks. Measure out finer, or widen a limit.");
            }
            if (number == 0) {
                TRY(const std::vector<Made> exact, judged_all(solved->litres));
                found.rounding = recipe->cost - cost_of(m_problem, exact);
            }
            m_earlier.push_back(solved->litres);
            found.recipes.push_back(std::move(*recipe));
        }
        std::stable_sort(found.recipes.begin() + 1, found.recipes.end(),
                         [](const Recipe& a, const Recipe& b) { return a.cost < b.cost; });
        return found;
    }

private:
    // The most that the limits allow can be none.
    [[nodiscard]] static bool makes_nothing(const Litres& litres) {
        return std::any_of(litres.begin(), litres.end(), [](const std::vector<double>& of_blend) {
            return std::all_of(of_blend.begin(), of_blend.end(), [](double one) { return one <= k_nothing; });
        });
    }

    [[nodiscard]] Medium first_medium() const {
        double litres = 0.0;
        double strength = 0.0;
        for (const Stock& stock : m_problem.stocks)
            if (stock.acids) {
                litres += stock.litres;
                strength += stock.litres * stock.acids->abv;
            }
        return {0.03, litres > 0.0 ? strength / litres : 6.0};
    }

    [[nodiscard]] Result<std::vector<Made>> judged_all(const Litres& litres) const {
        std::vector<Made> made;
        for (std::size_t j = 0; j < litres.size(); ++j) {
            TRY(Made one, judged(m_problem, m_problem.blends[j], litres[j]));
            made.push_back(std::move(one));
        }
        return made;
    }

    // Limits drawn in by so much of their step, for what rounding takes.
    [[nodiscard]] Problem tightened(double by) const {
        Problem tight = m_problem;
        for (Blend& blend : tight.blends)
            for (Wish& wish : blend.wishes) {
                if (!wish.must && blend.aim == Aim::nearest) continue;
                const double inside =
                    wish.range.low && wish.range.high ? (*wish.range.high - *wish.range.low) / 2.0 : wish.unit;
                const double margin = std::min(by * wish.unit, inside);
                if (wish.range.low) *wish.range.low += margin;
                if (wish.range.high) *wish.range.high -= margin;
            }
        return tight;
    }

    Result<std::optional<Solved>> solve_with(double margin) {
        const Problem tight = margin > 0.0 ? tightened(margin) : m_problem;
        Solved solved;
        solved.media = m_media;
        const bool by_charge = asks_for_ph(m_problem);
        for (int turn = 0; turn < k_most_turns; ++turn) {
            TRY(Programmed programmed, blend::programmed(tight, solved.media));
            for (const Litres& earlier : m_earlier) add_difference(programmed, earlier, m_asking.differ);
            const solve::Effort effort{m_asking.seconds, m_asking.given_up};
            // Another make-up has rows that the search of few stocks does not know.
            std::optional<solve::Answer> few;
            if (m_earlier.empty()) few = nearest_of_few_stocks(tight, programmed, effort);
            solved.answer = few ? std::move(*few) : solve::least_cost(programmed.program, effort);
            if (!solved.answer.has_values()) {
                if (solved.answer.standing == solve::Standing::nothing)
                    return fail(ErrorKind::impossible, "time",
                                "No blend was found in " + number_text(m_asking.seconds, 1) +
                                    " s: give it more time, or fewer stocks.");
                return std::optional<Solved>{};
            }
            solved.litres = litres_of(programmed, solved.answer);
            if (makes_nothing(solved.litres)) return std::optional<Solved>{};
            if (!by_charge) break;
            bool same = true;
            for (std::size_t j = 0; j < solved.litres.size(); ++j) {
                TRY(const auto medium, medium_of(m_problem, solved.litres[j]));
                if (!medium) continue;
                same = same && std::abs(medium->ionic_strength - solved.media[j].ionic_strength) < k_same_medium &&
                       std::abs(medium->abv - solved.media[j].abv) < 0.02;
                solved.media[j] = *medium;
            }
            if (same) break;
        }
        m_media = solved.media;
        return std::optional<Solved>(std::move(solved));
    }

    Failure fail_for_good() const {
        const auto conflict = conflict_of(m_problem);
        if (!conflict) return Failure{conflict.error()};
        Error error{ErrorKind::impossible, "limits", "These limits cannot all hold.", {}, ""};
        if (*conflict) {
            error.what = (*conflict)->words();
            error.next_step = "Give up or widen one of them.";
        }
        for (const std::string& words : left_out_of(m_problem)) error.facts.push_back({"left out", words});
        return Failure{std::move(error)};
    }

    // Rounded to what can be measured out with every limit kept; nothing where that cannot be.
    Result<std::optional<Recipe>> measured_out(const Solved& solved) {
        const Solved* from = &solved;
        std::optional<Solved> again;
        for (const double margin : {0.0, 0.001, 0.01, 0.1, 0.4}) {
            if (margin > 0.0) {
                if (m_problem.step <= 0.0) break;
                TRY(again, solve_with(margin));
                if (!again) break;
                from = &*again;
            }
            TRY(auto recipe, rounded(from->litres));
            if (recipe) return recipe;
        }
        return std::optional<Recipe>{};
    }

    Result<std::optional<Recipe>> rounded(const Litres& exact) const {
        std::optional<Recipe> best;
        Litres litres = exact;
        TRY_VOID(round_from(0, exact, litres, best));
        return best;
    }

    Result<void> round_from(std::size_t j, const Litres& exact, Litres& litres, std::optional<Recipe>& best) const {
        if (j == exact.size()) {
            TRY(std::vector<Made> made, judged_all(litres));
            if (!holds(m_problem, made, litres)) return {};
            const double cost = cost_of(m_problem, made);
            if (!best || cost < best->cost - 1e-12) best = Recipe{std::move(made), cost};
            return {};
        }
        for (std::vector<double>& way : ways_to_round(exact[j])) {
            litres[j] = std::move(way);
            TRY_VOID(round_from(j + 1, exact, litres, best));
        }
        return {};
    }

    // Every part a step down or up, so many up that the whole is as near as it can be; for several blends at once, only
    // the nearest.
    [[nodiscard]] std::vector<std::vector<double>> ways_to_round(const std::vector<double>& exact) const {
        const double step = m_problem.step;
        if (step <= 0.0) return {exact};
        std::vector<double> down = exact;
        std::vector<std::pair<double, std::size_t>> rest;  // to a step up
        double total = 0.0;
        double floor_total = 0.0;
        for (std::size_t i = 0; i < exact.size(); ++i) {
            const Stock& stock = m_problem.stocks[i];
            // What is emptied need not be measured.
            if (exact[i] <= k_nothing || exact[i] > stock.litres - stock.keep_back - 1e-6) continue;
            down[i] = std::floor(exact[i] / step + 1e-9) * step;
            total += exact[i];
            floor_total += down[i];
            if (exact[i] - down[i] > 1e-9) rest.emplace_back(exact[i] - down[i], i);
        }
        const auto ups = static_cast<std::size_t>(std::max(0L, std::lround((total - floor_total) / step)));
        std::stable_sort(rest.begin(), rest.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        std::vector<std::vector<double>> ways;
        if (rest.size() > k_most_rounded || m_problem.blends.size() > 1) {
            for (std::size_t k = 0; k < std::min(ups, rest.size()); ++k) down[rest[k].second] += step;
            ways.push_back(std::move(down));
            return ways;
        }
        for (unsigned chosen = 0; chosen < (1U << rest.size()); ++chosen) {
            if (static_cast<std::size_t>(__builtin_popcount(chosen)) != ups) continue;
            std::vector<double> way = down;
            for (std::size_t k = 0; k < rest.size(); ++k)
                if ((chosen >> k & 1U) != 0U) way[rest[k].second] += step;
            ways.push_back(std::move(way));
        }
        return ways;
    }

    const Problem& m_problem;
    const Asking& m_asking;
    std::vector<Medium> m_media;
    std::vector<Litres> m_earlier;
};

}  // namespace

Result<Found> find_blend(const Problem& problem, const Asking& asking) {
    TRY_VOID(check(problem));
    if (asking.recipes < 1 || asking.recipes > 20)
        return fail(ErrorKind::bad_input, "recipes", "1 to 20 recipes can be found.");
    if (!(asking.differ > 0.0) || asking.differ >= 1.0)
        return fail(ErrorKind::bad_input, "differ", "Recipes differ by a share of the volume above 0 and below 100 %.");
    return Finding(problem, asking).find();
}

}  // namespace undercroft::engine::blend
