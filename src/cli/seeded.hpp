// Chance that can be had again: for the demo cellar, and for tests that compare bytes.
#pragma once

#include <cstdint>
#include <functional>
#include <string>

namespace undercroft::cli {

// 16 bytes as hex at each call, from SplitMix64 (Steele, Lea, Flood 2014); the same seed gives the same sequence.
[[nodiscard]] std::function<std::string()> seeded_random16(std::uint64_t seed);

// Text of a UUID of version 4 (RFC 9562) from 16 random bytes in hex.
[[nodiscard]] std::string uuid4_of(const std::string& random16_hex);

}  // namespace undercroft::cli
