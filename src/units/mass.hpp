// Mass as the book counts it: whole milligrams.
#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace undercroft {

class Mass {
public:
    constexpr Mass() = default;
    static constexpr Mass from_mg(std::int64_t mg) { return Mass{mg}; }
    static Mass from_grams(double grams) { return Mass{std::llround(grams * 1e3)}; }

    [[nodiscard]] constexpr std::int64_t mg() const { return m_mg; }
    [[nodiscard]] constexpr double in_grams() const { return static_cast<double>(m_mg) / 1e3; }
    [[nodiscard]] constexpr double in_kilograms() const { return static_cast<double>(m_mg) / 1e6; }

    friend constexpr Mass operator+(Mass a, Mass b) { return Mass{a.m_mg + b.m_mg}; }
    friend constexpr Mass operator-(Mass a, Mass b) { return Mass{a.m_mg - b.m_mg}; }
    constexpr Mass& operator+=(Mass b) {
        m_mg += b.m_mg;
        return *this;
    }
    friend constexpr auto operator<=>(Mass, Mass) = default;

private:
    explicit constexpr Mass(std::int64_t mg) : m_mg(mg) {}
    std::int64_t m_mg = 0;
};

}  // namespace undercroft
