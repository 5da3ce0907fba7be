// Gravity, gas, alcohol, shares, concentrations and bare numbers.
#include "units/amount.hpp"

#include <array>
#include <cmath>
#include <cstdlib>

#include "units/read_unit.hpp"

namespace undercroft {
namespace {

using reading::Kind;
using reading::quoted;
using reading::refuse;
using reading::Unit;
using reading::Written;

constexpr double k_lowest_sg = 0.980;
constexpr double k_highest_sg = 1.200;
constexpr std::string_view k_wants_gravity = "a value such as 1.012, 3.1 P or 3.1 Brix";
constexpr std::string_view k_wants_gas = "dissolved gas such as 2.4 vol or 4.7 g/L";
constexpr std::string_view k_wants_alcohol = "alcohol by volume such as 5.9 %";
constexpr std::string_view k_wants_share = "a part of the whole such as 33 %, 1/3 or 0.33";
constexpr std::string_view k_wants_per_litre = "grams per litre such as 7.2 g/L";

std::string range_text(double low, double high) {
    const auto plain = [](double value) {
        int decimals = 0;
        while (decimals < 3 && std::fabs(std::strtod(number_text(value, decimals).c_str(), nullptr) - value) > 1e-9)
            ++decimals;
        return number_text(value, decimals);
    };
    return plain(low) + " to " + plain(high);
}

// The digits as typed, inside [low, high]; a thousands sign is ruled out by the range or refused.
Result<Decimal> inside(std::string_view field, const Written& written, double low, double high,
                       std::string_view unit = {}) {
    const double value = written.number.value();
    if (value < low || value > high)
        return refuse(field, written.text + " cannot be: " + std::string(field) + " lies in " + range_text(low, high) +
                                 (unit.empty() ? "" : " " + std::string(unit)) + ".");
    if (written.number.grouped && static_cast<double>(*written.number.grouped) <= high &&
        static_cast<double>(*written.number.grouped) >= low)
        return reading::refuse_grouped(field, written);
    return written.number.decimal();
}

// A bare number is a specific gravity only when its three decimals say so: 1.05 may be degrees Plato.
Result<GravityText> bare_gravity(std::string_view field, const Written& written) {
    const double value = written.number.value();
    const std::string& number = written.number.text;
    const bool like_sg = value >= k_lowest_sg && value <= k_highest_sg;
    if (like_sg && written.number.places >= 3) return GravityText{written.number.decimal(), "SG"};
    if (like_sg)
        return refuse(field, number + " could be SG " + number_text(value, 3) + " or " + number + " \u00B0P; say " +
                                 number_text(value, 3) + " or " + number + " P.");
    if (value >= 980 && value <= 1200) {
        const std::string sg = number_text(value / 1000, 3);
        // Water at 20 °C: 998.2 kg/m3 (CIPM formula, Tanaka et al. 2001).
        return refuse(field, number + " could be SG " + sg + " without its point or a density of " + number +
                                 " kg/m3 (SG " + number_text(value / 998.2, 4) + "); say " + sg + " or the SG meant.");
    }
    if (value >= -5 && value <= 45) {
        std::string others = " or " + number + " Brix";
        if (value >= 2.5 && value <= 7)
            others = ", " + number + " Brix or a pH";
        else if (written.number.places == 0 && value >= 1)
            others = ", " + number + " Brix or " + number + " points (SG " + number_text(1 + value / 1000, 3) + ")";
        return refuse(field, number + " could be " + number + " \u00B0P" + others + "; say " + number + " P or " +
                                 number + " Brix, or write a specific gravity like 1.012.");
    }
    return refuse(
        field, number + " cannot be a gravity; " + std::string(field) + " wants " + std::string(k_wants_gravity) + ".");
}

// "a third", "two thirds": how people name a share they pull.
std::optional<double> worded_share(std::string_view words) {
    struct Word {
        std::string_view text;
        double share;
    };
    static constexpr auto k_words = std::to_array<Word>({{"half", 1.0 / 2},
                                                         {"third", 1.0 / 3},
                                                         {"quarter", 1.0 / 4},
                                                         {"fifth", 1.0 / 5},
                                                         {"sixth", 1.0 / 6},
                                                         {"eighth", 1.0 / 8},
                                                         {"tenth", 1.0 / 10},
                                                         {"two thirds", 2.0 / 3},
                                                         {"three quarters", 3.0 / 4}});
    for (const std::string_view article : {"a ", "an ", "one "})
        if (words.starts_with(article)) {
            words.remove_prefix(article.size());
            break;
        }
    for (const Word& word : k_words)
        if (word.text == words) return word.share;
    return std::nullopt;
}

}  // namespace

Result<GravityText> parse_gravity(std::string_view field, std::string_view text) {
    TRY(const Written written, reading::split_decimal(field, text, k_wants_gravity));
    if (written.unit.empty()) return bare_gravity(field, written);
    TRY(const Unit unit, reading::unit_of_kind(field, written, Kind::gravity, k_wants_gravity, "SG, P or Brix"));
    const double value = written.number.value();
    if (unit.name == "SG" && (value < k_lowest_sg || value > k_highest_sg))
        return refuse(field, written.text + " cannot be: a specific gravity lies in 0.980 to 1.200, such as 1.012.");
    if (unit.name != "SG" && (value < -5 || value > 45))
        return refuse(field, written.text + " cannot be: degrees lie in -5 to 45; " + std::string(field) + " wants " +
                                 std::string(k_wants_gravity) + ".");
    return GravityText{written.number.decimal(), std::string(unit.name)};
}

Result<CarbonationText> parse_carbonation(std::string_view field, std::string_view text) {
    TRY(const Written written, reading::split_decimal(field, text, k_wants_gas));
    if (written.unit.empty())
        return refuse(field, written.text + " could be " + written.text + " vol or " + written.text +
                                 " g/L, about half as much gas; say " + written.text + " vol or " + written.text +
                                 " g/L.");
    const auto unit = reading::find_unit(written.unit);
    if (unit && unit->name == "g/L") {
        TRY(const Decimal value, inside(field, written, 0, 20, "g/L"));
        return CarbonationText{value, "g/L"};
    }
    if (!unit || unit->kind != Kind::gas) return reading::refuse_unit(field, written, k_wants_gas, "vol or g/L");
    TRY(const Decimal value, inside(field, written, 0, 10, "vol"));
    return CarbonationText{value, "vol"};
}

Result<Decimal> parse_alcohol(std::string_view field, std::string_view text) {
    TRY(const Written written, reading::split_decimal(field, text, k_wants_alcohol));
    const std::string key = reading::unit_key(written.unit);
    if (key == "abw" || key == "%abw" || key == "%w/w" || key == "%mass")
        return refuse(field, written.text + " is alcohol by mass; " + std::string(field) + " wants " +
                                 std::string(k_wants_alcohol) + ", which is about 1.26 times as much.");
    const auto unit = reading::find_unit(written.unit);
    if (!written.unit.empty() && (!unit || (unit->kind != Kind::percent && unit->kind != Kind::alcohol)))
        return reading::refuse_unit(field, written, k_wants_alcohol, "%");
    return inside(field, written, 0, 75, "%");
}

Result<double> parse_share(std::string_view field, std::string_view text) {
    if (const auto share = worded_share(lower(reading::tidy(text)))) return *share;
    TRY(const Written written, reading::split_amount(field, text, k_wants_share));
    const auto unit = reading::find_unit(written.unit);
    const bool percent = unit && unit->kind == Kind::percent;
    if (!written.unit.empty() && !percent)
        return reading::refuse_unit(field, written, k_wants_share, "%, or as a part");
    const double share = written.number.value() / (percent ? 100.0 : 1.0);
    if (share <= 0)
        return refuse(field, written.text + " is no share: it must be more than nothing; " + std::string(field) +
                                 " wants " + std::string(k_wants_share) + ".");
    if (share > 1) {
        const std::string meant = !percent && share <= 100 ? "; say " + written.text + " % if that is meant" : "";
        return refuse(field, written.text + " is more than the whole" + meant + "; " + std::string(field) + " wants " +
                                 std::string(k_wants_share) + ", 100 % at most.");
    }
    return share;
}

Result<Decimal> parse_grams_per_litre(std::string_view field, std::string_view text) {
    constexpr double k_highest = 1500;  // no syrup holds more
    TRY(Written written, reading::split_decimal(field, text, k_wants_per_litre));
    const auto unit = reading::find_unit(written.unit);
    if (unit && unit->kind == Kind::percent) {
        const std::string number = written.number.decimal().text();
        return refuse(field, written.text + " could be " + number + " g in 100 mL (" +
                                 number_text(written.number.value() * 10, 1) + " g/L) or " + number +
                                 " g in 100 g, which is less; say it in g/L.");
    }
    if (!written.unit.empty() && (!unit || unit->kind != Kind::per_litre))
        return reading::refuse_unit(field, written, k_wants_per_litre, "g/L or mg/L");
    if (unit && unit->name == "mg/L") {
        TRY(const Decimal milligrams, inside(field, written, 0, k_highest * 1000, "mg/L"));
        if (milligrams.places() > 6)
            return refuse(field, written.text + " has more decimals than can be kept in g/L; six are the most.");
        return Decimal{milligrams.mantissa(), milligrams.places() + 3};
    }
    return inside(field, written, 0, k_highest, "g/L");
}

Result<Decimal> parse_number(std::string_view field, std::string_view text, double low, double high) {
    const std::string wanted = "a number from " + range_text(low, high);
    TRY(const Written written, reading::split_decimal(field, text, wanted));
    // "3.4 pH" for the field pH says no more than "3.4".
    if (!written.unit.empty() && lower(written.unit) != lower(field))
        return refuse(field, quoted(written.text) + " carries " + quoted(written.unit) + "; " + std::string(field) +
                                 " wants " + wanted + ", without a unit.");
    return inside(field, written, low, high);
}

Result<int> parse_count(std::string_view field, std::string_view text, int low, int high) {
    const std::string wanted = "a whole number from " + std::to_string(low) + " to " + std::to_string(high);
    TRY(const Written written, reading::split_decimal(field, text, wanted));
    if (!written.unit.empty() || written.number.places > 0)
        return refuse(field, quoted(written.text) + " is not a whole number by itself; " + std::string(field) +
                                 " wants " + wanted + ".");
    if (written.number.numerator < low || written.number.numerator > high)
        return refuse(field, written.text + " is out of range; " + std::string(field) + " wants " + wanted + ".");
    return static_cast<int>(written.number.numerator);
}

bool is_unit_word(std::string_view word) {
    const std::string typed = reading::tidy(word);
    const std::string key = reading::unit_key(typed);
    // Words that only begin a unit: "5 us gal", "2 imp fl oz".
    for (const std::string_view first : {"us", "imp", "imperial", "uk", "fl", "\u00B0", "deg"})
        if (key == first) return true;
    if (key == "in") return false;  // "12 in Keg 1"
    return reading::find_unit(typed).has_value();
}

bool is_number_word(std::string_view word) {
    const auto written = reading::split_amount("", word, "a number");
    return written && written->unit.empty();
}

}  // namespace undercroft
