// What a technique does to what can be measured: acids and pH by charge, alcohol, gravity, bitterness, volume, gas.
//
// Holds: nothing of the beer is lost but what the pulp holds; fruit's acids are acids and its potassium is a strong
// ion; live lactic bacteria take part of its malic acid, and all of it in the worst case. Leaves out: what the beer's
// own extract still ferments (the gas check counts it), colour, and a beer of no known pH, whose acidity is not told.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/finish/effect.hpp"
#include "engine/finish/portion.hpp"
#include "engine/fruit/fruit.hpp"

namespace undercroft::engine::finish {

struct Chemistry {
    double litres = 0.0;                        // that comes out
    std::map<std::string, Figure> figures;      // measured ones, afterwards
    std::map<std::string, ByChemistry> points;  // of attributes that a measured figure explains
    double gas_expected = 0.0;                  // volumes that may still come of what went in, closed at once
    double gas_worst = 0.0;                     // with malic and citric acid, sorbitol and hop creep
    double least_vessel_litres = 0.0;           // for the moment that needs most room
    std::vector<std::string> words;             // one sentence a change that matters
    std::vector<Caution> cautions;
};

// Live lactic bacteria may be in it: bacteria, mixed or unknown cultures.
[[nodiscard]] bool has_bacteria(const Portion& portion);

// Share of the fruit's malic acid that is gone in the end: with live lactic bacteria, and by a fermentation of the
// fruit alone (common practice, no source).
inline constexpr double k_malic_taken_by_bacteria = 0.25;
inline constexpr double k_malic_taken_by_yeast = 0.15;

// Fails: impossible where it must not be done (sorbate and bacteria); what fruit::resolve and fruit::plan fail with.
[[nodiscard]] Result<Chemistry> chemistry_of(const tables::Tables& tables, const Portion& portion,
                                             const tables::Technique& technique, const Dose& dose);

}  // namespace undercroft::engine::finish
