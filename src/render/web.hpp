// Answers that only the page asks for, as JSON; what holds for them stands in json.hpp.
#pragma once

#include <string>

#include "app/choices.hpp"
#include "app/over_time.hpp"
#include "app/views.hpp"

namespace undercroft::render {

[[nodiscard]] std::string json_of(const app::AboutView& view, const std::string& version);
[[nodiscard]] std::string json_of(const app::EntryView& view);  // without its act
[[nodiscard]] std::string json_of(const app::ChoicesView& view);
[[nodiscard]] std::string json_of(const app::FlowView& view);
[[nodiscard]] std::string json_of(const app::RiverView& view);
[[nodiscard]] std::string json_of(const app::ReadingsView& view);

}  // namespace undercroft::render
