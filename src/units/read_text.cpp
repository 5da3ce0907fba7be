#include "units/read_text.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/letters.hpp"

namespace undercroft::reading {
namespace {

__extension__ using Int128 = __int128;

constexpr char32_t k_replacement = 0xFFFD;

// Takes one code point off the front; a byte that starts none yields U+FFFD.
char32_t next_code_point(std::string_view& text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    std::size_t length = 1;
    char32_t point = lead;
    char32_t smallest = 0;
    if (lead >= 0xC2 && lead <= 0xDF) {
        length = 2;
        point = lead & 0x1FU;
        smallest = 0x80;
    } else if (lead >= 0xE0 && lead <= 0xEF) {
        length = 3;
        point = lead & 0x0FU;
        smallest = 0x800;
    } else if (lead >= 0xF0 && lead <= 0xF4) {
        length = 4;
        point = lead & 0x07U;
        smallest = 0x10000;
    } else if (lead >= 0x80) {
        text.remove_prefix(1);
        return k_replacement;
    }
    for (std::size_t i = 1; i < length; ++i) {
        if (i >= text.size() || (byte(i) & 0xC0U) != 0x80) {
            text.remove_prefix(1);
            return k_replacement;
        }
        point = (point << 6U) | (byte(i) & 0x3FU);
    }
    const bool valid = point >= smallest && point <= 0x10FFFF && !(point >= 0xD800 && point <= 0xDFFF);
    text.remove_prefix(valid ? length : 1);
    return valid ? point : k_replacement;
}

// What a code point is read as; nothing when it stands for itself.
std::optional<std::string_view> folded(char32_t point) {
    if (point == 0x20 || (point >= 0x09 && point <= 0x0D) || point == 0xA0 || (point >= 0x2000 && point <= 0x200A) ||
        point == 0x202F || point == 0x205F || point == 0x3000)
        return " ";
    switch (point) {
        case 0x2010:
        case 0x2011:
        case 0x2012:
        case 0x2013:
        case 0x2212:
            return "-";
        case 0x2044:
            return "/";
        case 0xBA:
        case 0x2DA:
            return "\u00B0";
        case 0x2103:
            return "\u00B0C";
        case 0x2109:
            return "\u00B0F";
        case 0xB5:
        case 0x3BC:
            return "u";
        case 0xB3:
            return "3";
        case 0xBC:
            return " 1/4";
        case 0xBD:
            return " 1/2";
        case 0xBE:
            return " 3/4";
        case 0x2153:
            return " 1/3";
        case 0x2154:
            return " 2/3";
        case 0x200B:
        case 0xFEFF:
            return "";
        default:
            break;
    }
    if (point < 0x20 || (point >= 0x7F && point < 0xA0)) return "\uFFFD";
    return std::nullopt;
}

// "1.234,5" and "1'234.5" name their decimal sign by putting it last; "1.234.567" has none.
std::string without_grouping(std::string_view digits) {
    const std::size_t last = digits.find_last_of(".,'");
    const bool last_is_decimal = digits[last] != '\'' && digits.find(digits[last]) == last;
    std::string out;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        if (is_digit(digits[i])) out += digits[i];
        if (i == last && last_is_decimal) out += '.';
    }
    return out;
}

// Reads a run of digits and separators that holds at least one digit.
Result<Numeral> read_numeral(std::string_view field, std::string_view run, bool negative) {
    const auto separators = [&] {
        int count = 0;
        for (const char c : run) count += is_digit(c) ? 0 : 1;
        return count;
    }();
    if (separators > 1 || run.find('\'') != std::string_view::npos)
        return refuse(field, quoted(run) + " holds a thousands sign or two decimal signs; write " +
                                 (is_digit(run.back()) ? without_grouping(run) : "1234.5") +
                                 ", with one decimal sign at most.");
    if (!is_digit(run.back()))
        return refuse(field, quoted(run) + " ends in a separator; write the digits behind it or leave it out.");

    const std::size_t at = run.find_first_of(".,");
    std::string_view whole = run.substr(0, at);
    const std::string_view decimals = at == std::string_view::npos ? std::string_view{} : run.substr(at + 1);
    const bool may_group = decimals.size() == 3 && !whole.empty() && whole.size() <= 3 && whole.front() != '0';
    while (whole.size() > 1 && whole.front() == '0') whole.remove_prefix(1);
    if (decimals.size() > 9 || whole.size() + decimals.size() > 15)
        return refuse(field, quoted(run) + " has more digits than can be kept: at most 15, nine of them decimals.");

    Numeral numeral;
    for (const std::string_view part : {whole, decimals})
        for (const char c : part) numeral.numerator = numeral.numerator * 10 + (c - '0');
    if (negative) numeral.numerator = -numeral.numerator;
    numeral.places = static_cast<int>(decimals.size());
    if (may_group) numeral.grouped = numeral.numerator;
    return numeral;
}

// "1/2", or "1 1/2" when a whole number stands before it. `at` is where a digit run ends.
struct Fraction {
    std::int64_t over = 0;
    std::int64_t under = 0;
    std::size_t end = 0;
};
std::optional<Fraction> read_fraction(std::string_view text, std::size_t at) {
    const auto digits = [&](std::size_t& i) -> std::optional<std::int64_t> {
        const std::size_t begin = i;
        std::int64_t value = 0;
        for (; i < text.size() && is_digit(text[i]) && i - begin < 5; ++i) value = value * 10 + (text[i] - '0');
        if (i == begin || i - begin == 5) return std::nullopt;
        return value;
    };
    Fraction fraction;
    const auto over = digits(at);
    if (!over || at >= text.size() || text[at] != '/') return std::nullopt;
    ++at;
    const auto under = digits(at);
    if (!under) return std::nullopt;
    return Fraction{*over, *under, at};
}

}  // namespace

std::string tidy(std::string_view text) {
    std::string out;
    const auto append = [&](std::string_view piece) {
        for (const char c : piece)
            if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
    };
    while (!text.empty()) {
        const std::string_view before = text;
        const char32_t point = next_code_point(text);
        if (const auto replacement = folded(point))
            append(*replacement);
        else if (point == k_replacement)
            append("\uFFFD");
        else
            append(before.substr(0, before.size() - text.size()));
    }
    if (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::string unit_key(std::string_view unit) {
    std::string out;
    for (const char c : lower(unit))
        if (c != ' ' && c != '.') out += c;
    return out;
}

std::string quoted(std::string_view tidied) {
    constexpr std::size_t k_longest = 40;
    if (tidied.size() <= k_longest) return "\"" + std::string(tidied) + "\"";
    std::size_t cut = k_longest;
    while (cut > 0 && (static_cast<unsigned char>(tidied[cut]) & 0xC0U) == 0x80) --cut;
    return "\"" + std::string(tidied.substr(0, cut)) + "\u2026\"";
}

Failure refuse(std::string_view field, std::string sentence) {
    return fail(ErrorKind::bad_input, std::string(field), std::move(sentence));
}

double Numeral::value() const {
    return static_cast<double>(numerator) / std::pow(10.0, places) / static_cast<double>(denominator);
}

Result<Written> split_amount(std::string_view field, std::string_view text, std::string_view wanted) {
    Written written;
    written.text = tidy(text);
    const std::string_view all = written.text;
    const std::string wants = std::string(field) + " wants " + std::string(wanted);
    if (all.empty()) return refuse(field, "nothing is written here; " + wants + ".");
    if (all.size() > 80) return refuse(field, quoted(all) + " is too long for an amount; " + wants + ".");

    std::size_t at = 0;
    const bool negative = all[at] == '-';
    if (negative || all[at] == '+') ++at;
    if (at > 0 && at < all.size() && all[at] == ' ') ++at;
    const std::size_t begin = at;
    at = std::min(all.find_first_not_of("0123456789.,'", begin), all.size());
    const std::string_view run = all.substr(begin, at - begin);
    if (run.find_first_of("0123456789") == std::string_view::npos)
        return refuse(field, quoted(all) + " does not start with a number; " + wants + ".");

    const bool whole_number = run.find_first_of(".,'") == std::string_view::npos;
    const auto fraction = whole_number ? read_fraction(all, begin) : std::nullopt;
    const auto behind =
        !fraction && whole_number && at < all.size() && all[at] == ' ' ? read_fraction(all, at + 1) : std::nullopt;
    if (fraction || behind) {
        const Fraction& part = fraction ? *fraction : *behind;
        if (part.under == 0) return refuse(field, quoted(all) + " divides by zero; " + wants + ".");
        std::int64_t whole = 0;
        if (behind) {
            TRY(const Numeral front, read_numeral(field, run, false));
            whole = front.numerator;
        }
        if (whole > 99'999) return refuse(field, quoted(all) + " is too large for a fraction; write it as a decimal.");
        written.number.numerator = (negative ? -1 : 1) * (whole * part.under + part.over);
        written.number.denominator = part.under;
        at = part.end;
    } else {
        TRY(written.number, read_numeral(field, run, negative));
    }
    written.number.text = std::string(all.substr(0, at));

    const std::string_view rest = all.substr(at);
    const auto digit_at = [&](std::size_t i) { return i < rest.size() && is_digit(rest[i]); };
    if (digit_at(0) || (!rest.empty() && rest[0] == ' ' && digit_at(1)))
        return refuse(field, quoted(all) + " has a space inside a number, or two numbers; " + wants +
                                 ", with the digits together.");
    if (!rest.empty() && (rest[0] == 'e' || rest[0] == 'E') &&
        (digit_at(1) || (rest.size() > 1 && (rest[1] == '+' || rest[1] == '-') && digit_at(2))))
        return refuse(field, quoted(all) + " is written with an exponent; write all the digits: " + wants + ".");
    if (run == "0" && !rest.empty() && (rest[0] == 'x' || rest[0] == 'X'))
        return refuse(field, quoted(all) + " is not a decimal number; " + wants + ".");
    written.unit = std::string(!rest.empty() && rest[0] == ' ' ? rest.substr(1) : rest);
    return written;
}

Result<Written> split_decimal(std::string_view field, std::string_view text, std::string_view wanted) {
    TRY(Written written, split_amount(field, text, wanted));
    if (written.number.is_fraction())
        return refuse(field, quoted(written.text) + " is a fraction; " + std::string(field) + " wants " +
                                 std::string(wanted) + ", as a decimal.");
    return written;
}

Failure refuse_grouped(std::string_view field, const Written& written) {
    const std::string unit = written.unit.empty() ? "" : " " + written.unit;
    const std::string decimal = written.number.decimal().text();
    // The advice must not be refused in turn: drop zeros ("1.5"), else add one ("1.0120").
    std::string advice = decimal;
    while (advice.back() == '0') advice.pop_back();
    if (advice.back() == '.') advice.pop_back();
    if (advice == decimal) advice += '0';
    const std::string thousands = std::to_string(written.number.grouped.value_or(0));
    return refuse(field, written.text + " could be " + decimal + unit + " or " + thousands + unit + "; say " + advice +
                             unit + " or " + thousands + unit + ".");
}

std::optional<std::int64_t> scaled(const Numeral& number, std::int64_t factor, std::int64_t divisor,
                                   std::int64_t limit) {
    // At most 10^15 * 10^16 above the line and 10^9 * 10^4 * 10^7 below it: both fit with room.
    const Int128 over = Int128{number.numerator} * factor;
    Int128 under = Int128{number.denominator} * divisor;
    for (int i = 0; i < number.places; ++i) under *= 10;
    const Int128 magnitude = ((over < 0 ? -over : over) * 2 + under) / (under * 2);
    if (magnitude > limit) return std::nullopt;
    const auto result = static_cast<std::int64_t>(magnitude);
    return over < 0 ? -result : result;
}

}  // namespace undercroft::reading
