#include "units/read_unit.hpp"

#include <array>
#include <utility>

namespace undercroft::reading {
namespace {

struct Spelling {
    std::string_view key;  // lower case, without spaces and points
    Unit unit;
};

// NIST SP 811 (2008) appendix B.8 and 231 in^3 exactly: 1 US gallon = 3.785411784 L, 4 qt, 8 pt, 128 fl oz.
constexpr std::int64_t k_us_gallon = 37'854'117'840'000;
// Units of Measurement Regulations 1995 (UK), schedule: 1 gallon = 4.54609 L, 4 qt, 8 pt, 160 fl oz.
constexpr std::int64_t k_imperial_gallon = 45'460'900'000'000;
// 1 lb = 0.45359237 kg exactly (same sources), 16 oz.
constexpr std::int64_t k_pound = 453'592'370'000;

constexpr Unit volume(std::string_view name, std::int64_t factor) {
    return {name, Kind::volume, factor};
}
constexpr Unit by_gallon(std::string_view name, std::int64_t us_parts, std::int64_t imperial_parts) {
    return {name, Kind::volume, k_us_gallon / us_parts, Gallon::by_book, k_imperial_gallon / imperial_parts};
}
constexpr Unit mass(std::string_view name, std::int64_t factor) {
    return {name, Kind::mass, factor};
}
constexpr Unit length(std::string_view name, std::int64_t factor) {
    return {name, Kind::length, factor};
}
constexpr Unit plain(std::string_view name, Kind kind) {
    return {name, kind};
}

constexpr Unit k_litre = volume("L", 10'000'000'000'000);
constexpr Unit k_gallon = by_gallon("gal", 1, 1);
constexpr Unit k_quart = by_gallon("qt", 4, 4);
constexpr Unit k_pint = by_gallon("pt", 8, 8);
constexpr Unit k_fluid_ounce = by_gallon("fl oz", 128, 160);
constexpr Unit k_inch = length("in", 25'400);  // exactly (NIST SP 811, appendix B.8)
constexpr Unit k_celsius = plain("\u00B0C", Kind::temperature);
constexpr Unit k_fahrenheit = plain("\u00B0F", Kind::temperature);
constexpr Unit k_kelvin = plain("K", Kind::temperature);
constexpr Unit k_plato = plain("P", Kind::gravity);
constexpr Unit k_brix = plain("Brix", Kind::gravity);
constexpr Unit k_percent = plain("%", Kind::percent);
constexpr Unit k_alcohol = plain("% vol", Kind::alcohol);

constexpr auto k_spellings = std::to_array<Spelling>({
    {"l", k_litre},
    {"litre", k_litre},
    {"litres", k_litre},
    {"liter", k_litre},
    {"liters", k_litre},
    {"hl", volume("hL", 1'000'000'000'000'000)},
    {"dl", volume("dL", 1'000'000'000'000)},
    {"cl", volume("cL", 100'000'000'000)},
    {"ml", volume("mL", 10'000'000'000)},
    {"ul", volume("uL", 10'000'000)},
    {"m3", volume("m3", 10'000'000'000'000'000)},
    {"gal", k_gallon},
    {"gals", k_gallon},
    {"gallon", k_gallon},
    {"gallons", k_gallon},
    {"qt", k_quart},
    {"qts", k_quart},
    {"quart", k_quart},
    {"quarts", k_quart},
    {"pt", k_pint},
    {"pint", k_pint},
    {"pints", k_pint},
    {"floz", k_fluid_ounce},
    {"fluidounce", k_fluid_ounce},
    {"fluidounces", k_fluid_ounce},
    {"kg", mass("kg", 1'000'000'000'000)},
    {"kilo", mass("kg", 1'000'000'000'000)},
    {"kilos", mass("kg", 1'000'000'000'000)},
    {"g", mass("g", 1'000'000'000)},
    {"gram", mass("g", 1'000'000'000)},
    {"grams", mass("g", 1'000'000'000)},
    {"mg", mass("mg", 1'000'000)},
    {"lb", mass("lb", k_pound)},
    {"lbs", mass("lb", k_pound)},
    {"pound", mass("lb", k_pound)},
    {"pounds", mass("lb", k_pound)},
    {"oz", mass("oz", k_pound / 16)},
    {"ounce", mass("oz", k_pound / 16)},
    {"ounces", mass("oz", k_pound / 16)},
    {"mm", length("mm", 1'000)},
    {"cm", length("cm", 10'000)},
    {"in", k_inch},
    {"inch", k_inch},
    {"inches", k_inch},
    {"c", k_celsius},
    {"\u00B0c", k_celsius},
    {"degc", k_celsius},
    {"celsius", k_celsius},
    {"f", k_fahrenheit},
    {"\u00B0f", k_fahrenheit},
    {"degf", k_fahrenheit},
    {"fahrenheit", k_fahrenheit},
    {"k", k_kelvin},
    {"kelvin", k_kelvin},
    {"bar", plain("bar", Kind::pressure)},
    {"barg", plain("bar", Kind::pressure)},
    {"bargauge", plain("bar", Kind::pressure)},
    {"mbar", plain("mbar", Kind::pressure)},
    {"psi", plain("psi", Kind::pressure)},
    {"psig", plain("psi", Kind::pressure)},
    {"psigauge", plain("psi", Kind::pressure)},
    {"kpa", plain("kPa", Kind::pressure)},
    {"mpa", plain("MPa", Kind::pressure)},
    {"sg", plain("SG", Kind::gravity)},
    {"p", k_plato},
    {"\u00B0p", k_plato},
    {"plato", k_plato},
    {"\u00B0plato", k_plato},
    {"bx", k_brix},
    {"\u00B0bx", k_brix},
    {"brix", k_brix},
    {"\u00B0brix", k_brix},
    {"vol", plain("vol", Kind::gas)},
    {"vols", plain("vol", Kind::gas)},
    {"volumes", plain("vol", Kind::gas)},
    {"%", k_percent},
    {"percent", k_percent},
    {"%vol", k_alcohol},
    {"vol%", k_alcohol},
    {"%abv", k_alcohol},
    {"abv", k_alcohol},
    {"%v/v", k_alcohol},
    {"g/l", plain("g/L", Kind::per_litre)},
    {"mg/l", plain("mg/L", Kind::per_litre)},
});

struct Prefix {
    std::string_view key;
    Gallon gallon;
};
constexpr auto k_prefixes = std::to_array<Prefix>(
    {{"imperial", Gallon::imperial}, {"imp", Gallon::imperial}, {"uk", Gallon::imperial}, {"us", Gallon::us}});

std::optional<Unit> find_spelling(std::string_view key) {
    for (const Spelling& spelling : k_spellings)
        if (spelling.key == key) return spelling.unit;
    return std::nullopt;
}

std::string_view kind_text(Kind kind) {
    switch (kind) {
        case Kind::volume:
            return "a volume";
        case Kind::mass:
            return "a mass";
        case Kind::length:
            return "a length";
        case Kind::temperature:
            return "a temperature";
        case Kind::pressure:
            return "a pressure";
        case Kind::gravity:
            return "a gravity";
        case Kind::gas:
            return "an amount of dissolved gas";
        case Kind::percent:
            return "a percentage";
        case Kind::alcohol:
            return "alcohol by volume";
        case Kind::per_litre:
            return "a mass in each litre";
    }
    return "";
}

// A large M is mega and a small one milli: a factor of 10^9, too much to guess at.
bool misspelt_m(std::string_view typed, std::string_view key) {
    if (key == "ml" || key == "mg" || key == "mbar" || key == "mg/l" || key == "mm") return typed.front() == 'M';
    return key == "mpa" && typed.front() == 'm';
}

}  // namespace

std::optional<Unit> find_unit(std::string_view unit) {
    const std::string key = unit_key(unit);
    for (const Prefix& prefix : k_prefixes) {
        if (!key.starts_with(prefix.key)) continue;
        auto found = find_spelling(std::string_view(key).substr(prefix.key.size()));
        if (!found || found->gallon == Gallon::none) continue;
        found->gallon = prefix.gallon;
        return found;
    }
    if (unit == "k") return std::nullopt;  // a thousand sooner than a kelvin
    return find_spelling(key);
}

Failure refuse_unit(std::string_view field, const Written& written, std::string_view wanted, std::string_view units) {
    const std::string wants = std::string(field) + " wants " + std::string(wanted);
    const std::string wants_in = wants + " (units: " + std::string(units) + ").";
    if (const auto unit = find_unit(written.unit)) {
        if (misspelt_m(written.unit, unit_key(written.unit)))
            return refuse(field, written.text + " could mean milli- or mega-; " + wants_in);
        return refuse(field, written.text + " is " + std::string(kind_text(unit->kind)) + "; " + wants + ".");
    }
    if (written.unit.empty()) {
        const std::string first{units.substr(0, units.find_first_of(", "))};
        return refuse(field,
                      written.number.text + " of what? Say " + written.number.text + " " + first + ": " + wants_in);
    }
    if (written.unit.find_first_of("0123456789") != std::string::npos)
        return refuse(field, quoted(written.text) + " is more than one amount; " + wants + ".");
    return refuse(field,
                  quoted(written.unit) + " in " + quoted(written.text) + " is not a unit known here; " + wants_in);
}

Result<Unit> unit_of_kind(std::string_view field, const Written& written, Kind kind, std::string_view wanted,
                          std::string_view units) {
    const auto unit = find_unit(written.unit);
    if (!unit || unit->kind != kind || misspelt_m(written.unit, unit_key(written.unit)))
        return refuse_unit(field, written, wanted, units);
    return *unit;
}

}  // namespace undercroft::reading
