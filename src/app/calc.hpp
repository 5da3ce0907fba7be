// Sums of chemistry without a book: pH, acids, doses, blends, gas, strength, colour, bitterness.
//
// Holds: every figure is told with its formula and source, every answer with its valid range and what it leaves out;
// outside the range there is an Error and no number. Amounts come as typed and are read here.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "engine/state/term.hpp"
#include "tables/tables.hpp"
#include "tables/threshold.hpp"
#include "units/amount.hpp"

namespace undercroft::app {

// What was typed: words, and the values of options by name ("--lactic").
struct CalcRequest {
    std::vector<std::string> words;
    std::map<std::string, std::vector<std::string>, std::less<>> options;
    Gallons gallons = Gallons::unset;
    const tables::Tables* tables = nullptr;  // given by every face

    [[nodiscard]] bool has(std::string_view option) const { return options.contains(option); }
    [[nodiscard]] std::string one(std::string_view option) const;  // empty when it was not given
    [[nodiscard]] std::vector<std::string> all(std::string_view option) const;
};

struct CalcView {
    std::string about;                // "acids of a liquid of pH 3.40"
    std::string basis;                // of every pH in it; empty where there is none
    std::vector<engine::Term> asked;  // what was taken as given, defaults too
    std::vector<engine::Term> terms;  // the answer
    std::vector<std::string> ranges;  // where the formulas hold
    std::vector<std::string> left_out;
    std::vector<engine::Caution> cautions;
};

[[nodiscard]] Result<CalcView> calc_ph(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_acids(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_dose(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_acid_blend(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_carbonation(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_pressure(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_priming(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_dissolved(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_alcohol(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_gravity(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_mix(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_colour(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_bitterness(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_tasting_test(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_threshold(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_extraction(const CalcRequest& request);
[[nodiscard]] Result<CalcView> calc_trial(const CalcRequest& request);

// Whether so much of it is noticed; `mg_per_l` 0 or more.
[[nodiscard]] engine::Term noticed_term(const tables::Threshold& row, double mg_per_l);

}  // namespace undercroft::app
