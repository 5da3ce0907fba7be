// The bench sheet: measured glasses of a recipe and of its neighbours, under codes that tell nothing.
//
// Holds: codes are three digits, all different, drawn by a seed, and so is the order of the glasses: neither follows
// the recipe. Every glass holds the same volume.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/blend/problem.hpp"
#include "engine/blend/recipe.hpp"

namespace undercroft::engine::blend {

struct Pour {
    std::size_t stock = 0;
    double ml = 0.0;  // to a whole `ml_step`
};
struct Glass {
    std::string code;
    std::string what;  // "the recipe", "more of Amber": for whoever pours, not for whoever tastes
    std::vector<Pour> pours;
};
struct TrialSheet {
    std::vector<Glass> glasses;  // in the order they are tasted
};

// Millilitres of each stock with a share, in whole steps that add up to the glass.
[[nodiscard]] std::vector<Pour> pours_of(const std::vector<double>& shares, double glass_ml, double ml_step);
// Three digits each, all different; `count` at most 900.
[[nodiscard]] std::vector<std::string> blind_codes(std::size_t count, std::uint64_t seed);

// `made`: one or more recipes to be compared. `glass_ml` 20 to 500; `step` is the share of the glass by which
// neighbours differ, above 0 and at most 0.5; `ml_step` what can be measured. Fails: bad_input for figures beyond
// these.
struct TrialWish {
    double glass_ml = 100.0;
    double step = 0.05;
    double ml_step = 1.0;
    bool neighbours = true;
    std::uint64_t seed = 1;
};
[[nodiscard]] Result<TrialSheet> trial_sheet(const std::vector<Stock>& stocks, const std::vector<Made>& made,
                                             const TrialWish& wish);

}  // namespace undercroft::engine::blend
