#include <gtest/gtest.h>

#include "tests/unit/units/refusal.hpp"
#include "units/amount.hpp"

namespace undercroft {
namespace {

constexpr Day k_reading_day{std::chrono::year{2026}, std::chrono::month{3}, std::chrono::day{1}};

std::string day(std::string_view text) {
    const auto result = parse_day("date", text, k_reading_day);
    return result ? iso_text(*result) : result.error().what;
}
std::string span(std::string_view text) {
    const auto result = parse_day_range("brewed", text, k_reading_day);
    return result ? iso_text(result->from) + " " + iso_text(result->to) : result.error().what;
}
std::string moment(std::string_view text) {
    const auto result = parse_day_and_time("when", text, k_reading_day);
    if (!result) return result.error().what;
    return iso_text(result->day) + " " + (result->minute_of_day ? std::to_string(*result->minute_of_day) : "no time");
}

TEST(DayText, ReadsTheWaysADayIsWritten) {
    for (const char* text :
         {"2026-03-14", "2026-3-14", "2026/03/14", "14 Mar 2026", "14 March 2026", "Mar 14 2026", "march 14, 2026",
          "14.3.2026", "14. 3. 2026", "14.03.2026", "14. March 2026", "14-Mar-2026", "14th march 2026", "2026 Mar 14",
          " 14\u00A0MAR  2026 ", "14/03/2026", "03/14/2026", "14-03-2026"})
        EXPECT_EQ(day(text), "2026-03-14") << text;
    EXPECT_EQ(day("3 Sept 2025"), "2025-09-03");
}

TEST(DayText, CountsFromToday) {
    EXPECT_EQ(day("today"), "2026-03-01");
    EXPECT_EQ(day("Yesterday"), "2026-02-28");
    EXPECT_EQ(day("tomorrow"), "2026-03-02");
}

TEST(DayText, RefusesADayThatCanBeTwo) {
    expect_refused(parse_day("date", "03/04/2026", k_reading_day), "date",
                   {"3 Apr 2026 or 4 Mar 2026", "say 2026-04-03 or 2026-03-04"});
    expect_refused(parse_day("date", "3-4-2026", k_reading_day), "date", {"3 Apr 2026 or 4 Mar 2026"});
    expect_refused(parse_day("date", "03/04", k_reading_day), "date", {"no year", "3 Apr 2026 or 4 Mar 2026"});
    expect_refused(parse_day("date", "14/03", k_reading_day), "date", {"no year", "say 2026-03-14"});
    expect_refused(parse_day("date", "03/04/26", k_reading_day), "date", {"two digits"});
    EXPECT_EQ(day("04/04/2026"), "2026-04-04");  // both readings are one day
}

// Unicode CLDR date patterns: where days are written with dots, the day stands first.
TEST(DayText, ReadsADottedDateDayFirst) {
    EXPECT_EQ(day("3.4.2026"), "2026-04-03");
    expect_refused(parse_day("date", "3.14.2026", k_reading_day), "date", {"day first", "2026-03-14"});
}

TEST(DayText, RefusesWhatIsNotInTheCalendar) {
    for (const char* text : {"2026-02-30", "2026-13-01", "2026-00-10", "2025-02-29", "31 Apr 2026", "31.4.2026",
                             "0999-01-01", "31/31/2026"})
        expect_refused(parse_day("date", text, k_reading_day), "date", {"not in the calendar", "2026-03-14"});
    EXPECT_EQ(day("2024-02-29"), "2024-02-29");
}

TEST(DayText, SaysWhatADayLooksLike) {
    for (const char* text : {"monday", "14", "2026-03-14-01", "12345-01-01", "14 Mar Apr 2026", "14 15 Mar 2026",
                             "ma 14 2026", "2026--03-14", "-2026-03-14", "2026-03-14.", "14 März 2026", "\xFF"})
        expect_refused(parse_day("date", text, k_reading_day), "date",
                       {"is no day", "2026-03-14, 14 Mar 2026 or today"});
    expect_refused(parse_day("date", "", k_reading_day), "date", {"nothing is written here"});
    expect_refused(parse_day("date", "2026", k_reading_day), "date", {"whole year"});
    expect_refused(parse_day("date", "2026-03", k_reading_day), "date", {"whole month"});
    expect_refused(parse_day("date", "Mar 2026", k_reading_day), "date", {"whole month"});
    expect_refused(parse_day("date", "14 Mar", k_reading_day), "date", {"no year"});
}

TEST(SpanOfDays, ReadsYearsMonthsAndDays) {
    EXPECT_EQ(span("2019"), "2019-01-01 2019-12-31");
    EXPECT_EQ(span("2019-02"), "2019-02-01 2019-02-28");
    EXPECT_EQ(span("Feb 2020"), "2020-02-01 2020-02-29");
    EXPECT_EQ(span("2/2020"), "2020-02-01 2020-02-29");
    for (const char* text : {"2019..2021", "2019 .. 2021", "2019–2021", "2019-2021", "2019 to 2021", "2019…2021"})
        EXPECT_EQ(span(text), "2019-01-01 2021-12-31") << text;
    EXPECT_EQ(span("2019-03-01..2020-06-30"), "2019-03-01 2020-06-30");
    EXPECT_EQ(span("2019..2020-06"), "2019-01-01 2020-06-30");
    EXPECT_EQ(span("14 Mar 2019"), "2019-03-14 2019-03-14");
    EXPECT_EQ(span("yesterday..today"), "2026-02-28 2026-03-01");
}

TEST(SpanOfDays, RefusesOpenAndBackwardSpans) {
    const auto refused = [](std::string_view text, std::string_view says) {
        expect_refused(parse_day_range("brewed", text, k_reading_day), "brewed", {says});
    };
    refused("2021..2019", "ends before it begins");
    refused("2019..", "open at one end");
    refused("..2019", "open at one end");
    refused("2019-13", "not in the calendar");
    refused("2019-00", "not in the calendar");
    refused("2019..2020..2021", "is no day");
    refused("", "nothing is written here");
    refused("long ago", "is no day");
}

TEST(DayAndTime, ReadsAnOptionalMinute) {
    EXPECT_EQ(moment("2026-03-14"), "2026-03-14 no time");
    EXPECT_EQ(moment("2026-03-14 18:30"), "2026-03-14 1110");
    EXPECT_EQ(moment("2026-03-14T18:30"), "2026-03-14 1110");
    EXPECT_EQ(moment("14 Mar 2026, 18:30"), "2026-03-14 1110");
    EXPECT_EQ(moment("today 9:15"), "2026-03-01 555");
    EXPECT_EQ(moment("today 6:30 pm"), "2026-03-01 1110");
    EXPECT_EQ(moment("today 12:05 am"), "2026-03-01 5");
    EXPECT_EQ(moment("yesterday 00:00"), "2026-02-28 0");
    EXPECT_EQ(moment("yesterday 23:59"), "2026-02-28 1439");
}

TEST(DayAndTime, RefusesTimesThatAreNone) {
    for (const char* text :
         {"today 24:00", "today 9:60", "today 9:5", "today :15", "today 13:00 pm", "today 0:10 am",
          "2026-03-14T18:30:00", "2026-03-14 18:30Z", "2026-03-14 18:30+02:00", "today 123:00", "today 9:"})
        expect_refused(parse_day_and_time("when", text, k_reading_day), "when", {"2026-03-14 18:30"});
    expect_refused(parse_day_and_time("when", "18:30", k_reading_day), "when", {"on no day", "today 18:30"});
    expect_refused(parse_day_and_time("when", "monday 18:30", k_reading_day), "when", {"is no day"});
}

}  // namespace
}  // namespace undercroft
