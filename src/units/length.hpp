// Length as the book counts it: whole micrometres, so that what was measured is stored without rounding.
#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace undercroft {

class Length {
public:
    constexpr Length() = default;
    static constexpr Length from_um(std::int64_t um) { return Length{um}; }
    static Length from_centimetres(double centimetres) { return Length{std::llround(centimetres * 1e4)}; }

    [[nodiscard]] constexpr std::int64_t um() const { return m_um; }
    [[nodiscard]] constexpr double in_centimetres() const { return static_cast<double>(m_um) / 1e4; }

    friend constexpr Length operator+(Length a, Length b) { return Length{a.m_um + b.m_um}; }
    friend constexpr Length operator-(Length a, Length b) { return Length{a.m_um - b.m_um}; }
    friend constexpr auto operator<=>(Length, Length) = default;

private:
    explicit constexpr Length(std::int64_t um) : m_um(um) {}
    std::int64_t m_um = 0;
};

}  // namespace undercroft
