// Volume, mass, length, temperature and pressure.
#include "units/amount.hpp"
#include "units/read_unit.hpp"

namespace undercroft {
namespace {

using reading::Gallon;
using reading::Kind;
using reading::refuse;
using reading::Unit;
using reading::Written;

constexpr std::int64_t k_largest_ul = 1'000'000'000'000;  // 1e6 L
constexpr std::int64_t k_largest_mg = 1'000'000'000'000;  // 1e6 kg
constexpr std::int64_t k_largest_um = 100'000'000;        // 100 m

constexpr std::string_view k_wants_volume = "a volume such as 54 L";
constexpr std::string_view k_volume_units = "L, mL, hL, us gal or imp gal";
constexpr std::string_view k_wants_mass = "a mass such as 3 kg";
constexpr std::string_view k_mass_units = "kg, g, mg, lb or oz";
constexpr std::string_view k_wants_length = "a length such as 42 cm";
constexpr std::string_view k_length_units = "cm, mm or in";
constexpr std::string_view k_wants_temperature = "a temperature such as 18 C or 64 F";
constexpr std::string_view k_wants_pressure = "a gauge pressure such as 2.1 bar";
constexpr std::string_view k_pressure_units = "bar, mbar, kPa, MPa or psi";

// Three figures and more, enough to tell two readings apart.
std::string short_text(double value) {
    return number_text(value, value >= 10 ? 1 : value >= 1 ? 2 : 3);
}

std::string_view plural(const Unit& unit) {
    if (unit.name == "qt") return "quarts";
    if (unit.name == "pt") return "pints";
    return unit.name == "gal" ? "gallons" : "fluid ounces";
}

Failure refuse_gallons(std::string_view field, const Written& written, const Unit& unit) {
    const auto litres = [&](std::int64_t factor) {
        return short_text(written.number.value() * static_cast<double>(factor) /
                          static_cast<double>(reading::k_volume_steps_per_ul) / 1e6);
    };
    const std::string name{unit.name};
    const std::string number = written.number.text;
    return refuse(field, written.text + " is " + litres(unit.factor) + " L in US " + std::string(plural(unit)) +
                             " or " + litres(unit.imperial_factor) +
                             " L in imperial ones; this book has not said which (init --gallons). Say " + number +
                             " us " + name + " or " + number + " imp " + name + ".");
}

// Counts `written` in whole steps of the book, refusing what the book cannot hold or tell from nothing.
Result<std::int64_t> count_steps(std::string_view field, const Written& written, std::int64_t factor,
                                 std::int64_t divisor, std::int64_t limit, std::string_view limit_text,
                                 std::string_view step_text) {
    const auto steps = reading::scaled(written.number, factor, divisor, limit);
    if (!steps) return refuse(field, written.text + " is more than a book can hold, " + std::string(limit_text) + ".");
    if (*steps == 0 && written.number.numerator != 0)
        return refuse(field, written.text + " is finer than a book counts, " + std::string(step_text) + ".");
    if (written.number.grouped) {
        const reading::Numeral thousands{*written.number.grouped, 0, 1, {}, std::nullopt};
        if (reading::scaled(thousands, factor, divisor, limit)) return reading::refuse_grouped(field, written);
    }
    return *steps;
}

// The value in base units by value = number * slope + offset, inside [low, high].
struct Scale {
    double slope = 1.0;
    double offset = 0.0;
};
Result<double> convert(std::string_view field, const Written& written, Scale scale, double low, double high,
                       std::string_view rule) {
    const auto inside = [&](double value) { return value >= low && value <= high; };
    const double value = written.number.value() * scale.slope + scale.offset;
    if (!inside(value)) return refuse(field, written.text + " cannot be: " + std::string(rule) + ".");
    if (written.number.grouped && inside(static_cast<double>(*written.number.grouped) * scale.slope + scale.offset))
        return reading::refuse_grouped(field, written);
    return value;
}

}  // namespace

Result<Volume> parse_volume(std::string_view field, std::string_view text, Gallons gallons) {
    TRY(const Written written, reading::split_amount(field, text, k_wants_volume));
    if (reading::unit_key(written.unit) == "oz")
        return refuse(field, written.text + " is a mass, unless fluid ounces are meant; " + std::string(field) +
                                 " wants a volume such as " + written.number.text + " us fl oz or " +
                                 written.number.text + " imp fl oz.");
    TRY(Unit unit, reading::unit_of_kind(field, written, Kind::volume, k_wants_volume, k_volume_units));
    if (unit.gallon == Gallon::by_book) {
        if (gallons == Gallons::unset) return refuse_gallons(field, written, unit);
        unit.gallon = gallons == Gallons::us ? Gallon::us : Gallon::imperial;
    }
    const std::int64_t factor = unit.gallon == Gallon::imperial ? unit.imperial_factor : unit.factor;
    TRY(const std::int64_t ul, count_steps(field, written, factor, reading::k_volume_steps_per_ul, k_largest_ul,
                                           "1000000 L", "one microlitre"));
    return Volume::from_ul(ul);
}

Result<Mass> parse_mass(std::string_view field, std::string_view text) {
    TRY(const Written written, reading::split_amount(field, text, k_wants_mass));
    const std::string key = reading::unit_key(written.unit);
    if (key == "t" || key == "ton" || key == "tons" || key == "tonne" || key == "tonnes")
        return refuse(field, written.text +
                                 " could be metric tonnes (1000 kg), long tons (1016 kg) or short tons "
                                 "(907.2 kg); say it in kg.");
    TRY(const Unit unit, reading::unit_of_kind(field, written, Kind::mass, k_wants_mass, k_mass_units));
    TRY(const std::int64_t mg, count_steps(field, written, unit.factor, reading::k_mass_steps_per_mg, k_largest_mg,
                                           "1000000 kg", "one milligram"));
    return Mass::from_mg(mg);
}

Result<Length> parse_length(std::string_view field, std::string_view text) {
    TRY(const Written written, reading::split_amount(field, text, k_wants_length));
    TRY(const Unit unit, reading::unit_of_kind(field, written, Kind::length, k_wants_length, k_length_units));
    TRY(const std::int64_t um, count_steps(field, written, unit.factor, 1, k_largest_um, "100 m", "one micrometre"));
    return Length::from_um(um);
}

Result<Temperature> parse_temperature(std::string_view field, std::string_view text) {
    constexpr double k_absolute_zero = -273.15;
    constexpr double k_hottest = 500.0;
    TRY(const Written written, reading::split_decimal(field, text, k_wants_temperature));
    if (written.unit.empty() || written.unit == "\u00B0" || written.unit == "deg") {
        const double value = written.number.value();
        const std::string& number = written.number.text;
        return refuse(field, written.text + " could be " + number + " \u00B0C (" +
                                 number_text(Temperature::from_celsius(value).in_fahrenheit(), 1) + " \u00B0F) or " +
                                 number + " \u00B0F (" +
                                 number_text(Temperature::from_fahrenheit(value).in_celsius(), 1) + " \u00B0C); say " +
                                 number + " C or " + number + " F.");
    }
    TRY(const Unit unit, reading::unit_of_kind(field, written, Kind::temperature, k_wants_temperature, "C, F or K"));
    Scale scale;
    if (unit.name == "\u00B0F") scale = {1.0 / 1.8, -32.0 / 1.8};
    if (unit.name == "K") scale.offset = k_absolute_zero;
    TRY(const double celsius,
        convert(field, written, scale, k_absolute_zero, k_hottest, "a temperature lies between -273.15 C and 500 C"));
    return Temperature::from_celsius(celsius);
}

Result<GaugePressure> parse_gauge_pressure(std::string_view field, std::string_view text) {
    TRY(const Written written, reading::split_decimal(field, text, k_wants_pressure));
    const std::string key = reading::unit_key(written.unit);
    if (key == "bara" || key == "psia" || key == "barabs" || key == "psiabs")
        return refuse(field, written.text + " is an absolute pressure; " + std::string(field) +
                                 " wants what a gauge shows, about 1.013 bar (14.7 psi) less.");
    TRY(const Unit unit, reading::unit_of_kind(field, written, Kind::pressure, k_wants_pressure, k_pressure_units));
    Scale to_bar;
    if (unit.name == "mbar") to_bar.slope = 1e-3;
    if (unit.name == "kPa") to_bar.slope = 1e-2;
    if (unit.name == "MPa") to_bar.slope = 10.0;
    if (unit.name == "psi") to_bar.slope = k_bar_per_psi;
    TRY(const double bar,
        convert(field, written, to_bar, -1.1, 500.0,
                "a gauge shows no less than a vacuum (-1.01 bar), and 500 bar is the most read here"));
    return GaugePressure::from_bar(bar);
}

}  // namespace undercroft
