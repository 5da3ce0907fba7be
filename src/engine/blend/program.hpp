// A blend problem as a linear programme. For the .cpp files of this folder.
//
// Columns: litres of each stock in each blend, whether it is used at all (whole), and how far each wish is missed on
// either side. Each limit a keeper stated is a *limit* with words, so that one can be left out to see who contradicts
// whom.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/blend/problem.hpp"
#include "solve/mip.hpp"

namespace undercroft::engine::blend {

// What a charge at a pH depends on beside the stocks: the ionic strength and alcohol of the blend that comes out.
struct Medium {
    double ionic_strength = 0.03;
    double abv = 6.0;
};

struct Limit {
    std::string words;      // "pH at most 3.4"
    std::size_t blend = 0;  // that it is about
    std::string figure;     // of a wish; empty else
    bool total = false;     // how much there shall be
};

// Columns by blend and stock.
struct Layout {
    std::vector<std::vector<int>> litres;
    std::vector<std::vector<int>> used;  // -1: no column was needed
};

struct Programmed {
    solve::Program program;
    Layout layout;
    std::vector<Limit> limits;
    std::vector<std::vector<int>> rows_of_limit;  // what a limit adds
};

// `media`: one a blend.
[[nodiscard]] Result<Programmed> programmed(const Problem& problem, const std::vector<Medium>& media);
// Without the rows of the limits that `kept` leaves out.
[[nodiscard]] solve::Program with_limits(const Programmed& programmed, const std::vector<bool>& kept);
// What a wish or limit says: "pH 3.3 to 3.5", "at most 6 g/L ta".
[[nodiscard]] std::string words_of(const Wish& wish);

}  // namespace undercroft::engine::blend
