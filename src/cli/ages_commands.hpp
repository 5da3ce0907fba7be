// Asking about ages and about soleras as a whole.
#pragma once

#include <optional>

#include "cli/session.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {

// Exit code, or nothing when `command` is none of these.
[[nodiscard]] std::optional<int> ask_about_ages(Session& session, const Command& command, const Typed& typed);

}  // namespace undercroft::cli
