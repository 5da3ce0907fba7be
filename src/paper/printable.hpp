// What may be put on paper: text that shows, and pictures that cannot swamp the machine that draws them.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"

namespace undercroft::paper {

// Any script in UTF-8, with line breaks. Fails: bad_input for broken bytes, control characters and what Unicode never
// shows; `field` is what it is called there.
[[nodiscard]] Result<void> printable(std::string_view field, std::string_view text);

inline constexpr std::size_t k_largest_picture_bytes = std::size_t{10} * 1024 * 1024;
inline constexpr unsigned k_most_picture_side = 6000;  // pixels

// A PNG, by its first bytes alone: nothing is unpacked to find out. Fails: bad_input for another format, more bytes or
// a longer side.
[[nodiscard]] Result<void> picture_of_use(std::string_view png);

}  // namespace undercroft::paper
