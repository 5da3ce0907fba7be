// Whether a blend written as a linear programme is the nearest mix of few stocks (solve/few.hpp), which has a faster
// search of its own. For the .cpp files of this folder.
#pragma once

#include <optional>

#include "engine/blend/program.hpp"

namespace undercroft::engine::blend {

// As `solve::least_cost` answers; of `values` only the columns of litres are filled in. Nothing where it has another
// shape: several blends, another aim, stocks all or nothing, no small most number of stocks.
[[nodiscard]] std::optional<solve::Answer> nearest_of_few_stocks(const Problem& problem, const Programmed& programmed,
                                                                 const solve::Effort& effort);

}  // namespace undercroft::engine::blend
