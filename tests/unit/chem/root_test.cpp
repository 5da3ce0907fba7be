#include "chem/root.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace undercroft::chem {
namespace {

TEST(BracketedRoot, FindsTheCrossingToTheResolutionOfADouble) {
    EXPECT_NEAR(bracketed_root([](double x) { return x * x * x - 2.0; }, 0.0, 10.0), std::cbrt(2.0), 4e-16);
    EXPECT_NEAR(bracketed_root([](double x) { return std::exp(-x) - 1e-6; }, 0.0, 100.0), std::log(1e6), 4e-15);
}

TEST(BracketedRoot, TakesFallingAndRisingFunctionsAlike) {
    const auto rising = [](double x) { return x - 0.3; };
    const auto falling = [](double x) { return 0.3 - x; };
    EXPECT_DOUBLE_EQ(bracketed_root(rising, 0.0, 1.0), bracketed_root(falling, 0.0, 1.0));
}

TEST(BracketedRoot, FindsAKinkAndAnEndThatIsItselfTheRoot) {
    const auto kinked = [](double x) { return x < 1.0 ? 0.001 * (x - 1.0) : 1000.0 * (x - 1.0); };
    EXPECT_NEAR(bracketed_root(kinked, 0.0, 7.0), 1.0, 1e-15);
    EXPECT_DOUBLE_EQ(bracketed_root([](double x) { return x; }, 0.0, 5.0), 0.0);
    EXPECT_DOUBLE_EQ(bracketed_root([](double x) { return x - 5.0; }, 0.0, 5.0), 5.0);
}

TEST(BracketedRoot, GivesTheNearerEndWhereNothingCrosses) {
    EXPECT_EQ(bracketed_root([](double x) { return x + 1.0; }, 0.0, 5.0), 0.0);
    EXPECT_EQ(bracketed_root([](double x) { return x - 6.0; }, 0.0, 5.0), 5.0);
}

TEST(BracketedRoot, AsksTheFunctionSeldom) {
    int calls = 0;
    const auto counted = [&](double x) {
        ++calls;
        return std::exp(x) - 3.0;
    };
    EXPECT_NEAR(bracketed_root(counted, 0.0, 5.0), std::log(3.0), 4e-16);
    EXPECT_LE(calls, 20);  // plain halving would need over 50
}

}  // namespace
}  // namespace undercroft::chem
