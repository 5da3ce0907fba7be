// Ways to finish a pull, and what came of those that were, as text and as JSON.
#pragma once

#include <string>

#include "app/finish_book.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::FinishView& view);
[[nodiscard]] std::string json_of(const app::FinishView& view);
[[nodiscard]] std::string text_of(const app::LearnedView& view);
[[nodiscard]] std::string json_of(const app::LearnedView& view);

}  // namespace undercroft::render
