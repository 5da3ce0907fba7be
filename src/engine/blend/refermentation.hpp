// What may still ferment once beers meet: the culture of one reaches what another left.
//
// Holds: every culture possible in any part counts in all of it, by its lowest gravity from each part's own wort
// (engine/package/bound.hpp). Leaves out: sugar of fruit and priming, malic acid: the gas check counts those.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/blend/problem.hpp"
#include "engine/blend/recipe.hpp"

namespace undercroft::engine::blend {

struct Refermentation {
    double points = 0.0;              // 0.001 of gravity that may fall, of the blend
    double volumes = 0.0;             // of CO2, by the safe side (chem/gas.hpp)
    double abv = 0.0;                 // % vol more
    std::string culture;              // that reaches furthest; empty: nothing alive, or nothing left
    std::optional<double> from_days;  // until it is stable, at its liking
    std::optional<double> until_days;
    bool known = true;  // false: a part has no gravity or no original gravity, so this is too little
};
[[nodiscard]] Refermentation refermentation_of(const std::vector<Stock>& stocks, const Made& made);

// Points that may fall in a litre of each stock, were all these cultures let into it.
[[nodiscard]] std::vector<double> points_left(const std::vector<Stock>& stocks);

}  // namespace undercroft::engine::blend
