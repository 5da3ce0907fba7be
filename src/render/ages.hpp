// Answers about ages and about soleras as a whole, as text and as JSON; what holds for them stands in text.hpp and
// json.hpp.
#pragma once

#include <string>

#include "app/ages_views.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::AgeView& view);
[[nodiscard]] std::string json_of(const app::AgeView& view);
[[nodiscard]] std::string text_of(const app::SoleraView& view);
[[nodiscard]] std::string json_of(const app::SoleraView& view);
[[nodiscard]] std::string text_of(const app::RememberView& view);
[[nodiscard]] std::string json_of(const app::RememberView& view);
[[nodiscard]] std::string text_of(const app::DesignView& view);
[[nodiscard]] std::string json_of(const app::DesignView& view);
[[nodiscard]] std::string text_of(const app::ChangeView& view);
[[nodiscard]] std::string json_of(const app::ChangeView& view);

}  // namespace undercroft::render
