// What a blend comes to and how well that is, in our own arithmetic. For the .cpp files of this folder.
#pragma once

#include <vector>

#include "base/result.hpp"
#include "engine/blend/problem.hpp"
#include "engine/blend/program.hpp"
#include "engine/blend/recipe.hpp"

namespace undercroft::engine::blend {

inline constexpr double k_nothing = 1e-7;  // litres: what sums leave of none

// At 20 °C, by activity.
[[nodiscard]] const chem::AcidSystem& acid_system();

// Litres by stock; wishes judged.
[[nodiscard]] Result<Made> judged(const Problem& problem, const Blend& blend, const std::vector<double>& litres);
// Whether every limit of the problem holds for litres by blend and stock, within what rounding of doubles does.
[[nodiscard]] bool holds(const Problem& problem, const std::vector<Made>& made,
                         const std::vector<std::vector<double>>& litres);
[[nodiscard]] double cost_of(const Problem& problem, const std::vector<Made>& made);
// Of the blend that those litres make; nothing where its acids are not known.
[[nodiscard]] Result<std::optional<Medium>> medium_of(const Problem& problem, const std::vector<double>& litres);

}  // namespace undercroft::engine::blend
