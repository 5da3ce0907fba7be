#include <gtest/gtest.h>

#include "tests/unit/units/refusal.hpp"
#include "units/amount.hpp"

namespace undercroft {
namespace {

// A conversion is two or three roundings of a double.
constexpr double k_rounding = 1e-10;

double celsius(std::string_view text) {
    const auto temperature = parse_temperature("cellar", text);
    if (!temperature) {
        ADD_FAILURE() << text << ": " << temperature.error().what;
        return -1000;
    }
    return temperature->in_celsius();
}

double bar(std::string_view text) {
    const auto pressure = parse_gauge_pressure("rating", text);
    if (!pressure) {
        ADD_FAILURE() << text << ": " << pressure.error().what;
        return -1000;
    }
    return pressure->in_bar();
}

template <class Text>
std::string digits_and_unit(const Result<Text>& result) {
    return result ? result->value.text() + " " + result->unit : result.error().what;
}
std::string gravity(std::string_view text) {
    return digits_and_unit(parse_gravity("gravity", text));
}
std::string gas(std::string_view text) {
    return digits_and_unit(parse_carbonation("gas", text));
}
std::string digits(const Result<Decimal>& result) {
    return result ? result->text() : result.error().what;
}

TEST(TemperatureText, ReadsEveryDegreeSign) {
    for (const char* text : {"18 C", "18°C", "18 ° C", "18 ºC", "18℃", "18c", "18 celsius", "18.0 deg C", "291.15 K"})
        EXPECT_NEAR(celsius(text), 18.0, k_rounding) << text;
    for (const char* text : {"64.4 F", "64,4 °F", "64.4℉", "64.4 fahrenheit"})
        EXPECT_NEAR(celsius(text), 18.0, k_rounding) << text;
    EXPECT_NEAR(celsius("−2 C"), -2.0, k_rounding);
    EXPECT_NEAR(celsius("-40 F"), -40.0, k_rounding);     // where the scales meet
    EXPECT_NEAR(celsius("18.250 C"), 18.25, k_rounding);  // 18250 degrees cannot be
}

TEST(TemperatureText, RefusesABareNumberWithBothReadings) {
    expect_refused(parse_temperature("cellar", "18"), "cellar",
                   {"18 °C (64.4 °F)", "18 °F (-7.8 °C)", "say 18 C or 18 F"});
    expect_refused(parse_temperature("cellar", "64°"), "cellar", {"64 °C (147.2 °F)", "64 °F (17.8 °C)"});
}

TEST(TemperatureText, RefusesTheImpossibleAndTheUnknown) {
    expect_refused(parse_temperature("cellar", "-274 C"), "cellar", {"cannot be", "-273.15 C"});
    expect_refused(parse_temperature("cellar", "-1 K"), "cellar", {"cannot be"});
    expect_refused(parse_temperature("cellar", "501 C"), "cellar", {"cannot be"});
    expect_refused(parse_temperature("cellar", "18 k"), "cellar", {"not a unit known here"});
    expect_refused(parse_temperature("cellar", "18 bar"), "cellar", {"is a pressure", "18 C or 64 F"});
    expect_refused(parse_temperature("cellar", "1/2 C"), "cellar", {"fraction"});
    EXPECT_NEAR(celsius("-273.15 C"), -273.15, k_rounding);
}

// NIST SP 811 (2008), appendix B.8: 1 psi = 6894.757 Pa.
TEST(PressureText, ReadsGaugePressure) {
    EXPECT_NEAR(bar("2.1 bar"), 2.1, k_rounding);
    EXPECT_NEAR(bar("210 kPa"), 2.1, k_rounding);
    EXPECT_NEAR(bar("0.21 MPa"), 2.1, k_rounding);
    EXPECT_NEAR(bar("2100 mbar"), 2.1, k_rounding);
    EXPECT_NEAR(bar("30 psi"), 2.0684271, 2e-6);  // the factor in use is rounded to six figures
    EXPECT_NEAR(bar("30 PSIG"), bar("30 psi"), k_rounding);
    EXPECT_NEAR(bar("-0.2 bar"), -0.2, k_rounding);
}

TEST(PressureText, RefusesAbsolutePressureAndBareNumbers) {
    expect_refused(parse_gauge_pressure("rating", "3 bara"), "rating", {"absolute pressure", "what a gauge shows"});
    expect_refused(parse_gauge_pressure("rating", "3 psi abs"), "rating", {"absolute pressure"});
    expect_refused(parse_gauge_pressure("rating", "3"), "rating", {"3 of what? Say 3 bar"});
    expect_refused(parse_gauge_pressure("rating", "1,500 kPa"), "rating", {"1.500 kPa or 1500 kPa"});
    expect_refused(parse_gauge_pressure("rating", "-2 bar"), "rating", {"vacuum"});
    expect_refused(parse_gauge_pressure("rating", "2 mPa"), "rating", {"milli- or mega-"});
}

TEST(GravityText, KeepsTheDigitsAndTheScaleAsWritten) {
    EXPECT_EQ(gravity("1.012"), "1.012 SG");
    EXPECT_EQ(gravity("1,012"), "1.012 SG");
    EXPECT_EQ(gravity("1.0080"), "1.0080 SG");
    EXPECT_EQ(gravity("0.998"), "0.998 SG");
    EXPECT_EQ(gravity("1.01 sg"), "1.01 SG");
    for (const char* text : {"3.1 P", "3,1 °P", "3.1 Plato", "3.1p", "3.1 °Plato"}) EXPECT_EQ(gravity(text), "3.1 P");
    for (const char* text : {"12 Brix", "12 °Bx", "12 bx"}) EXPECT_EQ(gravity(text), "12 Brix");
    EXPECT_EQ(gravity("-0.4 P"), "-0.4 P");
    EXPECT_EQ(gravity("3.125 P"), "3.125 P");  // 3125 °P cannot be
}

TEST(GravityText, RefusesWhatCanBeTwoScales) {
    expect_refused(parse_gravity("gravity", "3.4"), "gravity", {"3.4 °P", "3.4 Brix", "a pH", "1.012"});
    // 1012 kg/m3 against water at 20 °C, 998.2 kg/m3 (CIPM formula, Tanaka et al. 2001), is 1.0138.
    expect_refused(parse_gravity("gravity", "1012"), "gravity", {"SG 1.012", "1012 kg/m3 (SG 1.0138)"});
    expect_refused(parse_gravity("gravity", "1.05"), "gravity", {"SG 1.050", "1.05 °P", "say 1.050 or 1.05 P"});
    expect_refused(parse_gravity("gravity", "1"), "gravity", {"SG 1.000", "1 °P"});
    expect_refused(parse_gravity("gravity", "12"), "gravity", {"12 °P", "12 Brix", "12 points (SG 1.012)"});
    expect_refused(parse_gravity("gravity", "-1.2"), "gravity", {"-1.2 °P or -1.2 Brix"});
}

TEST(GravityText, RefusesWhatCannotBe) {
    expect_refused(parse_gravity("gravity", "1.201 SG"), "gravity", {"cannot be", "0.980 to 1.200"});
    expect_refused(parse_gravity("gravity", "0.979 SG"), "gravity", {"cannot be"});
    expect_refused(parse_gravity("gravity", "46 P"), "gravity", {"cannot be", "-5 to 45"});
    expect_refused(parse_gravity("gravity", "700"), "gravity", {"cannot be a gravity"});
    expect_refused(parse_gravity("gravity", "1.012 L"), "gravity", {"is a volume"});
    expect_refused(parse_gravity("gravity", "1.012 pH"), "gravity", {"not a unit known here", "SG, P or Brix"});
}

TEST(CarbonationText, KeepsWhichUnitWasMeant) {
    EXPECT_EQ(gas("2.4 vol"), "2.4 vol");
    EXPECT_EQ(gas("2,4 volumes"), "2.4 vol");
    EXPECT_EQ(gas("4.7 g/L"), "4.7 g/L");
    EXPECT_EQ(gas("4.70g/l"), "4.70 g/L");
    expect_refused(parse_carbonation("gas", "2.4"), "gas", {"2.4 vol or 2.4 g/L"});
    expect_refused(parse_carbonation("gas", "11 vol"), "gas", {"cannot be", "0 to 10 vol"});
    expect_refused(parse_carbonation("gas", "-1 g/L"), "gas", {"cannot be", "0 to 20 g/L"});
    expect_refused(parse_carbonation("gas", "2 bar"), "gas", {"is a pressure"});
}

TEST(AlcoholText, IsByVolume) {
    for (const char* text : {"5.9 %", "5.9", "5,9 % vol", "5.9 abv", "5.9% ABV", "5.9 vol%"})
        EXPECT_EQ(digits(parse_alcohol("abv", text)), "5.9") << text;
    expect_refused(parse_alcohol("abv", "4.7 % w/w"), "abv", {"alcohol by mass"});
    expect_refused(parse_alcohol("abv", "76 %"), "abv", {"0 to 75 %"});
    expect_refused(parse_alcohol("abv", "-1"), "abv", {"cannot be"});
    expect_refused(parse_alcohol("abv", "5 vol"), "abv", {"dissolved gas"});
}

TEST(ShareText, ReadsPercentFractionsPartsAndWords) {
    const auto share = [](std::string_view text) { return parse_share("share", text).value_or(-1); };
    for (const char* text : {"1/3", "a third", "Third", "one third", "⅓"})
        EXPECT_DOUBLE_EQ(share(text), 1.0 / 3.0) << text;
    for (const char* text : {"33 %", "33%", "0.33", "0,33", "33 percent"}) EXPECT_DOUBLE_EQ(share(text), 0.33) << text;
    for (const char* text : {"a quarter", "25 %", "1/4", "¼"}) EXPECT_DOUBLE_EQ(share(text), 0.25) << text;
    for (const char* text : {"a half", "half", "50 %", "½"}) EXPECT_DOUBLE_EQ(share(text), 0.5) << text;
    EXPECT_DOUBLE_EQ(share("two thirds"), 2.0 / 3.0);
    EXPECT_DOUBLE_EQ(share("100 %"), 1.0);
    EXPECT_DOUBLE_EQ(share("1"), 1.0);
    EXPECT_DOUBLE_EQ(share("33.333 %"), 0.33333);
}

TEST(ShareText, RefusesNothingAndMoreThanAll) {
    expect_refused(parse_share("share", "0"), "share", {"more than nothing"});
    expect_refused(parse_share("share", "-1/3"), "share", {"more than nothing"});
    expect_refused(parse_share("share", "33"), "share", {"more than the whole", "say 33 %"});
    expect_refused(parse_share("share", "100.01 %"), "share", {"more than the whole"});
    expect_refused(parse_share("share", "4/3"), "share", {"more than the whole"});
    expect_refused(parse_share("share", "1/0"), "share", {"divides by zero"});
    expect_refused(parse_share("share", "18 L"), "share", {"is a volume"});
    expect_refused(parse_share("share", "some"), "share", {"33 %, 1/3 or 0.33"});
}

TEST(ConcentrationText, IsGramsInEachLitre) {
    EXPECT_EQ(digits(parse_grams_per_litre("TA", "7 g/L")), "7");
    EXPECT_EQ(digits(parse_grams_per_litre("TA", "7,20")), "7.20");
    EXPECT_EQ(digits(parse_grams_per_litre("TA", "700 mg/L")), "0.700");
    expect_refused(parse_grams_per_litre("TA", "0.8 %"), "TA", {"0.8 g in 100 mL (8.0 g/L)", "0.8 g in 100 g"});
    expect_refused(parse_grams_per_litre("TA", "1,012 g/L"), "TA", {"1.012 g/L or 1012 g/L"});
    expect_refused(parse_grams_per_litre("TA", "-1"), "TA", {"cannot be"});
    expect_refused(parse_grams_per_litre("TA", "7 kg"), "TA", {"is a mass"});
}

TEST(BareNumber, LiesInsideItsRange) {
    const auto ph = [](std::string_view text) { return parse_number("pH", text, 0, 14); };
    EXPECT_EQ(digits(ph("3.40")), "3.40");
    EXPECT_EQ(digits(ph("3,4")), "3.4");
    EXPECT_EQ(digits(ph("3.4 ph")), "3.4");   // the field's own name
    EXPECT_EQ(digits(ph("3.412")), "3.412");  // a pH of 3412 cannot be
    expect_refused(ph("14.1"), "pH", {"cannot be", "0 to 14"});
    expect_refused(ph("3.4 L"), "pH", {"without a unit"});
    expect_refused(ph("1e-3"), "pH", {"exponent"});
    expect_refused(ph("1/2"), "pH", {"fraction"});
    expect_refused(parse_number("IBU", "1,012", 0, 2000), "IBU", {"could be 1.012 or 1012"});
}

TEST(Count, IsWhole) {
    EXPECT_EQ(parse_count("bottles", " 24 ", 1, 5000).value(), 24);
    EXPECT_EQ(parse_count("steps", "-3", -5, 5).value(), -3);
    expect_refused(parse_count("bottles", "0", 1, 5000), "bottles", {"from 1 to 5000"});
    expect_refused(parse_count("bottles", "99999999999", 1, 5000), "bottles", {"out of range"});
    expect_refused(parse_count("bottles", "1,000", 1, 5000), "bottles", {"not a whole number"});
    expect_refused(parse_count("bottles", "24.0", 1, 5000), "bottles", {"not a whole number"});
    expect_refused(parse_count("bottles", "24 L", 1, 5000), "bottles", {"not a whole number"});
    expect_refused(parse_count("bottles", "a dozen", 1, 5000), "bottles", {"does not start with a number"});
}

TEST(Words, TellUnitsAndNumbersApart) {
    for (const char* word : {"L", "kg", "%", "vol", "gal", "us", "imp", "fl", "oz", "°C", "C", "P", "g/L", "psi", "SG"})
        EXPECT_TRUE(is_unit_word(word)) << word;
    for (const char* word : {"", "18", "B3", "barrel", "litresque", "into"}) EXPECT_FALSE(is_unit_word(word)) << word;
    for (const char* word : {"18", "1.5", "1,5", "-3", "1/2", "−3", "1,012"}) EXPECT_TRUE(is_number_word(word)) << word;
    for (const char* word : {"", "-", "18L", "B3", "1e3", "2026-03-14", "1.", "3 4"})
        EXPECT_FALSE(is_number_word(word)) << word;
}

}  // namespace
}  // namespace undercroft
