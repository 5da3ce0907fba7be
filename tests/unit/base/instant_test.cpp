#include "base/instant.hpp"

#include <gtest/gtest.h>

namespace undercroft {
namespace {

Day day(std::string_view text) {
    return parse_iso_day(text).value();
}

constexpr std::int64_t k_ms_per_day = 86'400'000;

TEST(Day, IsWrittenAndReadAsIso8601) {
    for (const char* text : {"2026-03-14", "1969-12-31", "2024-02-29", "0001-01-01", "9999-12-31"})
        EXPECT_EQ(iso_text(day(text)), text);
    for (const char* text : {"2026-02-29", "2026-3-14", "2026-13-01", "2026-00-01", "2026-03-00", "20260314",
                             "2026/03/14", "2026-03-14 ", "", "2026-0x-14", "-026-03-14"})
        EXPECT_EQ(parse_iso_day(text).error().kind, ErrorKind::bad_input) << text;
}

TEST(Day, CountsOverMonthsAndLeapYears) {
    EXPECT_EQ(iso_text(add_days(day("2026-02-28"), 1)), "2026-03-01");
    EXPECT_EQ(iso_text(add_days(day("2024-02-28"), 1)), "2024-02-29");
    EXPECT_EQ(iso_text(add_days(day("1970-01-01"), -1)), "1969-12-31");
    EXPECT_EQ(days_between(day("2024-01-01"), day("2025-01-01")), 366);
    EXPECT_EQ(days_between(day("2026-03-14"), day("2026-03-01")), -13);
}

TEST(Instant, IsWrittenAndReadToTheMillisecond) {
    // 1e9 s after 1970 is 2001-09-09T01:46:40Z (POSIX seconds since the epoch).
    EXPECT_EQ(iso_text(Instant{1'000'000'000'123}), "2001-09-09T01:46:40.123Z");
    EXPECT_EQ(iso_text(Instant{0}), "1970-01-01T00:00:00.000Z");
    EXPECT_EQ(iso_text(Instant{-1}), "1969-12-31T23:59:59.999Z");
    for (const std::int64_t ms :
         {std::int64_t{0}, std::int64_t{-1}, std::int64_t{-86'400'001}, std::int64_t{1'000'000'000'123}})
        EXPECT_EQ(parse_iso_instant(iso_text(Instant{ms})).value().ms, ms);
    for (const char* text : {"2026-03-14T24:00:00.000Z", "2026-03-14T12:60:00.000Z", "2026-03-14T12:00:60.000Z",
                             "2026-03-14 12:00:00.000Z", "2026-03-14T12:00:00Z", "2026-02-30T12:00:00.000Z",
                             "2026-03-14T12:00:00.000", "2026-03-14T12:00:00.000z", ""})
        EXPECT_EQ(parse_iso_instant(text).error().kind, ErrorKind::bad_input) << text;
}

TEST(UtcZone, GivesBackTheWallClockOnBothSidesOfTheEpoch) {
    const UtcZone utc;
    for (const char* text : {"1969-12-31", "1970-01-01", "2026-03-14"})
        for (const int minute : {0, 1, 720, 1439})
            for (const int second : {0, 59}) {
                const LocalTime local{day(text), minute, second};
                EXPECT_EQ(utc.local_of(utc.instant_of(local)), local);
            }
    EXPECT_EQ(utc.name(), "UTC");
}

// A zone three hours ahead, so that a day begins the evening before in UTC.
class Ahead final : public Zone {
public:
    [[nodiscard]] std::string name() const override { return "ahead"; }
    [[nodiscard]] Instant instant_of(const LocalTime& local) const override {
        return Instant{UtcZone{}.instant_of(local).ms - 3 * 3'600'000};
    }
    [[nodiscard]] LocalTime local_of(Instant instant) const override {
        return UtcZone{}.local_of(Instant{instant.ms + 3 * 3'600'000});
    }
};

TEST(DayInAZone, EndsAMillisecondBeforeTheNextAndHasItsNoon) {
    const Ahead zone;
    const Day today = day("2026-03-14");
    EXPECT_EQ(iso_text(end_of_day(today, zone)), "2026-03-14T20:59:59.999Z");
    EXPECT_EQ(iso_text(noon_of(today, zone)), "2026-03-14T09:00:00.000Z");
    EXPECT_EQ(day_of(end_of_day(today, zone), zone), today);
    EXPECT_EQ(day_of(Instant{end_of_day(today, zone).ms + 1}, zone), add_days(today, 1));
}

TEST(Years, AreJulian) {
    EXPECT_DOUBLE_EQ(years_between(Instant{0}, Instant{1461 * k_ms_per_day}), 4.0);
    EXPECT_DOUBLE_EQ(years_between(Instant{1461 * k_ms_per_day}, Instant{0}), -4.0);
}

}  // namespace
}  // namespace undercroft
