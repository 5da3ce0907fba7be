// Every answer as JSON (docs/cli.md lists the keys), on one line.
//
// Holds: names are snake_case; amounts are {"value": "18", "unit": "L"} with exact digits; estimates are {"mean", "sd",
// "unit", "provenance", "why"}; every answer of a book holds "book" with its sequence number.
#pragma once

#include <string>

#include "app/views.hpp"
#include "base/result.hpp"

namespace undercroft::render {

[[nodiscard]] std::string json_of(const app::CellarView& view);
[[nodiscard]] std::string json_of(const app::HoldingView& view);
[[nodiscard]] std::string json_of(const app::EntriesView& view);
[[nodiscard]] std::string json_of(const app::SittingView& view);
[[nodiscard]] std::string json_of(const app::JottedView& view);
[[nodiscard]] std::string json_of(const app::RoundView& view);
[[nodiscard]] std::string json_of(const app::DueView& view);
[[nodiscard]] std::string json_of(const app::GasCheckView& view);
[[nodiscard]] std::string json_of(const app::FruitView& view);
[[nodiscard]] std::string json_of(const app::TraceView& view);
[[nodiscard]] std::string json_of(const app::LabelView& view);
[[nodiscard]] std::string json_of(const app::FindingsView& view);
[[nodiscard]] std::string json_of(const app::GearView& view);
[[nodiscard]] std::string json_of(const app::ForgetView& view);
[[nodiscard]] std::string json_of(const app::PictureView& view);  // bytes in base64 (RFC 4648)
[[nodiscard]] std::string json_of(const app::CheckView& view);
[[nodiscard]] std::string json_of(const app::BackupView& view);
// {"error": {"kind", "where", "what", "facts", "next_step"}}
[[nodiscard]] std::string json_of(const Error& error);
// The same with what the sitting would do now: {"error", "sitting"}
[[nodiscard]] std::string json_of(const Error& error, const app::SittingView& sitting);

// One spelling of each kind of error: "bad_input", "not_found", ...
[[nodiscard]] const char* word(ErrorKind kind);

}  // namespace undercroft::render
