// Bytes as letters that a QR code packs tightly: RFC 9285.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace undercroft::paper {

// Two bytes are three letters, the least first; a byte alone is two.
[[nodiscard]] std::string base45(std::string_view bytes);
// Nothing for what no bytes are written as: another letter, a group that is too large, a letter alone at the end.
[[nodiscard]] std::optional<std::string> bytes_of_base45(std::string_view text);

}  // namespace undercroft::paper
