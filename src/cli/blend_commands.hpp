// The questions about blends: plan blend, plan trials, calc blending.
#pragma once

#include <optional>

#include "cli/command.hpp"
#include "cli/session.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {

// The exit code; nothing when the command is another.
[[nodiscard]] std::optional<int> ask_about_blends(Session& session, const Command& command, const Typed& typed);

}  // namespace undercroft::cli
