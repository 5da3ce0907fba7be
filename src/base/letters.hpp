// Letters and blanks of what was typed. ASCII only: bytes of other alphabets are left as they are.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace undercroft {

[[nodiscard]] std::string lower(std::string_view text);

// Without the blanks, tabs and line ends around it.
[[nodiscard]] std::string trimmed(std::string_view text);

// The parts that are not empty, `between` each two.
[[nodiscard]] std::string joined(const std::vector<std::string>& parts, std::string_view between);

[[nodiscard]] constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

}  // namespace undercroft
