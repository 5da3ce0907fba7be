#include "paper/base45.hpp"

namespace undercroft::paper {

namespace {

constexpr std::string_view k_letters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
constexpr unsigned k_base = 45;

unsigned number_of(char c) {
    return static_cast<unsigned char>(c);
}

}  // namespace

std::string base45(std::string_view bytes) {
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); i += 2) {
        const bool pair = i + 1 < bytes.size();
        unsigned value = pair ? number_of(bytes[i]) * 256U + number_of(bytes[i + 1]) : number_of(bytes[i]);
        for (int letter = 0; letter < (pair ? 3 : 2); ++letter, value /= k_base) text += k_letters[value % k_base];
    }
    return text;
}

std::optional<std::string> bytes_of_base45(std::string_view text) {
    std::string bytes;
    for (std::size_t i = 0; i < text.size(); i += 3) {
        const std::string_view group = text.substr(i, 3);
        if (group.size() == 1) return std::nullopt;
        unsigned value = 0;
        for (std::size_t letter = group.size(); letter-- > 0;) {
            const std::size_t digit = k_letters.find(group[letter]);
            if (digit == std::string_view::npos) return std::nullopt;
            value = value * k_base + static_cast<unsigned>(digit);
        }
        if (value > (group.size() == 3 ? 0xFFFFU : 0xFFU)) return std::nullopt;
        if (group.size() == 3) bytes += static_cast<char>(value / 256U);
        bytes += static_cast<char>(value % 256U);
    }
    return bytes;
}

}  // namespace undercroft::paper
