// Letters and blanks of what was typed. ASCII only: bytes of other alphabets are left as they are.
#pragma once

#include <string>
#include <string_view>

namespace undercroft {

[[nodiscard]] std::string lower(std::string_view text);

// Without the blanks, tabs and line ends around it.
[[nodiscard]] std::string trimmed(std::string_view text);

[[nodiscard]] constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

}  // namespace undercroft
