// How the ages of a liquid are spread: percentiles by volume, and the share older than any age.
//
// Holds: the p-th percentile is the least age that at least p of the beer does not exceed, so it is always the age of
// a part that is there. A lot whose age is a range counts at the young end, in the middle and at the old end of it:
// every figure here is three, and the true one lies between the outer two if the lots were as old as was said.
#pragma once

#include <vector>

#include "engine/age/age.hpp"

namespace undercroft::engine {

// One figure with every ranged lot at the young end of its range, in the middle, at the old end.
struct AgeFigure {
    double young = 0.0;
    double middle = 0.0;
    double old = 0.0;
};

struct AgePercentile {
    int percent = 50;  // of the beer, by volume, that is no older
    AgeFigure years;
};

struct OlderShare {
    double years = 0.0;
    AgeFigure share;  // of the beer, at least that old
};

struct AgeProfile {
    std::vector<AgePercentile> percentiles;  // 5, 25, 50, 75, 95
    std::vector<OlderShare> older;           // one for each age asked about
};

[[nodiscard]] AgeProfile profile_of(const Age& age, const std::vector<double>& older_than_years);

}  // namespace undercroft::engine
