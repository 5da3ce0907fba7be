// How far a beer is from its target, as text and JSON.
#pragma once

#include <string>

#include "app/gap.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::GapView& view);
[[nodiscard]] std::string json_of(const app::GapView& view);

}  // namespace undercroft::render
