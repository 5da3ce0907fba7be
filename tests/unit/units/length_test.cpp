// Lengths as a keeper writes them, and volumes with their spread.
#include <gtest/gtest.h>

#include "units/amount.hpp"

namespace undercroft {
namespace {

TEST(ALength, IsReadInCentimetresMillimetresOrInches) {
    EXPECT_EQ(parse_length("dip", "31.5 cm")->um(), 315'000);
    EXPECT_EQ(parse_length("dip", "31,5cm")->um(), 315'000);
    EXPECT_EQ(parse_length("dip", "315 mm")->um(), 315'000);
    // 25.4 mm exactly (NIST SP 811, appendix B.8).
    EXPECT_EQ(parse_length("dip", "10 in")->um(), 254'000);
    EXPECT_EQ(parse_length("dip", "12 1/2 inches")->um(), 317'500);
}

TEST(ALength, IsRefusedWithoutAUnitOrInOneThatIsNone) {
    const auto what = [](const char* text) {
        const auto read = parse_length("dip", text);
        return read ? "it was read" : read.error().what;
    };
    EXPECT_NE(what("40").find("Say 40 cm"), std::string::npos);
    EXPECT_NE(what("40 L").find("is a volume; dip wants a length"), std::string::npos);
    EXPECT_NE(what("40 m").find("cm, mm or in"), std::string::npos);
    EXPECT_NE(what("200000 cm").find("more than a book can hold"), std::string::npos);
    EXPECT_NE(what("1,012 mm").find("could be"), std::string::npos);
    EXPECT_NE(what("deep").find("wants a length"), std::string::npos);
}

TEST(ALength, IsWrittenAsItCanBeReadAgain) {
    for (const std::int64_t um : {315'000LL, 5'000LL, 1'234'500LL, 0LL})
        EXPECT_EQ(parse_length("dip", text_of(Length::from_um(um)))->um(), um);
}

// "12 in Keg 1" is twelve of something, in a keg.
TEST(AnInch, IsNotTakenForTheWordIn) {
    EXPECT_FALSE(is_unit_word("in"));
    EXPECT_TRUE(is_unit_word("inch"));
    EXPECT_TRUE(is_unit_word("cm"));
    EXPECT_TRUE(is_unit_word("mm"));
}

TEST(AVolumeWithItsSpread, ShowsNoMoreDigitsThanItsSpread) {
    const auto text = [](double litres, double sd, VolumeUnit unit = VolumeUnit::litres) {
        return text_with_spread(Volume::from_litres(litres), Volume::from_litres(sd), unit);
    };
    EXPECT_EQ(text(52.4387, 0.612), "52.4 ± 0.6 L");
    EXPECT_EQ(text(523.4, 12.3), "523 ± 12 L");
    EXPECT_EQ(text(3.25, 0.03), "3.25 ± 0.03 L");
    EXPECT_EQ(text(54, 0), "54 L");
    EXPECT_EQ(text(37.85411784, 0.37854, VolumeUnit::us_gallons), "10.0 ± 0.1 US gal");
}

}  // namespace
}  // namespace undercroft
