// Reading the options of a sum. For the calc_*.cpp files of this folder.
#pragma once

#include <optional>

#include "app/calc.hpp"
#include "units/pressure.hpp"
#include "units/temperature.hpp"

namespace undercroft::app::calc {

// Each gives `otherwise` where the option was left out.
[[nodiscard]] Result<double> grams_per_litre(const CalcRequest& request, std::string_view option, double otherwise);
[[nodiscard]] Result<double> number(const CalcRequest& request, std::string_view option, double low, double high,
                                    double otherwise);
[[nodiscard]] Result<double> alcohol(const CalcRequest& request, double otherwise = 0.0);  // --alcohol, % vol
[[nodiscard]] Result<Temperature> temperature(const CalcRequest& request, std::string_view option, double otherwise);
[[nodiscard]] Result<double> share(const CalcRequest& request, std::string_view option, double otherwise);
[[nodiscard]] Result<AbsolutePressure> ambient(const CalcRequest& request);  // by --altitude, in metres
// Must be there.
[[nodiscard]] Result<double> litres(const CalcRequest& request, std::string_view option);
[[nodiscard]] Result<double> sg(const CalcRequest& request, std::string_view option);
[[nodiscard]] Result<double> sg_of(std::string_view field, const std::string& text);
[[nodiscard]] Result<double> co2_g_per_l(const CalcRequest& request, std::string_view option);
[[nodiscard]] Result<double> litres_of(std::string_view field, const std::string& text, Gallons gallons);

// A part of several: "20 L, ph 3.4, ta 6": a volume or mass first, then pairs of a word and an amount.
struct Part {
    std::string first;
    std::map<std::string, std::string, std::less<>> pairs;
    [[nodiscard]] std::string one(std::string_view word) const;
};
// Refuses words other than `known`.
[[nodiscard]] Result<Part> part_of(std::string_view field, const std::string& text,
                                   const std::vector<std::string>& known);
[[nodiscard]] Failure wants(std::string_view option, std::string_view example);

}  // namespace undercroft::app::calc
