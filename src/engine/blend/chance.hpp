// How surely a blend ends inside its ranges: stocks are estimates, and each may be off by its spread.
//
// Holds: the same seed gives the same chance. Every stock draws each of its figures by itself, normally; the pH of the
// blend moves by what its parts' pH move, weighed by litres and buffering. Leaves out: that figures of one stock, and
// stocks that share a source, are off together; that undissociated acid is not exactly what it is: with those the true
// spread is wider than told where they add up.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/blend/problem.hpp"
#include "engine/blend/recipe.hpp"

namespace undercroft::engine::blend {

struct Chance {
    double inside = 0.0;                    // of all wishes of the blend at once, limits too
    std::map<std::string, double> by_wish;  // of each alone, by figure
    std::map<std::string, double> sd;       // of the blend's figures
};
inline constexpr int k_chance_draws = 4'000;
[[nodiscard]] Result<Chance> chance_of(const Problem& problem, const Blend& blend, const std::vector<double>& litres,
                                       std::uint64_t seed = 1, int draws = k_chance_draws);

// A recipe of the same litres that keeps all limits and has a better chance, by moving litres from one stock to another
// in ever smaller steps, from the recipe given. For problems of one blend. Never worse than what it began with.
struct Surest {
    Made made;
    double cost = 0.0;  // as Recipe::cost
    double inside = 0.0;
};
[[nodiscard]] Result<Surest> surest_from(const Problem& problem, const std::vector<double>& litres,
                                         std::uint64_t seed = 1);

}  // namespace undercroft::engine::blend
