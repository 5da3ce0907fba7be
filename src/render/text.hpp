// Every answer as text for a terminal of 100 columns: aligned, UTF-8, no colour.
//
// Holds: what is shown is rounded here and nowhere else; a caution stands in a block of its own; an invented cellar
// says so. Every text ends with a line break.
#pragma once

#include <string>

#include "app/views.hpp"
#include "base/result.hpp"

namespace undercroft::render {

[[nodiscard]] std::string text_of(const app::CellarView& view);
[[nodiscard]] std::string text_of(const app::HoldingView& view);
[[nodiscard]] std::string text_of(const app::EntriesView& view);
[[nodiscard]] std::string text_of(const app::SittingView& view);
[[nodiscard]] std::string text_of(const app::JottedView& view);
[[nodiscard]] std::string text_of(const app::RoundView& view);
[[nodiscard]] std::string text_of(const app::DueView& view);
[[nodiscard]] std::string text_of(const app::GasCheckView& view);
[[nodiscard]] std::string text_of(const app::FruitView& view);
[[nodiscard]] std::string text_of(const app::TraceView& view);
[[nodiscard]] std::string text_of(const app::LabelView& view);
[[nodiscard]] std::string text_of(const app::FindingsView& view);
[[nodiscard]] std::string text_of(const app::GearView& view);
[[nodiscard]] std::string text_of(const app::ForgetView& view);
[[nodiscard]] std::string text_of(const app::CheckView& view);
[[nodiscard]] std::string text_of(const app::BackupView& view);
// A sentence, its facts aligned, the next step.
[[nodiscard]] std::string text_of(const Error& error);

// "booked 0190f3c8-... entries #12-#15": one line a sitting, read by whoever feeds lines in.
[[nodiscard]] std::string acknowledgement(const app::SittingView& view);

}  // namespace undercroft::render
