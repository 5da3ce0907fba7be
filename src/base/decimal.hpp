// A decimal number as a keeper wrote it: "1.0080" stays "1.0080".
//
// Holds: text() gives back the digits that were read, so a reading keeps its raw
// value and its resolution. Entries carry Decimals and whole numbers, never doubles,
// so that their canonical bytes are the same on every machine.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace undercroft {

class Decimal {
public:
    constexpr Decimal() = default;
    // mantissa / 10^places; places 0 to 9.
    constexpr Decimal(std::int64_t mantissa, int places) : m_mantissa(mantissa), m_places(places) {}

    // Reads "-12", "3.40", "0.5": a point only, at most 15 digits and 9 decimal places, no exponent.
    static Result<Decimal> parse(std::string_view text);
    // Rounds half away from zero. `value` must be finite and fit 15 digits, else it is a bug.
    static Decimal from_double(double value, int places);

    [[nodiscard]] double value() const;
    [[nodiscard]] std::string text() const;
    [[nodiscard]] constexpr int places() const { return m_places; }
    [[nodiscard]] constexpr std::int64_t mantissa() const { return m_mantissa; }

    // The same digits: 1.0 and 1.00 differ, since the second claims more.
    friend bool operator==(const Decimal&, const Decimal&) = default;

private:
    std::int64_t m_mantissa = 0;
    int m_places = 0;
};

}  // namespace undercroft
