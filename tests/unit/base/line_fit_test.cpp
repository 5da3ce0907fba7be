#include "base/line_fit.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace undercroft {
namespace {

TEST(LineFit, IsTheLineOfLeastSquaresWithTheSpreadOfItsSlope) {
    // Slope 1 through (0, 6), (1, 8), (2, 8): off by -1/3, 2/3, -1/3; their squares 2/3 over one degree of freedom and
    // a sum of squares of 2.
    const auto line = line_through({{0.0, 6.0}, {1.0, 8.0}, {2.0, 8.0}});
    ASSERT_TRUE(line.has_value());
    EXPECT_NEAR(line->slope, 1.0, 1e-12);
    EXPECT_NEAR(line->slope_sd, std::sqrt(2.0 / 3.0 / 2.0), 1e-12);
    EXPECT_NEAR(line->at_mean, 22.0 / 3.0, 1e-12);
    EXPECT_EQ(line->points, 3);
}

TEST(LineFit, OfTwoPointsOrOfOnePlaceIsNone) {
    EXPECT_FALSE(line_through({{0.0, 6.0}, {1.0, 8.0}}).has_value());
    EXPECT_FALSE(line_through({{1.0, 6.0}, {1.0, 8.0}, {1.0, 7.0}}).has_value());
}

}  // namespace
}  // namespace undercroft
