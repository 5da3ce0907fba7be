// What every reader of typed text shares: tidying, the number at the front, the unit behind it.
// Only the read_*.cpp files of this folder include this.
//
// Holds: no input, however broken, does more than produce an Error; the text inside an
// Error is valid UTF-8 and short.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/decimal.hpp"
#include "base/letters.hpp"
#include "base/result.hpp"

namespace undercroft::reading {

// Spaces of every kind become one ' ', outer ones go; U+2212 and dashes become '-'; the look-alikes of
// the degree sign become U+00B0, micro signs 'u', U+00BD " 1/2"; bytes that are not UTF-8 become U+FFFD.
std::string tidy(std::string_view text);
// A unit as the unit table spells it: lower case, no spaces, no points.
std::string unit_key(std::string_view unit);
// In quotes, and cut when long.
std::string quoted(std::string_view tidied);

Failure refuse(std::string_view field, std::string sentence);

// value = numerator / (10^places * denominator)
struct Numeral {
    std::int64_t numerator = 0;
    int places = 0;
    std::int64_t denominator = 1;  // of a fraction: "1 1/2"
    std::string text;              // as typed
    // The other reading, when the separator might group thousands: 1012 for "1,012".
    std::optional<std::int64_t> grouped;

    [[nodiscard]] bool is_fraction() const { return text.find('/') != std::string::npos; }
    [[nodiscard]] double value() const;
    // Meaningless for a fraction.
    [[nodiscard]] Decimal decimal() const { return Decimal{numerator, places}; }
};

struct Written {
    std::string text;  // the whole, tidied: "1,5 L"
    Numeral number;
    std::string unit;  // "L"; empty when only a number was typed
};

// `wanted` completes "capacity wants ...": "a volume such as 54 L".
Result<Written> split_amount(std::string_view field, std::string_view text, std::string_view wanted);
// The same, refusing fractions: where the digits themselves are kept.
Result<Written> split_decimal(std::string_view field, std::string_view text, std::string_view wanted);

// "1,012 L could be 1.012 L or 1012 L; ..." For a number whose grouped reading is set and possible.
Failure refuse_grouped(std::string_view field, const Written& written);

// number * factor / divisor, rounded half away from zero; nothing when beyond +-limit.
std::optional<std::int64_t> scaled(const Numeral& number, std::int64_t factor, std::int64_t divisor,
                                   std::int64_t limit);

}  // namespace undercroft::reading
