// Kinds of cultures: what they eat, how far they go, whom they kill (data/cultures.csv).
//
// Holds: low <= typical <= high; a culture that can ferment has its lowest gravity and its stable days.
// Leaves out: single strains. For a blend take the worst of every gas column: lowest gravity, union of
// what is eaten, longest watch.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

enum class CultureGroup { yeast, yeast_film, bacteria, mixed, unknown, none };

// Sensitive dies; neutral neither kills nor dies; unknown is treated as killer where it would go into a
// solera, and as sensitive where it would be relied on.
enum class KillerType { killer, neutral, sensitive, unknown, none };

enum class DiastaticType {
    no,
    yes,              // glucoamylase that works on after the cells die
    dextrins_slowly,  // alpha-glucosidase and the like, inside living cells
    unknown,          // treat as yes
};

enum class GasType {
    none,
    little,
    malolactic_only,  // with hardly any fall of gravity
    some_kinds,       // heterofermentative kinds, and malolactic
    yes,
};

enum class ShelfDanger { low, medium, high };

struct CultureKind {
    std::string id;
    std::string name;
    CultureGroup group = CultureGroup::unknown;

    KillerType killer = KillerType::unknown;
    std::string toxin;                   // "K2"; empty when none, "unknown" when nobody knows
    std::vector<std::string> killed_by;  // toxins, with remarks
    std::string kills;
    DiastaticType diastatic = DiastaticType::unknown;
    std::string diastatic_text;  // the cell, for showing

    // As the table says it ("yes", "no", "some strains", "slowly", ...).
    std::string eats_simple_sugars;
    std::string eats_maltose;
    std::string eats_maltotriose;
    std::string eats_dextrins;
    std::string eats_lactose;
    GasType gas = GasType::yes;
    std::string gas_text;

    // Apparent attenuation as a share: 0.82; above 1 below the gravity of water.
    double attenuation_low = 0.0;
    double attenuation_typical = 0.0;
    double attenuation_high = 0.0;
    // SG that a wort of 1.048 can reach, rounded to 0.001 (so take the lower of this and
    // 1 - attenuation_high where gas is counted). nullopt: it alone does not finish a wort.
    std::optional<double> lowest_gravity_from_1_048;

    std::string phenolic;
    std::string makes_acid;
    std::string needs_oxygen;
    std::optional<double> alcohol_limit_percent;  // % vol
    std::optional<double> temperature_min_c;
    std::optional<double> temperature_best_low_c;
    std::optional<double> temperature_best_high_c;
    std::optional<double> temperature_max_c;
    std::optional<double> pH_floor;
    std::optional<double> hop_limit_ibu;

    // The watch before packaging: least days without change, and readings in them.
    std::optional<double> days_to_stable_low;
    std::optional<double> days_to_stable_typical;
    std::optional<double> days_to_stable_high;
    std::optional<double> stable_days;
    std::optional<double> stable_readings;
    std::optional<double> stable_days_below_15_c;
    std::optional<double> stable_resolution_sg;  // change that counts as none
    std::optional<double> waiver_below_sg;       // below it the watch may be skipped; gas to the lowest SG still counts
    std::string forced_test;

    double alive_in_bottle_months_low = 0.0;
    double alive_in_bottle_months_high = 0.0;
    ShelfDanger shelf_danger = ShelfDanger::high;
    std::string fit_to_share;
    std::string may_enter_sour_solera;
    std::string may_enter_clean_solera;
    std::string notes;
    char mark = 'P';
    std::string source;

    [[nodiscard]] bool makes_gas() const { return gas != GasType::none; }
    [[nodiscard]] bool is_alive() const { return group != CultureGroup::none; }
    // Brettanomyces apart, the yeasts of the table are Saccharomyces. A mixed culture is not: more than that lives in
    // it.
    [[nodiscard]] bool is_saccharomyces() const {
        return group == CultureGroup::yeast && !std::string_view(id).starts_with("brett_");
    }
};

[[nodiscard]] Result<const CultureKind*> find_culture(const std::vector<CultureKind>& all, std::string_view wanted);
[[nodiscard]] Result<std::vector<CultureKind>> parse_cultures(std::string_view csv, std::string file);

}  // namespace undercroft::tables
