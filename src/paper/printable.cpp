#include "paper/printable.hpp"

#include <cstdint>
#include <cstdio>
#include <optional>

namespace undercroft::paper {

namespace {

struct Character {
    std::uint32_t code = 0;
    std::size_t bytes = 0;
};

// The character at the start of `text`; nothing where the bytes are no UTF-8.
std::optional<Character> first_of(std::string_view text) {
    const auto byte = [&text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned lead = byte(0);
    if (lead < 0x80) return Character{lead, 1};
    const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || text.size() < bytes) return std::nullopt;
    std::uint32_t code = lead & (0xFFU >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return std::nullopt;
        code = (code << 6U) | (byte(i) & 0x3FU);
    }
    const bool longer_than_needed = (bytes == 3 && code < 0x800) || (bytes == 4 && code < 0x10000);
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (longer_than_needed || surrogate || code > 0x10FFFF) return std::nullopt;
    return Character{code, bytes};
}

// Controls, the separators of lines and paragraphs, overrides of direction (they can make a label read as another), and
// code points that are no characters.
bool never_shows(std::uint32_t code) {
    if (code < 0x20) return code != '\n';
    return (code >= 0x7F && code <= 0x9F) || (code >= 0x2028 && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) ||
           (code >= 0xFDD0 && code <= 0xFDEF) || (code & 0xFFFEU) == 0xFFFEU;
}

std::uint32_t big_endian(std::string_view bytes) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = (value << 8U) | static_cast<unsigned char>(bytes[i]);
    return value;
}

}  // namespace

Result<void> printable(std::string_view field, std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto character = first_of(text.substr(at));
        if (!character)
            return fail(ErrorKind::bad_input, std::string(field),
                        "Byte " + std::to_string(at + 1) + " of it is no UTF-8 text, so it cannot be printed.");
        if (never_shows(character->code)) {
            char code[16];
            std::snprintf(code, sizeof code, "U+%04X", static_cast<unsigned>(character->code));
            return fail(ErrorKind::bad_input, std::string(field),
                        std::string(code) + " in it cannot be printed; letters, signs and line breaks can.");
        }
        at += character->bytes;
    }
    return {};
}

Result<void> picture_of_use(std::string_view png) {
    constexpr std::string_view k_signature = "\x89PNG\r\n\x1a\n";
    constexpr std::size_t k_header = 24;  // signature, length and name of the first chunk, width, height
    if (png.size() > k_largest_picture_bytes)
        return fail(ErrorKind::bad_input, "picture", "It has more than 10 MB; a label needs far less.");
    if (png.size() < k_header || png.substr(0, k_signature.size()) != k_signature || png.substr(12, 4) != "IHDR")
        return fail(ErrorKind::bad_input, "picture", "It is no PNG; a label takes PNG pictures.");
    const std::uint32_t width = big_endian(png.substr(16));
    const std::uint32_t height = big_endian(png.substr(20));
    if (width == 0 || height == 0 || width > k_most_picture_side || height > k_most_picture_side)
        return fail(ErrorKind::bad_input, "picture",
                    "It is " + std::to_string(width) + " by " + std::to_string(height) +
                        " pixels; a label takes 1 to " + std::to_string(k_most_picture_side) + " a side.");
    return {};
}

}  // namespace undercroft::paper
