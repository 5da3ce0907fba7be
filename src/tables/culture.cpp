#include "tables/culture.hpp"

#include <cmath>
#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

constexpr double k_wort_points = 0.048;  // of the 1.048 wort that the lowest gravity is stated for

// The table rounds the lowest gravity to 0.001, in one row downwards for safety.
constexpr double k_gravity_rounding = 0.0011;

Result<void> read_names(const CsvRow& row, CultureKind& culture) {
    TRY(culture.id, row.id("id"));
    TRY(culture.name, row.text("name"));
    TRY(culture.group, row.word<CultureGroup>("kind", {{"yeast", CultureGroup::yeast},
                                                       {"yeast film", CultureGroup::yeast_film},
                                                       {"bacteria", CultureGroup::bacteria},
                                                       {"mixed", CultureGroup::mixed},
                                                       {"unknown", CultureGroup::unknown},
                                                       {"none", CultureGroup::none}}));
    TRY(culture.killer, row.word<KillerType>("killer_phenotype", {{"killer", KillerType::killer},
                                                                  {"neutral", KillerType::neutral},
                                                                  {"sensitive", KillerType::sensitive},
                                                                  {"unknown", KillerType::unknown},
                                                                  {"none", KillerType::none}}));
    TRY(culture.toxin, row.text_or_empty("toxin_type"));
    if (culture.killer == KillerType::killer && culture.toxin.empty()) {
        return row.refuse("toxin_type", "the toxin of a killer, or \"unknown\"");
    }
    TRY(culture.killed_by, row.list("killed_by", ';'));
    TRY(culture.kills, row.text("kills"));
    return {};
}

Result<void> read_food(const CsvRow& row, CultureKind& culture) {
    TRY(culture.diastatic,
        row.word<DiastaticType>("diastatic", {{"no", DiastaticType::no},
                                              {"yes", DiastaticType::yes},
                                              {"alpha-glucosidase", DiastaticType::dextrins_slowly},
                                              {"some dextrin", DiastaticType::dextrins_slowly},
                                              {"yes by Brettanomyces", DiastaticType::dextrins_slowly},
                                              {"unknown", DiastaticType::unknown},
                                              {"treat as yes", DiastaticType::unknown}}));
    TRY(culture.diastatic_text, row.text("diastatic"));
    TRY(culture.eats_simple_sugars, row.text("eats_glucose_fructose_sucrose"));
    TRY(culture.eats_maltose, row.text("eats_maltose"));
    TRY(culture.eats_maltotriose, row.text("eats_maltotriose"));
    TRY(culture.eats_dextrins, row.text("eats_dextrins"));
    TRY(culture.eats_lactose, row.text("eats_lactose"));
    TRY(culture.gas,
        row.word<GasType>("makes_gas", {{"yes", GasType::yes},
                                        {"no", GasType::none},
                                        {"little", GasType::little},
                                        {"malolactic only", GasType::malolactic_only},
                                        {"some kinds (heterofermentative), and malolactic", GasType::some_kinds}}));
    TRY(culture.gas_text, row.text("makes_gas"));
    TRY(culture.phenolic, row.text("phenolic_off_flavour"));
    TRY(culture.makes_acid, row.text("makes_acid"));
    TRY(culture.needs_oxygen, row.text("needs_oxygen"));
    return {};
}

Result<void> read_attenuation(const CsvRow& row, CultureKind& culture) {
    constexpr Range k_attenuation_percent{0.0, 105.0};
    TRY(const double low, row.number("apparent_attenuation_low", k_attenuation_percent));
    TRY(const double typical, row.number("apparent_attenuation_typical", k_attenuation_percent));
    TRY(const double high, row.number("apparent_attenuation_high", k_attenuation_percent));
    if (low > typical || typical > high) {
        return row.refuse("apparent_attenuation_typical", "a value between the low and the high one");
    }
    culture.attenuation_low = low / 100.0;
    culture.attenuation_typical = typical / 100.0;
    culture.attenuation_high = high / 100.0;
    TRY(culture.lowest_gravity_from_1_048, row.number_or_empty("lowest_SG_from_1_048", {0.990, 1.048}));
    if (culture.lowest_gravity_from_1_048) {
        const double derived = 1.0 + k_wort_points * (1.0 - culture.attenuation_high);
        if (std::abs(*culture.lowest_gravity_from_1_048 - derived) > k_gravity_rounding) {
            return row.refuse("lowest_SG_from_1_048", "what the highest attenuation leaves of 1.048");
        }
    } else if (culture.gas == GasType::yes) {
        return row.refuse("lowest_SG_from_1_048", "the lowest gravity of a culture that makes gas");
    }
    return {};
}

Result<void> read_limits(const CsvRow& row, CultureKind& culture) {
    constexpr Range k_temperature_range{0.0, 60.0};
    TRY(culture.alcohol_limit_percent, row.number_or_empty("alcohol_limit_abv", {0.0, 25.0}));
    TRY(culture.temperature_min_c, row.number_or_empty("temp_min_C", k_temperature_range));
    TRY(culture.temperature_best_low_c, row.number_or_empty("temp_best_low_C", k_temperature_range));
    TRY(culture.temperature_best_high_c, row.number_or_empty("temp_best_high_C", k_temperature_range));
    TRY(culture.temperature_max_c, row.number_or_empty("temp_max_C", k_temperature_range));
    TRY(culture.pH_floor, row.number_or_empty("pH_floor_growth", {2.0, 5.0}));
    TRY(culture.hop_limit_ibu, row.number_or_empty("hop_limit_IBU", {0.0, 500.0}));
    if (!culture.is_alive()) return {};
    const bool all = culture.alcohol_limit_percent && culture.temperature_min_c && culture.temperature_best_low_c &&
                     culture.temperature_best_high_c && culture.temperature_max_c && culture.pH_floor &&
                     culture.hop_limit_ibu;
    if (!all) return row.refuse("temp_min_C", "every limit of a live culture: alcohol, temperatures, pH, hops");
    if (*culture.temperature_min_c > *culture.temperature_best_low_c ||
        *culture.temperature_best_low_c > *culture.temperature_best_high_c ||
        *culture.temperature_best_high_c > *culture.temperature_max_c) {
        return row.refuse("temp_best_low_C", "temperatures in the order min, best low, best high, max");
    }
    return {};
}

Result<void> read_watch(const CsvRow& row, CultureKind& culture) {
    constexpr Range k_days_range{0.0, 2000.0};
    TRY(culture.days_to_stable_low, row.number_or_empty("days_to_stable_low", k_days_range));
    TRY(culture.days_to_stable_typical, row.number_or_empty("days_to_stable_typical", k_days_range));
    TRY(culture.days_to_stable_high, row.number_or_empty("days_to_stable_high", k_days_range));
    if (culture.days_to_stable_low.value_or(0.0) > culture.days_to_stable_typical.value_or(0.0) ||
        culture.days_to_stable_typical.value_or(0.0) > culture.days_to_stable_high.value_or(0.0)) {
        return row.refuse("days_to_stable_typical", "days in the order low, typical, high");
    }
    TRY(culture.stable_days, row.number_or_empty("stable_days_required", k_days_range));
    TRY(culture.stable_readings, row.number_or_empty("stable_readings_required", {0.0, 20.0}));
    TRY(culture.stable_days_below_15_c, row.number_or_empty("stable_days_if_below_15C", k_days_range));
    TRY(culture.stable_resolution_sg, row.number_or_empty("stable_SG_resolution", {0.0001, 0.002}));
    TRY(culture.waiver_below_sg, row.number_or_empty("waiver_below_SG", {0.990, 1.010}));
    TRY(culture.forced_test, row.text_or_empty("forced_test"));
    if (culture.makes_gas()) {
        if (!culture.stable_days || !culture.stable_days_below_15_c || !culture.stable_resolution_sg) {
            return row.refuse("stable_days_required", "the watch of a culture that makes gas");
        }
        if (culture.stable_readings.value_or(0.0) < 2.0) {
            return row.refuse("stable_readings_required", "at least 2 readings: one shows no change");
        }
        if (*culture.stable_days_below_15_c < *culture.stable_days) {
            return row.refuse("stable_days_if_below_15C", "at least the days of the warm watch");
        }
    }
    return {};
}

Result<void> read_life(const CsvRow& row, CultureKind& culture) {
    constexpr Range k_months_range{0.0, 600.0};
    TRY(culture.alive_in_bottle_months_low, row.number("alive_in_bottle_months_low", k_months_range));
    TRY(culture.alive_in_bottle_months_high, row.number("alive_in_bottle_months_high", k_months_range));
    if (culture.alive_in_bottle_months_low > culture.alive_in_bottle_months_high) {
        return row.refuse("alive_in_bottle_months_low", "no more than the high value");
    }
    TRY(culture.shelf_danger,
        row.word<ShelfDanger>(
            "shelf_danger", {{"low", ShelfDanger::low}, {"medium", ShelfDanger::medium}, {"high", ShelfDanger::high}}));
    TRY(culture.fit_to_share, row.text("fit_to_share"));
    TRY(culture.may_enter_sour_solera, row.text("may_enter_sour_solera"));
    TRY(culture.may_enter_clean_solera, row.text("may_enter_clean_solera"));
    TRY(culture.notes, row.text_or_empty("notes"));
    TRY(culture.mark, read_mark(row));
    TRY(culture.source, row.text("source"));
    return {};
}

Result<CultureKind> read_culture(const CsvRow& row) {
    CultureKind culture;
    TRY_VOID(read_names(row, culture));
    TRY_VOID(read_food(row, culture));
    TRY_VOID(read_attenuation(row, culture));
    TRY_VOID(read_limits(row, culture));
    TRY_VOID(read_watch(row, culture));
    TRY_VOID(read_life(row, culture));
    return culture;
}

}  // namespace

Result<const CultureKind*> find_culture(const std::vector<CultureKind>& all, std::string_view wanted) {
    return look_up_by_name(all, wanted, "culture");
}

Result<std::vector<CultureKind>> parse_cultures(std::string_view csv, std::string file) {
    TRY(std::vector<CultureKind> all, read_rows<CultureKind>(csv, file, read_culture));
    TRY_VOID(require_unique(all, file, [](const CultureKind& culture) { return culture.id; }));
    return all;
}

}  // namespace undercroft::tables
