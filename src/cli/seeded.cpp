#include "cli/seeded.hpp"

#include <fmt/core.h>

#include <memory>

namespace undercroft::cli {

std::function<std::string()> seeded_random16(std::uint64_t seed) {
    const auto state = std::make_shared<std::uint64_t>(seed);
    const auto next = [state] {
        std::uint64_t z = (*state += 0x9E3779B97F4A7C15U);
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
        return z ^ (z >> 31U);
    };
    return [next] {
        const std::uint64_t first = next();
        return fmt::format("{:016x}{:016x}", first, next());
    };
}

std::string uuid4_of(const std::string& hex) {
    // The variant is the two upper bits, 10: 8, 9, a or b; the two lower ones stay as drawn.
    const int drawn = hex[16] <= '9' ? hex[16] - '0' : hex[16] - 'a' + 10;
    const char variant = "89ab"[drawn % 4];
    return hex.substr(0, 8) + "-" + hex.substr(8, 4) + "-4" + hex.substr(13, 3) + "-" + variant + hex.substr(17, 3) +
           "-" + hex.substr(20, 12);
}

}  // namespace undercroft::cli
