// Spices, oak, hops, enzyme and the usual doses of fruit (data/flavourings.csv).
//
// Holds: dose_low <= dose_mid <= dose_high; nothing here can be taken out again once it is in.
// Leaves out: varieties, roasts and toasts. Nearly all doses are common practice.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

enum class DoseUnit { g_per_l, ml_per_kg_fruit };

struct Flavouring {
    std::string id;
    std::string name;
    std::string form;
    DoseUnit dose_unit = DoseUnit::g_per_l;
    double dose_low = 0.0;
    double dose_mid = 0.0;
    double dose_high = 0.0;
    double days_to_90_percent = 0.0;  // contact at 12 to 20 C; first order, k = ln 10 / days
    std::string hazard;               // empty when none is known
    std::optional<double> limit;
    std::string limit_unit;
    std::string notes;
    char mark = 'P';  // C, M, P or D: data/README.md
    std::string source;
    std::string hazard_source;

    [[nodiscard]] double rate_per_day() const;
};

[[nodiscard]] Result<const Flavouring*> find_flavouring(const std::vector<Flavouring>& all, std::string_view wanted);
[[nodiscard]] Result<std::vector<Flavouring>> parse_flavourings(std::string_view csv, std::string file);

}  // namespace undercroft::tables
