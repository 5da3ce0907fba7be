// Answers to export, restore, compare, import and import-csv.
#pragma once

#include <string>

#include "app/transfer_views.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::ExportView& view);
[[nodiscard]] std::string text_of(const app::RestoreView& view);
[[nodiscard]] std::string text_of(const app::ImportView& view);
[[nodiscard]] std::string text_of(const app::CompareView& view);
[[nodiscard]] std::string text_of(const app::SheetView& view);

[[nodiscard]] std::string json_of(const app::ExportView& view);
[[nodiscard]] std::string json_of(const app::RestoreView& view);
[[nodiscard]] std::string json_of(const app::ImportView& view);
[[nodiscard]] std::string json_of(const app::CompareView& view);
[[nodiscard]] std::string json_of(const app::SheetView& view);

}  // namespace undercroft::render
