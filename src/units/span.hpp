// Spans of days as people write them, and back: "6 weeks", "14 days", "3 months", "1 year".
//
// Holds: a span is whole days; a year is 365 and a month a twelfth of it, rounded, so that 3, 6 and 12 months
// are 91, 183 and 365 days. Text written here is read back as the same days.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"

namespace undercroft {

inline constexpr int k_longest_span_days = 3650;

// 1 day to ten years; "2 weeks", "14 d", "a week". A bare number is refused with its readings. bad_input.
Result<int> parse_span(std::string_view field, std::string_view text);
// The largest unit that comes out whole: 42 is "6 weeks", 10 "10 days", 183 "6 months".
[[nodiscard]] std::string span_text(int days);

}  // namespace undercroft
