// The words of a tasting sheet, as text and JSON.
#pragma once

#include <string>

#include "app/tasting_words.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::TastingWordsView& view);
[[nodiscard]] std::string json_of(const app::TastingWordsView& view);

}  // namespace undercroft::render
