// What a panel found, as text and JSON.
#pragma once

#include <string>

#include "app/panel.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::PanelView& view);
[[nodiscard]] std::string json_of(const app::PanelView& view);

}  // namespace undercroft::render
