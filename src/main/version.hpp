// The version this program calls itself; CMakeLists.txt says the same.
#pragma once

#include <string_view>

namespace undercroft {

inline constexpr std::string_view k_version = "0.1.0";

}  // namespace undercroft
