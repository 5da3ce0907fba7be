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

// The solera a run was pulled from, last on its way; where there is none, the vessel it was packaged from.
[[nodiscard]] std::string solera_behind(const ledger::Cellar& cellar, int run);

}  // namespace undercroft::app
