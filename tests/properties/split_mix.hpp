// SplitMix64 (Steele, Lea & Flood 2014): the same book from the same seed on every machine.
#pragma once

#include <cstdint>

namespace undercroft::testing {

class SplitMix64 {
public:
    explicit SplitMix64(std::uint64_t seed) : m_state(seed) {}

    std::uint64_t next() {
        std::uint64_t z = (m_state += 0x9E3779B97F4A7C15ULL);
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31U);
    }
    // low to high, both included.
    std::int64_t between(std::int64_t low, std::int64_t high) {
        return low + static_cast<std::int64_t>(next() % static_cast<std::uint64_t>(high - low + 1));
    }
    // low to high.
    double uniform(double low, double high) {
        return low + (high - low) * static_cast<double>(next() >> 11U) * 0x1p-53;
    }
    bool one_in(int n) { return between(1, n) == 1; }

private:
    std::uint64_t m_state;
};

}  // namespace undercroft::testing
