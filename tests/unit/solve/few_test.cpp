// The nearest mix of few, against trying every choice of columns and against the general solver.
#include "solve/few.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <random>
#include <stdexcept>

namespace undercroft::solve {
namespace {

int cases_of_few() {
    const char* said = std::getenv("UNDERCROFT_CASES");
    return std::clamp(said == nullptr ? 100 : std::atoi(said), 20, 1000);
}

// Figures with targets, dead bands, one-sided wishes and limits that must hold.
FewProblem random_mix(std::mt19937_64& chance, int columns) {
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> uniform;
    FewProblem problem;
    problem.total = 0.5 + 20.0 * uniform(chance);
    problem.most_used = 1 + static_cast<int>(uniform(chance) * 4.0);
    for (int i = 0; i < columns; ++i) {
        const double most = problem.total * (0.2 + 0.9 * uniform(chance));
        problem.columns.push_back(
            {uniform(chance) < 0.5 ? 0.0 : 0.3 * most, uniform(chance) < 0.1 ? 0.2 * most : most});
    }
    const int figures = 1 + static_cast<int>(uniform(chance) * 4.0);
    for (int f = 0; f < figures; ++f) {
        Figure figure;
        for (int i = 0; i < columns; ++i) figure.values.push_back(normal(chance));
        const double low = problem.total * 0.5 * normal(chance);
        const double high = low + problem.total * (uniform(chance) < 0.5 ? 0.0 : uniform(chance));
        switch (static_cast<int>(uniform(chance) * 4.0)) {
            case 0:
                figure.hinges = {{1.0, high, true}};
                break;
            case 1:
                figure.low = low - problem.total * uniform(chance);
                figure.hinges = {{0.7, high, true}, {1.3, low, false}};
                break;
            case 2:
                figure.high = high + 0.5 * problem.total;
                figure.hinges = {{0.5, low, false}};
                break;
            default:
                figure.hinges = {{1.0, high, true}, {1.0, low, false}, {0.01, 0.5 * (low + high), true}};
                break;
        }
        problem.figures.push_back(std::move(figure));
    }
    return problem;
}

// The same with these columns only, all of them used, as a linear programme for the general solver.
Answer with_all_of(const FewProblem& problem, unsigned chosen) {
    Program program;
    Row total{problem.total, problem.total, {}};
    std::vector<std::pair<int, std::size_t>> amounts;
    for (std::size_t i = 0; i < problem.columns.size(); ++i)
        if ((chosen >> i & 1U) != 0U) {
            const FewColumn& column = problem.columns[i];
            if (column.least > column.most) return {};
            amounts.emplace_back(program.add({column.least, column.most, 0.0, false}), i);
            total.terms.emplace_back(amounts.back().first, 1.0);
        }
    program.add(std::move(total));
    for (const Figure& figure : problem.figures) {
        Row value{figure.low, figure.high, {}};
        for (const auto& [amount, i] : amounts) value.terms.emplace_back(amount, figure.values[i]);
        for (const Hinge& hinge : figure.hinges) {
            Row over = value;
            over.low = hinge.above ? -k_no_limit : hinge.at;
            over.high = hinge.above ? hinge.at : k_no_limit;
            over.terms.emplace_back(program.add({0.0, k_no_limit, hinge.slope, false}), hinge.above ? -1.0 : 1.0);
            program.add(std::move(over));
        }
        program.add(std::move(value));
    }
    return least_cost(program);
}

double best_by_trying_all(const FewProblem& problem) {
    double best = k_no_limit;
    for (unsigned chosen = 1; chosen < (1U << problem.columns.size()); ++chosen) {
        if (__builtin_popcount(chosen) > problem.most_used) continue;
        const Answer answer = with_all_of(problem, chosen);
        if (answer.has_values()) best = std::min(best, answer.cost);
    }
    return best;
}

void expect_kept(const FewProblem& problem, const Answer& answer) {
    int used = 0;
    double sum = 0.0;
    for (std::size_t i = 0; i < answer.values.size(); ++i) {
        sum += answer.values[i];
        if (answer.values[i] == 0.0) continue;
        ++used;
        EXPECT_GE(answer.values[i], problem.columns[i].least - 1e-6);
        EXPECT_LE(answer.values[i], problem.columns[i].most + 1e-6);
    }
    EXPECT_LE(used, problem.most_used);
    EXPECT_NEAR(sum, problem.total, 1e-6 * problem.total);
    double cost = 0.0;
    for (const Figure& figure : problem.figures) {
        const double value = std::inner_product(figure.values.begin(), figure.values.end(), answer.values.begin(), 0.0);
        EXPECT_GE(value, figure.low - 1e-6);
        EXPECT_LE(value, figure.high + 1e-6);
        for (const Hinge& hinge : figure.hinges)
            cost += hinge.slope * std::max(0.0, hinge.above ? value - hinge.at : hinge.at - value);
    }
    EXPECT_NEAR(cost, answer.cost, 1e-9 * (1.0 + cost));
}

TEST(NearestOfFew, IsTheBestOfEveryChoiceOfColumns) {
    std::mt19937_64 chance(41);
    int possible = 0;
    const int cases = cases_of_few() / 2;
    for (int one = 0; one < cases; ++one) {
        SCOPED_TRACE(one);
        const FewProblem problem = random_mix(chance, 4 + one % 5);
        const double best = best_by_trying_all(problem);
        const Answer answer = nearest_of_few(problem);
        if (best == k_no_limit) {
            EXPECT_EQ(answer.standing, Standing::infeasible);
            continue;
        }
        ++possible;
        ASSERT_EQ(answer.standing, Standing::proven);
        EXPECT_NEAR(answer.cost, best, 1e-6 * (1.0 + best));  // the general solver's own tolerance
        expect_kept(problem, answer);
    }
    EXPECT_GT(possible, cases / 3);
}

TEST(NearestOfFew, OfTwelveStocksIsTheBestOfEveryChoice) {
    std::mt19937_64 chance(42);
    for (int one = 0; one < 3; ++one) {
        SCOPED_TRACE(one);
        FewProblem problem = random_mix(chance, 12);
        problem.most_used = 4;
        const double best = best_by_trying_all(problem);
        const Answer answer = nearest_of_few(problem);
        ASSERT_EQ(answer.has_values(), best != k_no_limit);
        if (answer.has_values()) {
            EXPECT_NEAR(answer.cost, best, 1e-6 * (1.0 + best));
        }
    }
}

TEST(NearestOfFew, BoundIsBelowTheBestAndTheBestBelowWhatIsFound) {
    std::mt19937_64 chance(43);
    for (int one = 0; one < cases_of_few() / 5; ++one) {
        SCOPED_TRACE(one);
        const FewProblem problem = random_mix(chance, 25);
        const Answer best = nearest_of_few(problem);
        if (!best.has_values()) continue;
        for (int asked_before = 0; asked_before < 40; asked_before += 7) {
            int asked = 0;
            const Answer early = nearest_of_few(problem, {10.0, [&] { return ++asked > asked_before; }});
            EXPECT_LE(early.bound, best.cost + 1e-8);
            if (early.has_values()) {
                EXPECT_GE(early.cost, best.cost - 1e-8);
            }
        }
    }
}

TEST(NearestOfFew, TheOrderOfColumnsDoesNotMatterAndOneMoreNeverMakesItWorse) {
    std::mt19937_64 chance(44);
    for (int one = 0; one < cases_of_few() / 5; ++one) {
        SCOPED_TRACE(one);
        const FewProblem problem = random_mix(chance, 15);
        const Answer best = nearest_of_few(problem);
        FewProblem turned = problem;
        std::reverse(turned.columns.begin(), turned.columns.end());
        FewProblem more = problem;
        more.columns.push_back({0.0, 0.4 * problem.total});
        for (std::size_t f = 0; f < problem.figures.size(); ++f) {
            std::reverse(turned.figures[f].values.begin(), turned.figures[f].values.end());
            more.figures[f].values.push_back(std::normal_distribution<double>()(chance));
        }
        const Answer after = nearest_of_few(turned);
        ASSERT_EQ(after.standing, best.standing);
        const Answer richer = nearest_of_few(more);
        if (!best.has_values()) continue;
        EXPECT_NEAR(after.cost, best.cost, 1e-8 * (1.0 + best.cost));
        ASSERT_EQ(richer.standing, Standing::proven);
        EXPECT_LE(richer.cost, best.cost + 1e-8 * (1.0 + best.cost));
    }
}

TEST(NearestOfFew, SaysWhatCannotBe) {
    FewProblem problem;
    problem.columns = {{0.0, 0.3}, {0.0, 0.3}, {0.0, 0.3}};
    problem.most_used = 3;
    EXPECT_EQ(nearest_of_few(problem).standing, Standing::infeasible);  // 0.9 is no whole
    problem.figures.push_back({{1.0, 2.0}, -k_no_limit, k_no_limit, {}});
    EXPECT_THROW((void)nearest_of_few(problem), std::invalid_argument);
}

}  // namespace
}  // namespace undercroft::solve
