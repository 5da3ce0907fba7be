#include "units/duration.hpp"

#include <gtest/gtest.h>

namespace undercroft {
namespace {

TEST(ASpanOfTime, IsReadAsKeepersSayIt) {
    EXPECT_DOUBLE_EQ(parse_duration("every", "8 months")->in_years(), 8.0 / 12.0);
    EXPECT_DOUBLE_EQ(parse_duration("every", "3 years")->in_years(), 3.0);
    EXPECT_DOUBLE_EQ(parse_duration("every", "1,5 years")->in_years(), 1.5);
    EXPECT_DOUBLE_EQ(parse_duration("every", "10 days")->in_days(), 10.0);
    EXPECT_DOUBLE_EQ(parse_duration("every", "6 weeks")->in_days(), 42.0);
    EXPECT_DOUBLE_EQ(parse_duration("every", "a year")->in_years(), 1.0);
    EXPECT_DOUBLE_EQ(parse_duration("every", "Half a year")->in_years(), 0.5);
    EXPECT_DOUBLE_EQ(parse_duration("every", "1/2 year")->in_years(), 0.5);
}

TEST(ASpanOfTime, WithoutAUnitOrOutOfReachIsRefusedWithItsField) {
    for (const char* text : {"", "3", "3 L", "0 years", "-2 months", "2000 years", "soon", "a litre"}) {
        const auto read = parse_duration("every", text);
        ASSERT_FALSE(read) << text;
        EXPECT_EQ(read.error().kind, ErrorKind::bad_input) << text;
        EXPECT_EQ(read.error().where, "every") << text;
    }
}

TEST(AUnitOfTime, IsToldFromOtherWords) {
    for (const char* word : {"day", "days", "week", "Months", "year", "years"}) EXPECT_TRUE(is_duration_unit(word));
    for (const char* word : {"L", "yearss", "mon", "", "monthly"}) EXPECT_FALSE(is_duration_unit(word)) << word;
}

}  // namespace
}  // namespace undercroft
