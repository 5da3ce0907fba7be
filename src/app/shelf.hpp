// The shelf: bottles by place, what of them is due, who received what, what was found when one was opened, which runs
// could be opened side by side, and how liking moves with the years in the bottle.
#pragma once

#include <vector>

#include "app/shelf_views.hpp"
#include "app/views_of.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// Runs with something left, and the rest of what they tell. Without `book`.
[[nodiscard]] ShelfView shelf_of(const Seen& seen);

struct Liked {
    double years = 0.0;  // since it was packaged
    double liking = 0.0;
};
// A straight line by least squares through at least three tastings at two ages or more; nullopt below that.
struct TrendLine {
    double per_year = 0.0;
    double sd = 0.0;  // of the slope
};
[[nodiscard]] std::optional<TrendLine> trend_of(const std::vector<Liked>& tastings);

// The solera a run was pulled from, last on its way; where there is none, the vessel it was packaged from.
[[nodiscard]] std::string solera_behind(const ledger::Cellar& cellar, int run);

}  // namespace undercroft::app
