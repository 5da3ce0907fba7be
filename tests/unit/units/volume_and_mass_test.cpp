#include <gtest/gtest.h>

#include "tests/unit/units/refusal.hpp"
#include "units/amount.hpp"

namespace undercroft {
namespace {

std::int64_t ul(std::string_view text, Gallons gallons = Gallons::unset) {
    const auto volume = parse_volume("capacity", text, gallons);
    if (!volume) {
        ADD_FAILURE() << text << ": " << volume.error().what;
        return -1;
    }
    return volume->ul();
}

std::int64_t mg(std::string_view text) {
    const auto mass = parse_mass("fruit", text);
    if (!mass) {
        ADD_FAILURE() << text << ": " << mass.error().what;
        return -1;
    }
    return mass->mg();
}

void expect_no_volume(std::string_view text, std::initializer_list<std::string_view> says,
                      Gallons gallons = Gallons::unset) {
    SCOPED_TRACE(text);
    expect_refused(parse_volume("capacity", text, gallons), "capacity", says);
}

void expect_no_mass(std::string_view text, std::initializer_list<std::string_view> says) {
    SCOPED_TRACE(text);
    expect_refused(parse_mass("fruit", text), "fruit", says);
}

TEST(VolumeText, ReadsLitresHoweverTheyAreSpaced) {
    for (const char* text :
         {"54 L", "54L", "54l", "  54   litres ", "54,0 L", "+54 L", "54 Liter", "0.54 hL", "5400 cL", "540 dL",
          "54000 mL", "54000000 uL", "0.054 m3", "0.054 m³", "54000000 µL", "54 l."})
        EXPECT_EQ(ul(text), 54'000'000) << text;
    EXPECT_EQ(ul("0,33 l"), 330'000);
    EXPECT_EQ(ul("350 mL"), 350'000);
    EXPECT_EQ(ul("0 L"), 0);
    EXPECT_EQ(ul(".5 L"), 500'000);
}

TEST(VolumeText, ReadsTheSpacesAndMinusSignsThatOtherProgramsPaste) {
    EXPECT_EQ(ul("54\u00A0L"), 54'000'000);          // no-break space
    EXPECT_EQ(ul("\u200954\u202FL\t"), 54'000'000);  // thin and narrow no-break spaces
    EXPECT_EQ(ul("\u22123 L"), -3'000'000);          // minus sign
    EXPECT_EQ(ul("-3 L"), -3'000'000);
    EXPECT_EQ(ul("\uFEFF54 L"), 54'000'000);  // byte order mark
}

// NIST SP 811 (2008), appendix B.8: 1 US gallon = 231 in^3 = 3.785411784 L; quart 0.946352946 L;
// liquid pint 0.473176473 L; fluid ounce 29.5735295625 mL.
TEST(VolumeText, CountsUsMeasuresByTheCubicInch) {
    EXPECT_EQ(ul("1000 us gal"), 3'785'411'784);
    EXPECT_EQ(ul("5 US gallons"), 18'927'059);  // 18.92705892 L
    EXPECT_EQ(ul("1000 us qt"), 946'352'946);
    EXPECT_EQ(ul("1000 us pt"), 473'176'473);
    EXPECT_EQ(ul("10000 U.S. fl. oz."), 295'735'296);  // 295.735295625 L
    EXPECT_DOUBLE_EQ(k_litres_per_us_gallon, 231 * 2.54 * 2.54 * 2.54 / 1000);
}

// Units of Measurement Regulations 1995 (UK): 1 gallon = 4.54609 dm3; pint 0.56826125 dm3; fluid ounce
// 28.4130625 cm3.
TEST(VolumeText, CountsImperialMeasuresByTheirLaw) {
    EXPECT_EQ(ul("1 imp gal"), 4'546'090);
    EXPECT_EQ(ul("5 imperial gallons"), 22'730'450);
    EXPECT_EQ(ul("100 imp pt"), 56'826'125);
    EXPECT_EQ(ul("100 uk fl oz"), 2'841'306);  // 2.84130625 L
    EXPECT_EQ(ul("1 imp qt"), 1'136'523);      // 1.1365225 L: half a microlitre rounds away from zero
    EXPECT_EQ(ul("-1 imp qt"), -1'136'523);
}

TEST(VolumeText, AsksWhichGallonUntilTheBookHasSaid) {
    expect_no_volume("5 gal", {"5 gal is 18.9 L in US gallons or 22.7 L in imperial ones", "has not said which",
                               "init --gallons", "5 us gal or 5 imp gal"});
    expect_no_volume("2 pints", {"0.946 L in US pints", "1.14 L in imperial ones"});
    EXPECT_EQ(ul("5 gal", Gallons::us), 18'927'059);
    EXPECT_EQ(ul("5 gal", Gallons::imperial), 22'730'450);
    EXPECT_EQ(ul("5 imp gal", Gallons::us), 22'730'450);
    EXPECT_EQ(ul("16 fl oz", Gallons::us), 473'176);
    EXPECT_EQ(ul("20 fl oz", Gallons::imperial), 568'261);
}

TEST(VolumeText, ReadsFractions) {
    EXPECT_EQ(ul("1/2 us gal"), 1'892'706);
    EXPECT_EQ(ul("1 1/2 L"), 1'500'000);
    EXPECT_EQ(ul("1½ L"), 1'500'000);
    EXPECT_EQ(ul("-2 1/4 L"), -2'250'000);
    EXPECT_EQ(ul("1/3 L"), 333'333);
    expect_no_volume("1/0 L", {"divides by zero"});
    expect_no_volume("1.5 1/2 L", {"two numbers"});
}

TEST(VolumeText, RefusesASeparatorThatMayGroupThousands) {
    expect_no_volume("1,012 L", {"could be 1.012 L or 1012 L", "say 1.0120 L or 1012 L"});
    expect_no_volume("1.500 L", {"could be 1.500 L or 1500 L", "say 1.5 L or 1500 L"});
    expect_no_volume("-12,000 mL", {"say -12 mL or -12000 mL"});
    expect_no_volume("1.234,5 L", {"write 1234.5"});
    expect_no_volume("1,234.5 L", {"write 1234.5"});
    expect_no_volume("1.234.567 L", {"write 1234567"});
    expect_no_volume("1'500 L", {"write 1500"});
    expect_no_volume("1 500 L", {"space inside a number"});
    expect_no_volume("1,2,3", {"decimal sign"});
}

TEST(VolumeText, TakesThreeDecimalsWhenTheyCannotBeThousands) {
    EXPECT_EQ(ul("0.330 L"), 330'000);  // nobody groups behind a zero
    EXPECT_EQ(ul("0,330 L"), 330'000);
    EXPECT_EQ(ul("1234.567 L"), 1'234'567'000);  // four digits before the sign are no group
    EXPECT_EQ(ul("1.0120 L"), 1'012'000);
    EXPECT_EQ(ul("200.500 m3"), 200'500'000'000);  // 200500 m3 are more than a book holds
}

TEST(VolumeText, SaysWhatIsMissingOrWrong) {
    expect_no_volume("", {"nothing", "capacity wants a volume such as 54 L"});
    expect_no_volume(" \u00A0", {"nothing"});
    expect_no_volume("18", {"18 of what? Say 18 L"});
    expect_no_volume("3 kg", {"3 kg is a mass; capacity wants a volume such as 54 L"});
    expect_no_volume("2.4 vol", {"is an amount of dissolved gas"});
    expect_no_volume("18 C", {"is a temperature"});
    expect_no_volume("5 oz", {"5 oz is a mass, unless fluid ounces are meant", "5 us fl oz or 5 imp fl oz"});
    expect_no_volume("12 buckets", {"\"buckets\"", "not a unit known here", "L, mL, hL, us gal or imp gal"});
    expect_no_volume("5 ML", {"milli- or mega-"});
    expect_no_volume("5 L 300 mL", {"more than one amount"});
    expect_no_volume("L", {"does not start with a number"});
    expect_no_volume("5. L", {"ends in a separator"});
}

TEST(VolumeText, RefusesWhatIsNoPlainDecimalNumber) {
    expect_no_volume("nan L", {"does not start with a number"});
    expect_no_volume("inf L", {"does not start with a number"});
    expect_no_volume("-infinity", {"does not start with a number"});
    expect_no_volume("0x10 L", {"not a decimal number"});
    expect_no_volume("1e3 L", {"exponent"});
    expect_no_volume("1E-3 L", {"exponent"});
    expect_no_volume("--3 L", {"does not start with a number"});
    expect_no_volume("1234567890123456 L", {"more digits"});
    expect_no_volume("0.1234567891 L", {"more digits"});
    expect_no_volume(std::string(5000, '9') + " L", {"too long", "…"});
}

TEST(VolumeText, HoldsUpToAMillionLitresAndDownToAMicrolitre) {
    EXPECT_EQ(ul("1000000 L"), 1'000'000'000'000);
    EXPECT_EQ(ul("999999.999999 L"), 999'999'999'999);
    expect_no_volume("1000000.000001 L", {"more than a book can hold"});
    expect_no_volume("-999999999999999 m3", {"more than a book can hold"});
    EXPECT_EQ(ul("1 uL"), 1);
    expect_no_volume("0.4 uL", {"finer than a book counts"});
}

TEST(VolumeText, KeepsBrokenUtf8OutOfItsErrors) {
    const auto result = parse_volume("capacity", "5 \xC3(\xFF", Gallons::unset);
    ASSERT_FALSE(result);
    EXPECT_NE(result.error().what.find("\uFFFD(\uFFFD"), std::string::npos);
    EXPECT_EQ(result.error().what.find('\xFF'), std::string::npos);
}

// NIST SP 811 (2008), appendix B.8: 1 lb = 0.45359237 kg exactly, 1 oz = 1/16 lb = 28.349523125 g.
TEST(MassText, ReadsMetricAndAvoirdupois) {
    EXPECT_EQ(mg("3 kg"), 3'000'000);
    EXPECT_EQ(mg("250 g"), 250'000);
    EXPECT_EQ(mg("2,5 KG"), 2'500'000);
    EXPECT_EQ(mg("80 mg"), 80);
    EXPECT_EQ(mg("1 lb"), 453'592);
    EXPECT_EQ(mg("100 lbs"), 45'359'237);
    EXPECT_EQ(mg("8 ounces"), 226'796);
    EXPECT_EQ(mg("1/2 lb"), 226'796);
}

TEST(MassText, RefusesTonnesVolumesAndBareNumbers) {
    expect_no_mass("1 t", {"1000 kg", "1016 kg", "907.2 kg"});
    expect_no_mass("3 L", {"3 L is a volume; fruit wants a mass such as 3 kg"});
    expect_no_mass("5 fl oz", {"is a volume"});
    expect_no_mass("3", {"3 of what? Say 3 kg"});
    expect_no_mass("1.250 kg", {"say 1.25 kg or 1250 kg"});
    expect_no_mass("5 MG", {"milli- or mega-"});
    expect_no_mass("2000000 kg", {"more than a book can hold"});
    expect_no_mass("0.1 mg", {"finer than a book counts"});
    EXPECT_EQ(mg("0.250 kg"), 250'000);
}

}  // namespace
}  // namespace undercroft
