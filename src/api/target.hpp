// The target of a request, taken apart.
//
// Holds: percent-encoding is undone once; a path that climbs ("..", also encoded), holds a backslash, a zero byte or an
// empty segment is refused, as is what is not UTF-8-safe percent-encoding.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace undercroft::api {

struct Target {
    std::string path;                                        // "/api/v1/cellar"
    std::vector<std::string> segments;                       // "api", "v1", "cellar"
    std::vector<std::pair<std::string, std::string>> query;  // in order, "+" is a blank
};

[[nodiscard]] Result<Target> read_target(std::string_view target);

}  // namespace undercroft::api
