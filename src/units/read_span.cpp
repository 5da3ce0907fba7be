#include <array>
#include <cmath>
#include <utility>

#include "units/read_text.hpp"
#include "units/span.hpp"

namespace undercroft {
namespace {

constexpr double k_days_in_year = 365.0;

int days_of_months(int months) {
    return static_cast<int>(std::lround(months * k_days_in_year / 12.0));
}

// Days in one of them; 0 for what is no unit of time. Months are reckoned apart.
double days_in(const std::string& unit) {
    static constexpr auto k_units = std::to_array<std::pair<const char*, double>>({{"d", 1.0},
                                                                                   {"day", 1.0},
                                                                                   {"days", 1.0},
                                                                                   {"w", 7.0},
                                                                                   {"wk", 7.0},
                                                                                   {"week", 7.0},
                                                                                   {"weeks", 7.0},
                                                                                   {"month", k_days_in_year / 12.0},
                                                                                   {"months", k_days_in_year / 12.0},
                                                                                   {"y", k_days_in_year},
                                                                                   {"year", k_days_in_year},
                                                                                   {"years", k_days_in_year}});
    for (const auto& [name, days] : k_units)
        if (unit == name) return days;
    return 0.0;
}

}  // namespace

Result<int> parse_span(std::string_view field, std::string_view text) {
    std::string tidied = lower(reading::tidy(text));
    for (const std::string_view one : {"a ", "one "})
        if (tidied.starts_with(one)) tidied = "1 " + tidied.substr(one.size());
    TRY(const reading::Written written, reading::split_amount(field, tidied, "a span of time such as 6 weeks"));
    const double number = written.number.value();
    const std::string shown = reading::quoted(written.text);
    if (written.unit.empty())
        return reading::refuse(field, shown + " could be days, weeks or months; say " + written.text + " days or " +
                                          written.text + " weeks.");
    const double unit = days_in(written.unit);
    if (unit == 0.0)
        return reading::refuse(field, shown + " is no span of time; write days, weeks, months or years: 6 weeks.");
    const double days = number * unit;
    if (!(days >= 0.5 && days < k_longest_span_days + 0.5))
        return reading::refuse(field, shown + " is not between 1 day and 10 years.");
    return static_cast<int>(std::lround(days));
}

std::string span_text(int days) {
    const auto counted = [](int count, const char* unit) {
        return std::to_string(count) + " " + unit + (count == 1 ? "" : "s");
    };
    if (days > 0 && days % 365 == 0) return counted(days / 365, "year");
    constexpr int k_quarter_days = 91;
    if (days > 0 && days % 7 == 0 && days != k_quarter_days && days < 2 * k_quarter_days)
        return counted(days / 7, "week");
    for (int months = 1; months < 120; ++months)
        if (days_of_months(months) == days) return counted(months, "month");
    return days > 0 && days % 7 == 0 ? counted(days / 7, "week") : counted(days, "day");
}

}  // namespace undercroft
