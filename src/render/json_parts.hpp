// How the pieces of answers look as JSON. For the .cpp files of this folder.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "app/views.hpp"

namespace undercroft::render {

using Json = nlohmann::ordered_json;

[[nodiscard]] Json head_of(const app::BookLine& book);  // {"book": ...}; {} for a sum without a book
[[nodiscard]] Json amount(Volume volume);
[[nodiscard]] Json to_json(const app::Caution& caution);
[[nodiscard]] Json to_json(const app::EntryLine& entry);
[[nodiscard]] Json to_json(const app::FindingView& finding);
[[nodiscard]] Json to_json(const app::Receiver& one);
[[nodiscard]] Json to_json(const app::RunSummary& run);
[[nodiscard]] Json to_json(const app::DueLine& due);
[[nodiscard]] Json to_json(const app::Term& term);
[[nodiscard]] Json to_json(const engine::Age& age);
// One line, with a line break. Bytes that are no UTF-8 become U+FFFD.
[[nodiscard]] std::string line_of(const Json& json);

template <class T>
[[nodiscard]] Json list_of(const std::vector<T>& values) {
    Json list = Json::array();
    for (const T& value : values) list.push_back(to_json(value));
    return list;
}

template <class T>
[[nodiscard]] Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

}  // namespace undercroft::render
