// The nearest mix of few: at most so many of the columns used, each by nothing or by an amount between its limits, the
// amounts adding up, so that linear figures of the mix miss their ranges by least.
//
// Best-first branch and bound over which columns are used. Its linear programmes have a row a figure and no column for
// "used": of the columns not yet decided, sum(amount / most) <= what is left of the count says the same. So they are a
// tenth of what the general solver (mip.hpp) is given, and a dense dual simplex does one in microseconds.
//
// Holds: `bound` is worked out of the multipliers and the figures as given, not out of the simplex's tableau, so that
// it is a bound whatever rounding did to the tableau. The same problem without a time limit reached gives the same
// answer. Leaves out: several mixes at once, and anything said about pairs of columns.
#pragma once

#include <vector>

#include "solve/mip.hpp"

namespace undercroft::solve {

// Cost `slope` for each unit that the figure is above (or below) `at`.
struct Hinge {
    double slope = 0.0;  // zero or more
    double at = 0.0;
    bool above = true;
};

// A figure of the mix: sum(values * amounts).
struct Figure {
    std::vector<double> values;  // one a column
    double low = -k_no_limit;    // never below
    double high = k_no_limit;    // never above
    std::vector<Hinge> hinges;
};

struct FewColumn {
    double least = 0.0;  // if used at all
    double most = 0.0;
};

struct FewProblem {
    std::vector<FewColumn> columns;
    std::vector<Figure> figures;
    double total = 1.0;
    int most_used = 0;  // above zero
};

// `values` has an amount a column. Sizes that do not fit, or a NaN: std::invalid_argument.
[[nodiscard]] Answer nearest_of_few(const FewProblem& problem, const Effort& effort = {});

}  // namespace undercroft::solve
