#include "base/line_fit.hpp"

#include <cmath>

namespace undercroft {

std::optional<LineFit> line_through(const std::vector<FitPoint>& points) {
    constexpr std::size_t k_least = 3;
    if (points.size() < k_least) return std::nullopt;
    const auto count = static_cast<double>(points.size());
    double mean_x = 0.0;
    double mean_y = 0.0;
    for (const FitPoint& point : points) {
        mean_x += point.x / count;
        mean_y += point.y / count;
    }
    double squares = 0.0;
    double both = 0.0;
    for (const FitPoint& point : points) {
        squares += (point.x - mean_x) * (point.x - mean_x);
        both += (point.x - mean_x) * (point.y - mean_y);
    }
    constexpr double k_one_place = 1e-6;
    if (squares < k_one_place) return std::nullopt;
    LineFit fit;
    fit.points = static_cast<int>(points.size());
    fit.at_mean = mean_y;
    fit.slope = both / squares;
    double left = 0.0;
    for (const FitPoint& point : points) {
        const double off = point.y - mean_y - fit.slope * (point.x - mean_x);
        left += off * off;
    }
    fit.slope_sd = std::sqrt(left / (count - 2.0) / squares);
    return fit;
}

}  // namespace undercroft
