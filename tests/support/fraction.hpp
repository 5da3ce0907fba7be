// Exact fractions for tests: what a formula gives when nothing is rounded.
//
// Leaves out: guards against overflow; over and under must stay below 2^63 when multiplied by another fraction's.
#pragma once

#include <cstdint>

namespace undercroft::testing {

__extension__ using Int128 = __int128;

class Fraction {
public:
    // NOLINTNEXTLINE(google-explicit-constructor): whole numbers are fractions
    Fraction(std::int64_t whole) : m_over(whole) {}
    Fraction(std::int64_t over, std::int64_t under) : m_over(over), m_under(under) { reduce(); }
    [[nodiscard]] double value() const {
        return static_cast<double>(static_cast<long double>(m_over) / static_cast<long double>(m_under));
    }
    friend Fraction operator+(const Fraction& a, const Fraction& b) {
        return {a.m_over * b.m_under + b.m_over * a.m_under, a.m_under * b.m_under, 0};
    }
    friend Fraction operator-(const Fraction& a, const Fraction& b) {
        return {a.m_over * b.m_under - b.m_over * a.m_under, a.m_under * b.m_under, 0};
    }
    friend Fraction operator*(const Fraction& a, const Fraction& b) {
        return {a.m_over * b.m_over, a.m_under * b.m_under, 0};
    }
    friend Fraction operator/(const Fraction& a, const Fraction& b) {
        const Int128 sign = b.m_over < 0 ? -1 : 1;
        return {a.m_over * b.m_under * sign, a.m_under * b.m_over * sign, 0};
    }
    friend bool operator==(const Fraction&, const Fraction&) = default;

private:
    Fraction(Int128 over, Int128 under, int) : m_over(over), m_under(under) { reduce(); }
    void reduce() {
        Int128 a = m_over < 0 ? -m_over : m_over;
        Int128 b = m_under;
        while (b != 0) {
            const Int128 rest = a % b;
            a = b;
            b = rest;
        }
        m_over /= a == 0 ? 1 : a;
        m_under /= a == 0 ? 1 : a;
    }

    Int128 m_over = 0;
    Int128 m_under = 1;
};

}  // namespace undercroft::testing
