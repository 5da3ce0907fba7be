// A tasting under codes, as text and JSON.
#pragma once

#include <string>

#include "app/blind.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::BlindView& view);
[[nodiscard]] std::string json_of(const app::BlindView& view);

}  // namespace undercroft::render
