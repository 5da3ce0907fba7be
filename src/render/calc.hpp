// Sums of chemistry, as text and as JSON.
#pragma once

#include <string>

#include "app/calc.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::CalcView& view);
[[nodiscard]] std::string json_of(const app::CalcView& view);

}  // namespace undercroft::render
