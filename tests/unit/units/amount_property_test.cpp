#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <tuple>
#include <vector>

#include "units/amount.hpp"

namespace undercroft {
namespace {

constexpr Day k_today{std::chrono::year{2026}, std::chrono::month{3}, std::chrono::day{14}};

// Runs a property over a fixed seed, so that a failure is the same failure tomorrow.
template <class Property>
void expect_always(int cases, Property property) {
    rc::detail::TestParams params;
    params.seed = 20'260'314;
    params.maxSuccess = cases;
    const auto result = rc::detail::checkTestable(std::move(property), rc::detail::TestMetadata{}, params);
    if (!result.template is<rc::detail::SuccessResult>()) {
        std::ostringstream told;
        rc::detail::printResultMessage(result, told);
        ADD_FAILURE() << told.str();
    }
}

std::string joined(const std::vector<std::string>& pieces) {
    std::string text;
    for (const std::string& piece : pieces) text += piece;
    return text;
}

rc::Gen<std::string> one_of(std::vector<std::string> texts) {
    return rc::gen::elementOf(std::move(texts));
}

rc::Gen<std::string> whole_number() {
    return rc::gen::map(rc::gen::oneOf(rc::gen::inRange(0, 60), rc::gen::inRange(0, 3000)),
                        [](int number) { return std::to_string(number); });
}

// "1012", "0,330", "-3 1/2": most of them numbers.
rc::Gen<std::string> number_text_typed() {
    return rc::gen::map(rc::gen::tuple(one_of({"", "", "", "-", "\u2212", "+"}), whole_number(),
                                       one_of({"", "", ".", ",", ".0", ",00", " 1/", "/", "."}), whole_number()),
                        [](const auto& parts) {
                            const auto& [sign, whole, mark, rest] = parts;
                            return sign + whole + mark + (mark.empty() ? "" : rest);
                        });
}

rc::Gen<std::string> amount_typed() {
    return rc::gen::map(
        rc::gen::tuple(number_text_typed(), one_of({"", " ", "\u00A0"}),
                       one_of({"L", "ml",  "hL",  "uL",   "m3",  "gal", "us gal", "imp fl oz", "qt",   "kg",
                               "g", "mg",  "lb",  "oz",   "°C",  "F",   "K",      "P",         "Brix", "SG",
                               "%", "vol", "g/L", "mg/L", "abv", "bar", "psi",    "",          "x"})),
        [](const auto& parts) { return std::get<0>(parts) + std::get<1>(parts) + std::get<2>(parts); });
}

rc::Gen<std::string> gravity_typed() {
    return rc::gen::map(rc::gen::tuple(rc::gen::inRange(970, 1210), one_of({"", " SG"})), [](const auto& parts) {
        return Decimal{std::get<0>(parts), 3}.text() + std::get<1>(parts);
    });
}

rc::Gen<std::string> day_typed() {
    const auto part =
        rc::gen::oneOf(rc::gen::map(rc::gen::inRange(1, 33), [](int n) { return std::to_string(n); }),
                       rc::gen::map(rc::gen::inRange(1, 13), [](int n) { return std::to_string(n); }),
                       rc::gen::map(rc::gen::inRange(1990, 2030), [](int n) { return std::to_string(n); }),
                       one_of({"Mar", "sept", "december"}));
    return rc::gen::map(rc::gen::tuple(part, one_of({"-", "/", ".", " "}), part, part, rc::gen::inRange(0, 4)),
                        [](const auto& parts) {
                            const auto& [first, mark, second, third, shape] = parts;
                            if (shape == 0) return first;
                            if (shape == 1) return first + ".." + third;
                            return first + mark + second + (shape == 2 ? "" : mark + third);
                        });
}

// Bytes of every kind among the words and signs the readers look for.
rc::Gen<std::string> noise() {
    const auto piece =
        rc::gen::oneOf(one_of({"1",     "0",      "12",      "1012",   "2026", "999999999999999",
                               ".",     ",",      "/",       "-",      ":",    " ",
                               "..",    "'",      "+",       "e",      "L",    "us ",
                               "fl oz", "kg",     "°",       "C",      "%",    "g/L",
                               "½",     "\u00A0", "\u2212",  "\u2013", "mar",  "today",
                               "T",     "pm",     "a third", "st",     " to "}),
                       rc::gen::map(rc::gen::arbitrary<char>(), [](char c) { return std::string(1, c); }));
    return rc::gen::map(rc::gen::container<std::vector<std::string>>(piece), joined);
}

rc::Gen<std::string> any_text() {
    const auto sound = rc::gen::oneOf(amount_typed(), gravity_typed(), day_typed());
    const auto spoilt =
        rc::gen::map(rc::gen::tuple(sound, noise(), rc::gen::inRange<std::size_t>(0, 12)), [](const auto& parts) {
            const auto& [text, bytes, at] = parts;
            return std::string(text).insert(std::min(at, text.size()), bytes);
        });
    return rc::gen::oneOf(sound, sound, noise(), spoilt);
}

bool is_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::size_t length = lead < 0x80 ? 1 : lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC2 ? 2 : 0;
        if (length == 0 || i + length > text.size()) return false;
        for (std::size_t k = 1; k < length; ++k)
            if ((static_cast<unsigned char>(text[i + k]) & 0xC0U) != 0x80) return false;
        i += length;
    }
    return true;
}

// Either an amount, or an Error fit to be shown.
template <class T>
void expect_answer(const Result<T>& result) {
    if (result) return;
    RC_ASSERT(result.error().kind == ErrorKind::bad_input);
    RC_ASSERT(result.error().where == "field");
    RC_ASSERT(is_utf8(result.error().what));
    RC_ASSERT(result.error().what.size() < 400U);
}

TEST(AnyText, IsReadOrRefusedButNeverCrashes) {
    expect_always(20'000, [] {
        const std::string text = *any_text();
        for (const Gallons gallons : {Gallons::unset, Gallons::us, Gallons::imperial})
            expect_answer(parse_volume("field", text, gallons));
        expect_answer(parse_mass("field", text));
        expect_answer(parse_temperature("field", text));
        expect_answer(parse_gauge_pressure("field", text));
        expect_answer(parse_gravity("field", text));
        expect_answer(parse_carbonation("field", text));
        expect_answer(parse_alcohol("field", text));
        expect_answer(parse_share("field", text));
        expect_answer(parse_grams_per_litre("field", text));
        expect_answer(parse_number("field", text, 0, 14));
        expect_answer(parse_count("field", text, -10, 1000));
        expect_answer(parse_day("field", text, k_today));
        expect_answer(parse_day_range("field", text, k_today));
        expect_answer(parse_day_and_time("field", text, k_today));
        RC_ASSERT(!(is_unit_word(text) && is_number_word(text)));
    });
}

TEST(AnyText, OnceReadAndWrittenReadsTheSameAgain) {
    int volumes = 0;
    int gravities = 0;
    int spans = 0;
    expect_always(20'000, [&] {
        const std::string text = *any_text();
        if (const auto volume = parse_volume("field", text, Gallons::us)) {
            ++volumes;
            RC_ASSERT(parse_volume("field", exact_text_of(*volume), Gallons::unset).value() == *volume);
        }
        if (const auto mass = parse_mass("field", text))
            RC_ASSERT(parse_mass("field", std::to_string(mass->mg()) + " mg").value() == *mass);
        if (const auto gravity = parse_gravity("field", text)) {
            ++gravities;
            const auto again = parse_gravity("field", gravity->value.text() + " " + gravity->unit).value();
            RC_ASSERT(again.value == gravity->value);
            RC_ASSERT(again.unit == gravity->unit);
        }
        if (const auto day = parse_day("field", text, k_today))
            RC_ASSERT(parse_day("field", iso_text(*day), k_today).value() == *day);
        if (const auto days = parse_day_range("field", text, k_today)) {
            ++spans;
            RC_ASSERT(days->from <= days->to);
            RC_ASSERT(parse_day_range("field", iso_text(days->from) + ".." + iso_text(days->to), k_today).value() ==
                      *days);
        }
    });
    // The texts are worth something only if many of them can be read.
    EXPECT_GT(volumes, 500);
    EXPECT_GT(gravities, 500);
    EXPECT_GT(spans, 500);
}

rc::Gen<std::int64_t> any_volume_ul() {
    return rc::gen::oneOf(rc::gen::inRange<std::int64_t>(-1'000'000'000'000, 1'000'000'000'001),
                          rc::gen::inRange<std::int64_t>(-3'000'000, 3'000'000),
                          rc::gen::map(rc::gen::inRange<std::int64_t>(-500'000, 500'000),
                                       [](std::int64_t millilitres) { return millilitres * 1000; }));
}

TEST(AnyVolume, ReadsBackToTheMicrolitre) {
    expect_always(20'000, [] {
        const Volume volume = Volume::from_ul(*any_volume_ul());
        RC_ASSERT(parse_volume("field", exact_text_of(volume), Gallons::unset).value() == volume);
    });
}

TEST(AnyVolume, ReadsBackFromItsShortTextAsNearAsThatSays) {
    expect_always(20'000, [] {
        // A thousandth less than a book can hold: the very last litre may round up beyond it.
        const Volume volume = Volume::from_ul(*any_volume_ul() / 1000 * 999);
        const auto miss_litres = [&](VolumeUnit unit) {
            const auto again = parse_volume("field", text_of(volume, unit), Gallons::unset);
            RC_ASSERT(again.has_value());
            return std::fabs((*again - volume).in_litres());
        };
        // Half of the last of two decimals, and a microlitre for the rounding of what was read.
        RC_ASSERT(miss_litres(VolumeUnit::litres) <= 0.005 + 1e-6);
        RC_ASSERT(miss_litres(VolumeUnit::us_gallons) <= 0.005 * k_litres_per_us_gallon + 1e-6);
        RC_ASSERT(miss_litres(VolumeUnit::imperial_gallons) <= 0.005 * k_litres_per_imperial_gallon + 1e-6);
    });
}

TEST(AnyMassTemperatureAndPressure, ReadBackFromTheirShortText) {
    expect_always(5'000, [] {
        const Mass mass = Mass::from_mg(*rc::gen::inRange<std::int64_t>(-100'000'000, 100'000'000));
        const auto mass_again = parse_mass("field", text_of(mass));
        RC_ASSERT(mass_again.has_value());
        RC_ASSERT(std::fabs((*mass_again - mass).in_grams()) <= 5.0 + 1e-3);  // half of 0.01 kg
        const double tenths = *rc::gen::inRange(-500, 1500);
        const auto temperature = Temperature::from_celsius(tenths / 10);
        RC_ASSERT(std::fabs(parse_temperature("field", text_of(temperature)).value() - temperature) < 1e-9);
        const auto pressure = GaugePressure::from_bar(*rc::gen::inRange(-100, 2000) / 100.0);
        RC_ASSERT(std::fabs(parse_gauge_pressure("field", text_of(pressure)).value().in_bar() - pressure.in_bar()) <
                  1e-9);
    });
}

TEST(AnyDecimalComma, MeansTheSameAsThePoint) {
    expect_always(5'000, [] {
        std::string with_point = exact_text_of(Volume::from_ul(*any_volume_ul()));
        std::string with_comma = with_point;
        for (char& c : with_comma)
            if (c == '.') c = ',';
        const auto comma = parse_volume("field", with_comma, Gallons::unset);
        RC_ASSERT(comma.has_value());
        RC_ASSERT(*comma == parse_volume("field", with_point, Gallons::unset).value());
    });
}

}  // namespace
}  // namespace undercroft
