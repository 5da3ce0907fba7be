// Makes the keys of sittings.
#pragma once

#include <string>

#include "base/instant.hpp"

namespace undercroft::app {

// A UUID of version 7 (RFC 9562): 48 bits of milliseconds, a 12-bit counter, then random bits. Always above
// `newest`, the largest key of the book (section 6.2, method 1): two sittings of one instant keep the order they were
// drafted in, however fast they came and wherever the clock stood. `newest` may be empty.
[[nodiscard]] std::string new_sitting_key(Instant now, const std::string& random_hex, const std::string& newest);

[[nodiscard]] bool is_sitting_key(const std::string& key);

}  // namespace undercroft::app
