#include <gtest/gtest.h>

#include <limits>

#include "units/amount.hpp"

namespace undercroft {
namespace {

std::string litres(std::int64_t ul) {
    return text_of(Volume::from_ul(ul));
}

TEST(WrittenVolume, DropsWhatDoesNotMatter) {
    EXPECT_EQ(litres(18'000'000), "18 L");
    EXPECT_EQ(litres(17'950'000), "17.95 L");
    EXPECT_EQ(litres(205'004'000), "205 L");
    EXPECT_EQ(litres(330'000), "0.33 L");
    EXPECT_EQ(litres(333'333), "0.333 L");
    EXPECT_EQ(litres(80'000), "80 mL");
    EXPECT_EQ(litres(1'500), "1.5 mL");
    EXPECT_EQ(litres(1), "0.001 mL");
    EXPECT_EQ(litres(0), "0 L");
    EXPECT_EQ(litres(-3'000'000), "-3 L");
    EXPECT_EQ(litres(999'999), "1 L");
    EXPECT_EQ(litres(1'234'000), "1.23 L");  // "1.234 L" could not be read back
}

TEST(WrittenVolume, KnowsBothGallons) {
    const Volume five_us = Volume::from_litres(5 * k_litres_per_us_gallon);
    EXPECT_EQ(text_of(five_us, VolumeUnit::us_gallons), "5 US gal");
    EXPECT_EQ(text_of(five_us, VolumeUnit::imperial_gallons), "4.16 imp gal");
    EXPECT_EQ(text_of(Volume::from_litres(0.355), VolumeUnit::us_gallons), "12 US fl oz");
    EXPECT_EQ(text_of(Volume::from_litres(0.275), VolumeUnit::imperial_gallons), "9.7 imp fl oz");
}

TEST(WrittenVolume, IsExactWhereAsked) {
    EXPECT_EQ(exact_text_of(Volume::from_ul(17'950'001)), "17.950001 L");
    EXPECT_EQ(exact_text_of(Volume::from_ul(18'000'000)), "18 L");
    EXPECT_EQ(exact_text_of(Volume::from_ul(1'234'000)), "1.2340 L");  // three decimals could be thousands
    EXPECT_EQ(exact_text_of(Volume::from_ul(-500'000)), "-0.5 L");
    EXPECT_EQ(exact_text_of(Volume::from_ul(0)), "0 L");
    EXPECT_EQ(exact_text_of(Volume::from_ul(std::numeric_limits<std::int64_t>::min())), "-9223372036854.775808 L");
}

TEST(WrittenMass, PicksItsUnit) {
    EXPECT_EQ(text_of(Mass::from_mg(3'000'000)), "3 kg");
    EXPECT_EQ(text_of(Mass::from_mg(2'255'000)), "2.25 kg");
    EXPECT_EQ(text_of(Mass::from_mg(250'000)), "250 g");
    EXPECT_EQ(text_of(Mass::from_mg(4'750)), "4.75 g");
    EXPECT_EQ(text_of(Mass::from_mg(999'999)), "1 kg");
    EXPECT_EQ(text_of(Mass::from_mg(80)), "80 mg");
    EXPECT_EQ(text_of(Mass::from_mg(0)), "0 g");
    EXPECT_EQ(text_of(Mass::from_mg(-250'000)), "-250 g");
}

TEST(WrittenReading, IsShort) {
    EXPECT_EQ(text_of(Temperature::from_celsius(18)), "18 °C");
    EXPECT_EQ(text_of(Temperature::from_fahrenheit(64)), "17.8 °C");
    EXPECT_EQ(text_of(Temperature::from_celsius(-0.01)), "0 °C");
    EXPECT_EQ(text_of(GaugePressure::from_bar(3.75)), "3.75 bar");
    EXPECT_EQ(text_of(GaugePressure::from_bar(3)), "3 bar");
}

TEST(WrittenNumber, HasFixedDecimalsAndNoNegativeZero) {
    EXPECT_EQ(number_text(3.14159, 2), "3.14");
    EXPECT_EQ(number_text(2, 3), "2.000");
    EXPECT_EQ(number_text(-0.004, 2), "0.00");
    EXPECT_EQ(number_text(-0.0, 0), "0");
    EXPECT_EQ(number_text(-0.006, 2), "-0.01");
    EXPECT_EQ(number_text(1234567, 0), "1234567");
    EXPECT_EQ(number_text(std::numeric_limits<double>::max(), 20).size(), 309U + 1U + 20U);
    EXPECT_EQ(number_text(std::numeric_limits<double>::quiet_NaN(), 2), "?");
    EXPECT_EQ(number_text(-std::numeric_limits<double>::infinity(), 2), "?");
    EXPECT_EQ(percent_text(0.333, 1), "33.3 %");
    EXPECT_EQ(percent_text(1, 0), "100 %");
}

TEST(WrittenDuration, SpeaksInDaysMonthsAndYears) {
    EXPECT_EQ(duration_text(0), "0 days");
    EXPECT_EQ(duration_text(1 / 365.25), "1 day");
    EXPECT_EQ(duration_text(12 / 365.25), "12 days");
    EXPECT_EQ(duration_text(7.0 / 12), "7 months");
    EXPECT_EQ(duration_text(1.5), "18 months");
    EXPECT_EQ(duration_text(2.4), "2.4 years");
    EXPECT_EQ(duration_text(3), "3 years");
    EXPECT_EQ(duration_text(-12 / 365.25), "-12 days");
    EXPECT_EQ(duration_text(std::numeric_limits<double>::infinity()), "?");
}

}  // namespace
}  // namespace undercroft
