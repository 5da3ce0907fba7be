// The proven best blend of stocks for a wish, the next best ones, and what they come to.
//
// Holds: what is told of a recipe is worked out anew from its litres in our own arithmetic, after rounding to what can
// be measured out; a recipe that then breaks a limit is not given. pH is exact for the acids inferred: the charge each
// stock brings at a pH is linear in its litres (chem/acid_mix.hpp), taken at the ionic strength and strength of the
// blend itself. Adding a stock never makes the best worse; the order of stocks does not matter to its cost. Leaves out:
// what ferments after blending (refermentation.hpp), the spread of the estimates (chance.hpp).
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/blend/problem.hpp"

namespace undercroft::engine::blend {

struct Part {
    std::size_t stock = 0;  // index
    double litres = 0.0;
};

struct Off {
    std::string figure;
    double by = 0.0;  // below zero: under its range
};

// One product of a recipe.
struct Made {
    double litres = 0.0;
    std::vector<Part> parts;                // largest first
    std::map<std::string, double> figures;  // of the blend; "ph" where it can be worked out
    std::vector<Off> off;                   // wishes that are missed
};

struct Recipe {
    std::vector<Made> made;  // one a blend of the problem
    double cost = 0.0;       // of the aim: steps off, litres not made, money, or gravity points times litres
};

struct Found {
    std::vector<Recipe> recipes;  // best first
    bool proven = false;          // nothing is better than the first, before rounding
    double bound = 0.0;           // no recipe costs less, to a thousandth for every step off the middle of a range
    double rounding = 0.0;        // what measuring out added to the cost of the first
    std::vector<std::string> left_out;  // stocks that lack a figure the wishes name, and which
};

struct Asking {
    int recipes = 1;
    double differ = 0.2;  // share of the volume that is of other stocks, or of the same in other amounts
    double seconds = 10.0;
    std::function<bool()> given_up = {};
};

// Fails: bad_input for volumes, ranges or names that cannot be; impossible where limits contradict each other
// (conflict.hpp says which); outside_model as the acid system does.
[[nodiscard]] Result<Found> find_blend(const Problem& problem, const Asking& asking);

}  // namespace undercroft::engine::blend
