#include "app/sitting_key.hpp"

#include <cstdint>

namespace undercroft::app {
namespace {

std::string in_groups(const std::string& digits) {
    return digits.substr(0, 8) + "-" + digits.substr(8, 4) + "-" + digits.substr(12, 4) + "-" + digits.substr(16, 4) +
           "-" + digits.substr(20, 12);
}

std::string hex_of(std::uint64_t value, int digits) {
    constexpr const char* k_hex = "0123456789abcdef";
    std::string text;
    for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4)
        text += k_hex[(value >> static_cast<unsigned>(shift)) & 0xFU];
    return text;
}

std::uint64_t value_of(const std::string& hex) {
    std::uint64_t value = 0;
    for (const char c : hex) value = value * 16 + static_cast<std::uint64_t>(c <= '9' ? c - '0' : c - 'a' + 10);
    return value;
}

}  // namespace

std::string new_sitting_key(Instant now, const std::string& random_hex, const std::string& newest) {
    auto ms = static_cast<std::uint64_t>(now.ms);
    std::uint64_t counter = value_of(random_hex.substr(0, 3)) & 0x7FFU;
    if (!newest.empty()) {
        const std::uint64_t newest_ms = value_of(newest.substr(0, 8) + newest.substr(9, 4));
        const std::uint64_t newest_counter = value_of(newest.substr(15, 3));
        if (newest_ms >= ms) {
            ms = newest_counter == 0xFFFU ? newest_ms + 1 : newest_ms;
            counter = newest_counter == 0xFFFU ? 0 : newest_counter + 1;
        }
    }
    const std::uint64_t variant = 8U | (value_of(random_hex.substr(3, 1)) & 3U);
    return in_groups(hex_of(ms, 12) + "7" + hex_of(counter, 3) + hex_of(variant, 1) + random_hex.substr(4, 15));
}

bool is_sitting_key(const std::string& key) {
    if (key.size() != 36 || key[14] != '7') return false;
    for (std::size_t i = 0; i < key.size(); ++i) {
        const bool dash = i == 8 || i == 13 || i == 18 || i == 23;
        const bool hex = (key[i] >= '0' && key[i] <= '9') || (key[i] >= 'a' && key[i] <= 'f');
        if (dash ? key[i] != '-' : !hex) return false;
    }
    return true;
}

}  // namespace undercroft::app
