// All the CO2 that could be in a package at most, cause by cause: the gas half of the first check.
//
// Holds: `terms` sum to `volumes`; each is an upper bound for the worst of the cultures that may live in the beer.
// Leaves out: pressure and verdict (gas_check.cpp).
#pragma once

#include <vector>

#include "base/result.hpp"
#include "engine/package/gas_question.hpp"
#include "engine/state/term.hpp"
#include "tables/tables.hpp"

namespace undercroft::engine::package {

using engine::Term;

struct GasBound {
    std::vector<Term> terms;
    double volumes = 0.0;
    double to_come = 0.0;        // of it, not yet in the beer
    double fermentables = 0.0;   // of it, from gravity that may still fall
    bool complete = true;        // false: gravity not read
    bool strength_known = true;  // false: neither original gravity nor alcohol, so the bound is wide
    bool culture_known = true;   // false: nobody said, counted as wild
    bool alive = false;          // something that makes gas may live in it
    double lowest_gravity = 1.0;
    double original_gravity = 1.0;  // as taken for what the cultures may reach
    double abv = 0.0;               // as taken for the solubility
    double extract_g_per_l = 0.0;
    std::vector<const tables::CultureKind*> cultures;  // as counted
};

// SG that the culture may reach at the lowest, by its highest attenuation and by the lowest gravity of its row: both
// are of a wort of 1.048 and go with what another wort has above water.
[[nodiscard]] double lowest_gravity_of(const tables::CultureKind& kind, double original_gravity);

// Malic acid by a yeast, whole, rather than by bacteria alone.
[[nodiscard]] bool may_take_malic_whole(const tables::CultureKind& kind);

[[nodiscard]] Result<GasBound> bound_of(const GasQuestion& question, const tables::Tables& tables);

}  // namespace undercroft::engine::package
