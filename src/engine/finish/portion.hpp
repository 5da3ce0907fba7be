// A pull, or a share of it, that is to be finished, and what it shall become.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/blend/problem.hpp"
#include "tables/tables.hpp"

namespace undercroft::engine::finish {

using blend::Figure;

struct Portion {
    blend::Stock beer;  // litres; figures measured ("ta", "alcohol", "ibu", ...) and tasted (ids of attributes)
    bool sour = true;   // which rows of the tables apply
    std::vector<tables::Fault> faults;           // that stand
    std::optional<double> vessel_litres;         // brimful, of where it would be finished; nullopt: not said
    std::optional<double> oxygen_mg_per_l_year;  // that the vessel lets in; nullopt: 12, a wine barrel's
    bool sorbate_in_fruit = false;               // the label of the fruit names sorbate or benzoate
    bool yeast_is_neutral = false;               // the fruit's yeast is known to be no killer
};

// What the keeper wants of it; of each figure one band. `unit` is what counts as one step off.
using Target = std::vector<blend::Wish>;

// What a keeper pays: of a technique's id, a kilogram of fruit, spice, wood, hops, acid or sugar; a litre of beer.
using Prices = std::map<std::string, double>;

inline constexpr const char* k_acidity_row = "titratable_acidity";
inline constexpr double k_barrel_oxygen = 12.0;  // mg/L a year: the reference of the effect on vinegar

}  // namespace undercroft::engine::finish
