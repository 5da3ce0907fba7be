// Bytes as text (RFC 4648, section 4, with padding).
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace undercroft {

[[nodiscard]] std::string base64_of(std::string_view bytes);

// Nothing unless `text` is what base64_of() writes for some bytes.
[[nodiscard]] std::optional<std::string> bytes_of_base64(std::string_view text);

}  // namespace undercroft
