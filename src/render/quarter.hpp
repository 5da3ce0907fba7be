// The plan of a quarter as text and as JSON.
#pragma once

#include <string>

#include "app/quarter.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::QuarterView& view);
[[nodiscard]] std::string json_of(const app::QuarterView& view);

}  // namespace undercroft::render
