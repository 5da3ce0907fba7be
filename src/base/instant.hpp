// Points in time and days, and the zone that links them.
//
// Holds: an Instant is whole milliseconds since 1970-01-01T00:00:00Z. Nothing below
// `main` asks a clock: "now" is always an argument.
#pragma once

#include <chrono>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace undercroft {

using Day = std::chrono::year_month_day;

struct Instant {
    std::int64_t ms = 0;
    friend auto operator<=>(const Instant&, const Instant&) = default;
};

// Wall-clock time in the cellar's zone.
struct LocalTime {
    Day day{};
    int minute_of_day = 0;  // 0 to 1439
    int second = 0;         // 0 to 59
    friend bool operator==(const LocalTime&, const LocalTime&) = default;
};

// A time zone as a value the inner layers can use; `main` implements it over the system's tables.
class Zone {
public:
    virtual ~Zone() = default;
    [[nodiscard]] virtual std::string name() const = 0;
    // A wall-clock time that does not exist (spring forward) moves to the first instant after the
    // gap; one that exists twice takes the earlier.
    [[nodiscard]] virtual Instant instant_of(const LocalTime& local) const = 0;
    [[nodiscard]] virtual LocalTime local_of(Instant instant) const = 0;
};

// 0 h offset, always; for tests and for books kept in UTC.
class UtcZone final : public Zone {
public:
    [[nodiscard]] std::string name() const override { return "UTC"; }
    [[nodiscard]] Instant instant_of(const LocalTime& local) const override;
    [[nodiscard]] LocalTime local_of(Instant instant) const override;
};

// Last millisecond of that day in that zone: what "--on DATE" means.
[[nodiscard]] Instant end_of_day(Day day, const Zone& zone);
[[nodiscard]] Instant noon_of(Day day, const Zone& zone);
[[nodiscard]] Day day_of(Instant instant, const Zone& zone);

[[nodiscard]] Day add_days(Day day, int days);
[[nodiscard]] int days_between(Day from, Day to);              // to - from
[[nodiscard]] double years_between(Instant from, Instant to);  // of 365.25 days

// ISO 8601: "2026-03-14", and "2026-03-14T12:00:00.000Z" for an instant.
[[nodiscard]] std::string iso_text(Day day);
[[nodiscard]] std::string iso_text(Instant instant);
[[nodiscard]] Result<Day> parse_iso_day(std::string_view text);
[[nodiscard]] Result<Instant> parse_iso_instant(std::string_view text);

}  // namespace undercroft
