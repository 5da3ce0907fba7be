// How much of an attribute a technique moves, by dose and days.
//
// Holds: at the table's middle dose after full time the change is the table's; a linear effect grows with the dose, a
// saturating one as d/(d + half dose); a first-order one comes as 1 - exp(-ln(10) t/t90), and that of age and rests is
// the whole at its middle time. Leaves out: clipping to 0 to 10, and what attributes do to each other (draws.hpp).
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/finish/portion.hpp"
#include "tables/technique.hpp"

namespace undercroft::engine::finish {

struct Dose {
    double amount = 0.0;  // in the technique's unit
    double days = 0.0;    // of contact
};

// The share of the whole change that this dose gives; 1 at the middle dose.
[[nodiscard]] double dose_factor(const tables::Effect& effect, double amount);
// The share that has come by then; of age and rests beside the middle time.
[[nodiscard]] double time_factor(const tables::Effect& effect, const tables::Technique& technique, double days);
// Of age and rests the dose is the time.
[[nodiscard]] double days_of(const tables::Technique& technique, double amount);

// The row is partly explained by what is measured: its two means differ.
[[nodiscard]] bool has_chemistry(const tables::Effect& effect);

// A change of `quantity` that chemistry gives, by attribute: points = slope x change.
struct ByChemistry {
    double points = 0.0;
    double sd = 0.0;
};

// What is known of the beer that effects depend on: "titratable_acidity" g/L, "bitterness_IBU", "oxygen_ingress".
using Quantities = std::map<std::string, double>;

// Change of one attribute in points. With `chemistry` only where the row has chemistry or there is no row.
[[nodiscard]] Figure change_of(const tables::Effect& effect, const tables::Technique& technique, const Dose& dose,
                               const Quantities& beer, const ByChemistry* chemistry);

[[nodiscard]] bool applies(const tables::Effect& effect, bool sour);

// Changes of all attributes: rows that apply to the beer, chemistry where there is no row, and for every other
// attribute nothing with a spread of 0.3 points (data/effects.csv).
[[nodiscard]] std::map<std::string, Figure> changes_of(const std::vector<tables::Effect>& effects,
                                                       const tables::Technique& technique, const Dose& dose, bool sour,
                                                       const Quantities& beer,
                                                       const std::map<std::string, ByChemistry>& chemistry);

inline constexpr double k_tasting_noise = 0.3;  // points: the same beer tasted twice (the row of leaving it alone)

}  // namespace undercroft::engine::finish
