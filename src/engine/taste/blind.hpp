// A blind set: which code stands for which glass, and in which order each taster meets them.
//
// Holds: the same seed gives the same set; codes are three digits, all different, and say nothing of the glass, nor
// does its place; every taster meets every glass once. Orders are rows of a Williams square: over a whole square each
// glass stands in each place, and follows each other glass, equally often (Williams 1949, from memory). Leaves out:
// which beer is in which glass; that is for whoever asks.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace undercroft::engine::taste {

inline constexpr int k_most_glasses = 12;
inline constexpr int k_most_tasters = 60;

struct BlindSet {
    std::vector<std::string> codes;        // of glass 0, 1, ...
    std::vector<std::vector<int>> orders;  // of each taster: glasses as they are met
};

// `glasses` 1 to k_most_glasses, `tasters` 1 to k_most_tasters: else std::invalid_argument, a bug of whoever asks.
[[nodiscard]] BlindSet blind_set(int glasses, int tasters, std::uint64_t seed);

}  // namespace undercroft::engine::taste
