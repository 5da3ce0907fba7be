// A straight line through points by least squares, and the spread of its slope.
#pragma once

#include <optional>
#include <vector>

namespace undercroft {

struct FitPoint {
    double x = 0.0;
    double y = 0.0;
};

struct LineFit {
    double slope = 0.0;
    double slope_sd = 0.0;  // one standard deviation, by what the points lie off the line; n - 2 degrees of freedom
    double at_mean = 0.0;   // y at the mean of x
    int points = 0;
};

// nullopt below three points, or when all stand at one x.
[[nodiscard]] std::optional<LineFit> line_through(const std::vector<FitPoint>& points);

}  // namespace undercroft
