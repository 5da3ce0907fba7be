// The two generators every book of the benchmarks is drawn from.
#pragma once

#include <cstdint>

namespace undercroft::bench {

// SplitMix64, by G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", 2014.
class SplitMix64 {
public:
    explicit SplitMix64(std::uint64_t seed) : m_state(seed) {}
    std::uint64_t next() {
        std::uint64_t z = m_state += 0x9E3779B97F4A7C15U;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
        return z ^ (z >> 31U);
    }

private:
    std::uint64_t m_state;
};

// xorshift64 with shifts 13, 7, 17, by G. Marsaglia, "Xorshift RNGs", 2003.
class XorShift64 {
public:
    std::uint64_t next() {
        m_state ^= m_state << 13U;
        m_state ^= m_state >> 7U;
        m_state ^= m_state << 17U;
        return m_state;
    }

private:
    std::uint64_t m_state = 88172645463325252U;
};

// Draws from either: uniform in [0, 1) by the top 53 bits, and whole numbers below a bound.
template <class Generator>
class Draws {
public:
    explicit Draws(Generator generator = Generator{}) : m_generator(generator) {}
    double uniform() { return static_cast<double>(m_generator.next() >> 11U) * 0x1p-53; }
    double uniform(double low, double high) { return low + (high - low) * uniform(); }
    int below(int bound) { return static_cast<int>(uniform() * bound); }
    bool chance(double probability) { return uniform() < probability; }

private:
    Generator m_generator;
};

}  // namespace undercroft::bench
