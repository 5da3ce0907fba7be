// Fruit as asked, to both ways of meeting it, side by side.
#pragma once

#include "app/book.hpp"
#include "engine/fruit/plan.hpp"

namespace undercroft::app {

// `beer` as the book or the keeper gives it.
[[nodiscard]] Result<FruitView> fruit_view(const FruitRequest& request, const engine::fruit::Beer& beer,
                                           const tables::Tables& tables, Gallons gallons, Day today);

}  // namespace undercroft::app
