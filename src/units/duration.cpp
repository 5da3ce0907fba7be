#include "units/duration.hpp"

#include <array>
#include <optional>
#include <utility>

#include "units/read_text.hpp"

namespace undercroft {
namespace {

constexpr std::string_view k_wants = "a span of time such as 8 months or 3 years";
constexpr double k_longest_years = 1000.0;

// Years in one of the unit, and the unit's name.
std::optional<double> years_of_unit(std::string_view unit) {
    constexpr double k_days_per_week = 7.0;
    static constexpr auto k_units = std::to_array<std::pair<std::string_view, double>>({
        {"day", 1.0 / k_days_per_year},
        {"week", k_days_per_week / k_days_per_year},
        {"month", 1.0 / 12.0},
        {"year", 1.0},
    });
    for (const auto& [name, years] : k_units)
        if (unit == name || (unit.size() == name.size() + 1 && unit.ends_with('s') && unit.starts_with(name)))
            return years;
    return std::nullopt;
}

}  // namespace

bool is_duration_unit(std::string_view word) {
    return years_of_unit(lower(word)).has_value();
}

Result<Duration> parse_duration(std::string_view field, std::string_view text) {
    const std::string tidied = lower(reading::tidy(text));
    for (const auto& [article, count] :
         {std::pair<std::string_view, double>{"a ", 1.0}, {"one ", 1.0}, {"half a ", 0.5}}) {
        if (!tidied.starts_with(article)) continue;
        const auto years = years_of_unit(std::string_view(tidied).substr(article.size()));
        if (years) return Duration::from_years(count * *years);
    }
    TRY(const reading::Written written, reading::split_amount(field, text, k_wants));
    const auto unit = years_of_unit(lower(written.unit));
    if (!unit && written.unit.empty())
        return reading::refuse(field, written.text + " could be " + written.text + " days, months or years; " +
                                          std::string(field) + " wants " + std::string(k_wants) + ".");
    if (!unit)
        return reading::refuse(field, reading::quoted(written.text) + " is no span of time; " + std::string(field) +
                                          " wants " + std::string(k_wants) + ".");
    const double years = written.number.value() * *unit;
    if (years <= 0.0 || years > k_longest_years)
        return reading::refuse(field, written.text + " cannot be; " + std::string(field) +
                                          " wants more than nothing and at most 1000 years.");
    return Duration::from_years(years);
}

}  // namespace undercroft
