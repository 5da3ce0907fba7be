#include "base/decimal.hpp"

#include <array>
#include <cassert>
#include <cmath>

namespace undercroft {
namespace {

constexpr std::array<double, 10> k_powers{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};

Failure not_a_number(std::string_view text) {
    return fail(ErrorKind::bad_input, "number",
                "\"" + std::string(text) + "\" is not a plain decimal number such as 3.4 or 1.012.");
}

}  // namespace

Result<Decimal> Decimal::parse(std::string_view text) {
    std::string_view rest = text;
    const bool negative = !rest.empty() && rest.front() == '-';
    if (negative) rest.remove_prefix(1);
    std::int64_t mantissa = 0;
    int places = 0;
    int digits = 0;
    bool point = false;
    for (const char c : rest) {
        if (c == '.' && !point) {
            point = true;
            continue;
        }
        if (c < '0' || c > '9' || digits == 15 || (point && places == 9)) return not_a_number(text);
        mantissa = mantissa * 10 + (c - '0');
        ++digits;
        if (point) ++places;
    }
    if (digits == 0 || (point && places == 0)) return not_a_number(text);
    return Decimal{negative ? -mantissa : mantissa, places};
}

Decimal Decimal::from_double(double value, int places) {
    assert(places >= 0 && places <= 9 && std::isfinite(value));
    const double scaled = std::round(value * k_powers[static_cast<std::size_t>(places)]);
    assert(std::fabs(scaled) < 1e15);
    return Decimal{static_cast<std::int64_t>(scaled), places};
}

double Decimal::value() const {
    return static_cast<double>(m_mantissa) / k_powers[static_cast<std::size_t>(m_places)];
}

std::string Decimal::text() const {
    const bool negative = m_mantissa < 0;
    std::string digits = std::to_string(negative ? -m_mantissa : m_mantissa);
    const auto places = static_cast<std::size_t>(m_places);
    if (places > 0) {
        if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
        digits.insert(digits.size() - places, 1, '.');
    }
    return negative ? "-" + digits : digits;
}

}  // namespace undercroft
