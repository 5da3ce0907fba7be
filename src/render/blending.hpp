// Blends, as text and JSON.
#pragma once

#include <string>

#include "app/blending.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::BlendView& view);
[[nodiscard]] std::string json_of(const app::BlendView& view);

}  // namespace undercroft::render
