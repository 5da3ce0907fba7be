// Pressure, gauge and absolute kept apart as types: mixing them up is how glass breaks.
#pragma once

#include <compare>

namespace undercroft {

inline constexpr double k_bar_per_psi = 0.0689476;
inline constexpr double k_standard_atmosphere_bar = 1.01325;

class AbsolutePressure {
public:
    static constexpr AbsolutePressure from_bar(double bar) { return AbsolutePressure{bar}; }
    [[nodiscard]] constexpr double in_bar() const { return m_bar; }
    friend constexpr auto operator<=>(AbsolutePressure, AbsolutePressure) = default;

private:
    explicit constexpr AbsolutePressure(double bar) : m_bar(bar) {}
    double m_bar;
};

class GaugePressure {
public:
    static constexpr GaugePressure from_bar(double bar) { return GaugePressure{bar}; }
    static constexpr GaugePressure from_psi(double psi) { return GaugePressure{psi * k_bar_per_psi}; }
    [[nodiscard]] constexpr double in_bar() const { return m_bar; }
    [[nodiscard]] constexpr double in_psi() const { return m_bar / k_bar_per_psi; }
    // The crossing names the ambient pressure it stands on.
    [[nodiscard]] constexpr AbsolutePressure above(AbsolutePressure ambient) const {
        return AbsolutePressure::from_bar(m_bar + ambient.in_bar());
    }
    friend constexpr auto operator<=>(GaugePressure, GaugePressure) = default;

private:
    explicit constexpr GaugePressure(double bar) : m_bar(bar) {}
    double m_bar;
};

constexpr GaugePressure gauge(AbsolutePressure p, AbsolutePressure ambient) {
    return GaugePressure::from_bar(p.in_bar() - ambient.in_bar());
}

}  // namespace undercroft
