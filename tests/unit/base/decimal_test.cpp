#include "base/decimal.hpp"

#include <gtest/gtest.h>

namespace undercroft {
namespace {

TEST(Decimal, KeepsTheDigitsAKeeperWrote) {
    for (const char* text : {"1.0080", "3.40", "-0.5", "12", "0", "0.000000001", "999999999999999", "-1.012"})
        EXPECT_EQ(Decimal::parse(text).value().text(), text);
    EXPECT_EQ(Decimal::parse(".5").value().text(), "0.5");
    EXPECT_EQ(Decimal::parse("007").value().text(), "7");
}

TEST(Decimal, KnowsItsValueAndItsResolution) {
    const Decimal reading = Decimal::parse("1.0080").value();
    EXPECT_DOUBLE_EQ(reading.value(), 1.008);
    EXPECT_EQ(reading.places(), 4);
    EXPECT_EQ(reading.mantissa(), 10080);
    EXPECT_NE(reading, Decimal::parse("1.008").value());  // one claims more than the other
    EXPECT_EQ(reading, (Decimal{10080, 4}));
}

TEST(Decimal, RefusesWhatIsNoPlainDecimalNumber) {
    for (const char* text : {"", "-", ".", "5.", "1,5", "1e3", "nan", "inf", "+5", " 5", "5 ", "1.2.3", "--1", "0x1",
                             "1234567890123456", "0.1234567890"}) {
        const auto result = Decimal::parse(text);
        ASSERT_FALSE(result) << text;
        EXPECT_EQ(result.error().kind, ErrorKind::bad_input);
        EXPECT_NE(result.error().what.find(text), std::string::npos);
    }
}

TEST(Decimal, RoundsADoubleHalfAwayFromZero) {
    EXPECT_EQ(Decimal::from_double(0.125, 2).text(), "0.13");
    EXPECT_EQ(Decimal::from_double(-0.125, 2).text(), "-0.13");
    EXPECT_EQ(Decimal::from_double(3.0, 0).text(), "3");
    EXPECT_EQ(Decimal::from_double(1.012, 4).text(), "1.0120");
    EXPECT_EQ(Decimal::from_double(-0.001, 2).text(), "0.00");
}

}  // namespace
}  // namespace undercroft
