// Volume as the book counts it: whole microlitres, so that sums cancel exactly.
#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace undercroft {

class Volume {
public:
    constexpr Volume() = default;
    static constexpr Volume from_ul(std::int64_t ul) { return Volume{ul}; }
    // Rounds to the nearest microlitre.
    static Volume from_litres(double litres) { return Volume{std::llround(litres * 1e6)}; }

    [[nodiscard]] constexpr std::int64_t ul() const { return m_ul; }
    [[nodiscard]] constexpr double in_litres() const { return static_cast<double>(m_ul) / 1e6; }

    friend constexpr Volume operator+(Volume a, Volume b) { return Volume{a.m_ul + b.m_ul}; }
    friend constexpr Volume operator-(Volume a, Volume b) { return Volume{a.m_ul - b.m_ul}; }
    friend constexpr Volume operator-(Volume a) { return Volume{-a.m_ul}; }
    friend constexpr Volume operator*(Volume a, std::int64_t n) { return Volume{a.m_ul * n}; }
    constexpr Volume& operator+=(Volume b) {
        m_ul += b.m_ul;
        return *this;
    }
    constexpr Volume& operator-=(Volume b) {
        m_ul -= b.m_ul;
        return *this;
    }
    friend constexpr auto operator<=>(Volume, Volume) = default;

private:
    explicit constexpr Volume(std::int64_t ul) : m_ul(ul) {}
    std::int64_t m_ul = 0;
};

}  // namespace undercroft
