// What a face can offer to choose from: rows of the tables with the figures a form needs, and the words of acts.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "tables/tables.hpp"

namespace undercroft::app {

struct FruitChoice {
    std::string id, name, form;
    std::optional<double> brix;  // of its juice
    std::optional<double> sugars_g_per_100_g;
};

struct CultureChoice {
    std::string id, name;
    std::string killer;     // as the table says it
    std::string diastatic;  // likewise
    bool makes_gas = true;
    std::string may_enter_sour_solera;
    std::string may_enter_clean_solera;
};

struct ContainerChoice {
    std::string id, name, material;
    double volume_ml = 0.0;
    double head_space_percent = 0.0;
    bool pressure_container = false;
    std::optional<double> working_limit_bar;  // absent: ask the maker
    std::string caution;
};

struct FlavouringChoice {
    std::string id, name, form;
    std::string dose_unit;  // "g/L", "mL/kg"
    double dose_low = 0.0, dose_middle = 0.0, dose_high = 0.0;
    double days_to_90_percent = 0.0;
    std::string hazard;
};

struct AllergenChoice {
    std::string id, name;
};

struct ChoicesView {
    std::vector<FruitChoice> fruits;  // rows in use
    std::vector<CultureChoice> cultures;
    std::vector<ContainerChoice> containers;
    std::vector<FlavouringChoice> flavourings;
    std::vector<AllergenChoice> allergens;  // each once
    // "roles", "lot_kinds", … and the words of each.
    std::vector<std::pair<std::string, std::vector<std::string>>> words;
};

[[nodiscard]] ChoicesView choices_of(const tables::Tables& tables);

}  // namespace undercroft::app
