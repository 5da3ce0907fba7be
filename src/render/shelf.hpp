// Answers about bottles and weighed jars, as text and as JSON; what holds for them stands in text.hpp and json.hpp.
#pragma once

#include <string>

#include "app/shelf_views.hpp"
#include "app/weighing.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::ShelfView& view);
[[nodiscard]] std::string json_of(const app::ShelfView& view);
[[nodiscard]] std::string text_of(const app::WeighingView& view);
[[nodiscard]] std::string json_of(const app::WeighingView& view);
[[nodiscard]] std::string text_of(const app::PrintedView& view);
[[nodiscard]] std::string json_of(const app::PrintedView& view);
[[nodiscard]] std::string text_of(const app::RecallView& view);
[[nodiscard]] std::string json_of(const app::RecallView& view);
[[nodiscard]] std::string text_of(const app::DregsView& view);
[[nodiscard]] std::string json_of(const app::DregsView& view);

}  // namespace undercroft::render
