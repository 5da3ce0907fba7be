// Spans of days, read and written.
#include "units/span.hpp"

#include <gtest/gtest.h>

namespace undercroft {
namespace {

TEST(Span, weeks_months_and_years_are_whole_days) {
    EXPECT_EQ(parse_span("every", "6 weeks").value(), 42);
    EXPECT_EQ(parse_span("every", "14 days").value(), 14);
    EXPECT_EQ(parse_span("every", "a week").value(), 7);
    EXPECT_EQ(parse_span("every", "1,5 weeks").value(), 11);
    EXPECT_EQ(parse_span("every", "3 months").value(), 91);
    EXPECT_EQ(parse_span("every", "6 months").value(), 183);
    EXPECT_EQ(parse_span("every", "2 years").value(), 730);
}

TEST(Span, a_bare_number_is_refused_with_its_readings) {
    const auto six = parse_span("every", "6");
    ASSERT_FALSE(six);
    EXPECT_NE(six.error().what.find("6 days"), std::string::npos);
    EXPECT_NE(six.error().what.find("6 weeks"), std::string::npos);
}

TEST(Span, what_is_no_span_or_too_long_is_refused) {
    for (const char* text : {"", "weeks", "6 L", "0 days", "-3 days", "11 years", "6 weeks or so", "\xff"})
        EXPECT_FALSE(parse_span("every", text)) << text;
}

TEST(Span, every_span_written_is_read_back) {
    for (int days = 1; days <= k_longest_span_days; ++days) {
        const auto again = parse_span("every", span_text(days));
        ASSERT_TRUE(again) << span_text(days);
        EXPECT_EQ(*again, days) << span_text(days);
    }
    EXPECT_EQ(span_text(42), "6 weeks");
    EXPECT_EQ(span_text(14), "2 weeks");
    EXPECT_EQ(span_text(91), "3 months");
    EXPECT_EQ(span_text(183), "6 months");
    EXPECT_EQ(span_text(1), "1 day");
}

}  // namespace
}  // namespace undercroft
