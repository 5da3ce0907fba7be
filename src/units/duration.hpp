// A span of time as keepers say it: "8 months", "3 years", "10 days".
//
// Holds: a year is 365.25 days and a month a twelfth of it, as everywhere in this program (years_between).
// A bare number is refused: three of what?
// Leaves out: spans of whole days, as reminders and due dates need them (span.hpp).
#pragma once

#include <compare>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace undercroft {

inline constexpr double k_days_per_year = 365.25;

class Duration {
public:
    constexpr Duration() = default;
    static constexpr Duration from_years(double years) { return Duration{years}; }
    static constexpr Duration from_days(double days) { return Duration{days / k_days_per_year}; }
    [[nodiscard]] constexpr double in_years() const { return m_years; }
    [[nodiscard]] constexpr double in_days() const { return m_years * k_days_per_year; }
    friend constexpr auto operator<=>(Duration, Duration) = default;

private:
    explicit constexpr Duration(double years) : m_years(years) {}
    double m_years = 0.0;
};

// "3 years", "8 months", "6 weeks", "10 days", "1.5 years", "a year", "half a year"; more than nothing and at most
// 1000 years. Errors are ErrorKind::bad_input and name the field.
Result<Duration> parse_duration(std::string_view field, std::string_view text);

// True for "days", "month" and the like: lets a command line join "8 months" typed as two words.
[[nodiscard]] bool is_duration_unit(std::string_view word);

}  // namespace undercroft
