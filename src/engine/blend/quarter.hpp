// The plan of a quarter for a cellar with many soleras: several products out of shared stocks at once, and what fills
// the gaps they leave, as one programme.
//
// Columns beside those of the blends: litres that each feed brings from where to where. A solera that is drawn from,
// for a product or to feed another, is full again afterwards; it gives at most a share of what it holds; a source gives
// no more than there is of it. So a product is only made of what can be replaced. Holds: told figures are worked out
// anew from the litres after rounding, and every litre that leaves a solera comes back by a feed, to a thousandth of a
// litre. Leaves out: when within the quarter; what a refill does to the solera (ages and acids of the next pull).
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/blend/problem.hpp"
#include "engine/blend/recipe.hpp"

namespace undercroft::engine::blend {

// From a source or a stock into a solera.
struct Feed {
    std::string from;
    std::string into;
};

struct RefillSource {
    std::string name;  // "Spring wort"
    double litres = 0.0;
};

struct Quarter {
    Problem problem;                   // one blend a product, each with its litres
    std::vector<std::string> soleras;  // of the stocks: full again afterwards
    std::vector<RefillSource> sources;
    std::vector<Feed> feeds;  // that are allowed
    double most_share = 0.5;  // of what a solera holds, that may leave it; above 0, at most 0.6
};

struct Fed {
    Feed feed;
    double litres = 0.0;
};

struct QuarterPlan {
    std::vector<Made> made;  // one a product
    std::vector<Fed> fed;    // those above nothing, in the order of the feeds
    double cost = 0.0;       // steps off, summed over the products
    double bound = 0.0;
    bool proven = false;
    std::vector<std::string> left_out;
};

// Fails: bad_input for names that are not there, shares and volumes that cannot be; impossible where refills are short
// or the products ask for more than the soleras may give, each with how much; outside_model as the acid system does.
[[nodiscard]] Result<QuarterPlan> plan_quarter(const Quarter& quarter, const Asking& asking);

}  // namespace undercroft::engine::blend
