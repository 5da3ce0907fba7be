// A picture in the book: its bytes lie in a table of their own, an entry holds the commitment only, so it can be
// forgotten like a name.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace undercroft::ledger {

inline constexpr std::size_t k_largest_picture = std::size_t{8} * 1024 * 1024;  // bytes

// The commitment is BLAKE2b-256(salt || bytes) in hex. The salt stays beside the bytes, so a forgotten row leaves
// nothing that could be guessed.
struct Picture {
    std::string commitment;
    std::string salt;        // 16 bytes in hex, empty once forgotten
    std::string media_type;  // "image/png" or "image/jpeg", empty once forgotten
    std::string bytes;       // empty once forgotten
    [[nodiscard]] bool is_forgotten() const { return salt.empty(); }
    friend bool operator==(const Picture&, const Picture&) = default;
};

// "image/png" or "image/jpeg" by the first bytes, empty for anything else. Only the mark of the format is looked at.
[[nodiscard]] inline std::string media_type_of(std::string_view bytes) {
    using namespace std::string_view_literals;
    // PNG (ISO/IEC 15948, 5.2), and JPEG's start of image followed by a marker (ITU-T T.81, annex B.1.1.3).
    if (bytes.starts_with("\x89PNG\r\n\x1a\n"sv)) return "image/png";
    if (bytes.starts_with("\xff\xd8\xff"sv)) return "image/jpeg";
    return {};
}

}  // namespace undercroft::ledger
