// A fruit that the tables do not have, from what its label says.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// "cloudberry, sugar 6, acid 1.2, form fresh": g per 100 g; form fresh, frozen, dried, canned or juice. Adds its row,
// both ways of using it, and what is expected of its taste: fruit +3 ± 2 points at 150 g/L (own choice: like soft
// fruit, widely), acid by the acid balance as citric. Fails: bad_input for a label without sugar and acid, or figures
// that cannot be.
[[nodiscard]] Result<void> add_fruit_from_label(const std::string& text, tables::Tables& tables,
                                                std::vector<tables::Effect>& effects);

}  // namespace undercroft::app
