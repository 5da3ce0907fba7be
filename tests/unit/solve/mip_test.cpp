// Small programmes with answers that are known, and random ones against trying every choice.
#include "solve/mip.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <stdexcept>

namespace undercroft::solve {
namespace {

TEST(LeastCost, OfThePackingOfAKnapsack) {
    // Values 60, 100, 120 of weights 10, 20, 30 in 50: the textbook's 220.
    Program program;
    Row weight{-k_no_limit, 50.0, {}};
    const double values[] = {60.0, 100.0, 120.0};
    for (int i = 0; i < 3; ++i) weight.terms.emplace_back(program.add({0.0, 1.0, -values[i], true}), 10.0 * (i + 1));
    program.add(std::move(weight));
    const Answer answer = least_cost(program);
    EXPECT_EQ(answer.standing, Standing::proven);
    EXPECT_NEAR(answer.cost, -220.0, 1e-9);
    EXPECT_EQ(answer.values, (std::vector<double>{0.0, 1.0, 1.0}));
}

TEST(LeastCost, WithoutWholeNumbersIsTheLinearOne) {
    Program program;
    const int x = program.add({0.0, k_no_limit, 2.0, false});
    const int y = program.add({0.0, 3.0, 1.0, false});
    program.add(Row{5.0, 5.0, {{x, 1.0}, {y, 1.0}}});
    const Answer answer = least_cost(program);
    EXPECT_EQ(answer.standing, Standing::proven);
    EXPECT_NEAR(answer.cost, 7.0, 1e-9);
    EXPECT_NEAR(answer.bound, 7.0, 1e-9);
}

TEST(LeastCost, SaysThatRowsContradictOrThatNothingEndsIt) {
    Program no;
    const int x = no.add({0.0, 1.0, 0.0, true});
    no.add(Row{2.0, 2.0, {{x, 1.0}}});
    EXPECT_EQ(least_cost(no).standing, Standing::infeasible);
    Program forever;
    forever.add({0.0, k_no_limit, -1.0, false});
    forever.add(Row{0.0, k_no_limit, {{0, 1.0}}});
    EXPECT_EQ(least_cost(forever).standing, Standing::unbounded);
    EXPECT_FALSE(least_cost(no).has_values());
}

TEST(LeastCost, IsWhatTryingEveryChoiceFinds) {
    std::mt19937 bits(20260314);
    std::uniform_real_distribution<double> any(-1.0, 1.0);
    for (int trial = 0; trial < 100; ++trial) {
        constexpr int k_columns = 8;
        Program program;
        for (int i = 0; i < k_columns; ++i) program.add(Column{0.0, 1.0, any(bits), true});
        for (int r = 0; r < 3; ++r) {
            Row row{-k_no_limit, any(bits), {}};
            for (int i = 0; i < k_columns; ++i) row.terms.emplace_back(i, any(bits));
            program.add(std::move(row));
        }
        double best = k_no_limit;
        for (int choice = 0; choice < 1 << k_columns; ++choice) {
            double cost = 0.0;
            bool holds = true;
            for (int i = 0; i < k_columns; ++i)
                if ((choice >> i & 1) != 0) cost += program.columns[static_cast<std::size_t>(i)].cost;
            for (const Row& row : program.rows) {
                double sum = 0.0;
                for (const auto& [column, factor] : row.terms)
                    if ((choice >> column & 1) != 0) sum += factor;
                holds = holds && sum <= row.high + 1e-9;
            }
            if (holds) best = std::min(best, cost);
        }
        const Answer answer = least_cost(program);
        if (std::isinf(best)) {
            EXPECT_EQ(answer.standing, Standing::infeasible) << trial;
        } else {
            ASSERT_EQ(answer.standing, Standing::proven) << trial;
            EXPECT_NEAR(answer.cost, best, 1e-6) << trial;
        }
    }
}

TEST(LeastCost, OfABadProgrammeIsOurBug) {
    Program program;
    program.add(Column{});
    program.add(Row{0.0, 1.0, {{3, 1.0}}});
    EXPECT_THROW((void)least_cost(program), std::invalid_argument);
    EXPECT_THROW((void)least_cost(Program{}), std::invalid_argument);
}

}  // namespace
}  // namespace undercroft::solve
