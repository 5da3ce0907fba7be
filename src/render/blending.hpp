// Blends, as text and JSON.
#pragma once

#include <string>

#include "app/blend_trials.hpp"
#include "app/blending.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::BlendView& view);
[[nodiscard]] std::string json_of(const app::BlendView& view);
[[nodiscard]] std::string text_of(const app::TrialsView& view);
[[nodiscard]] std::string json_of(const app::TrialsView& view);

}  // namespace undercroft::render
