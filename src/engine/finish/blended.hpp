// A blend of the portion with other stocks as one of its ways to be finished.
#pragma once

#include <vector>

#include "engine/blend/recipe.hpp"
#include "engine/finish/option.hpp"

namespace undercroft::engine::finish {

// The recipe that comes nearest to the target with at least half of it the portion, by the blend engine; nothing where
// none of the partners can be counted with, or leaving it alone is nearest. Fails: as find_blend does.
[[nodiscard]] Result<std::optional<Option>> blended(const tables::Tables& tables, const Portion& portion,
                                                    const Target& target, const std::vector<blend::Stock>& partners,
                                                    const Prices& prices, const Draws& draws);

}  // namespace undercroft::engine::finish
