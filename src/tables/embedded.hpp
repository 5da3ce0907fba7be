// The files of data/, compiled into the binary.
#pragma once

#include <string_view>

namespace undercroft::tables {

// Bytes of data/<name>, empty when there is no such file.
[[nodiscard]] std::string_view embedded(std::string_view name);

}  // namespace undercroft::tables
