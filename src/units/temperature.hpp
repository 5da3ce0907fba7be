// Temperature as a point on the Celsius scale. Two points do not add; their difference is in kelvins.
#pragma once

#include <compare>

namespace undercroft {

class Temperature {
public:
    static constexpr Temperature from_celsius(double celsius) { return Temperature{celsius}; }
    static constexpr Temperature from_fahrenheit(double f) { return Temperature{(f - 32.0) / 1.8}; }
    [[nodiscard]] constexpr double in_celsius() const { return m_celsius; }
    [[nodiscard]] constexpr double in_fahrenheit() const { return m_celsius * 1.8 + 32.0; }
    [[nodiscard]] constexpr double in_kelvin() const { return m_celsius + 273.15; }
    friend constexpr auto operator<=>(Temperature, Temperature) = default;
    friend constexpr double operator-(Temperature a, Temperature b) { return a.m_celsius - b.m_celsius; }

private:
    explicit constexpr Temperature(double celsius) : m_celsius(celsius) {}
    double m_celsius;
};

}  // namespace undercroft
