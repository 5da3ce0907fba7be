// Acts jotted in one line, and a walk past the vessels.
#pragma once

#include <span>
#include <string>

#include "cli/session.hpp"

namespace undercroft::cli {

// `log` and `round`, with their words and options behind the name; those of a sitting may stand among them. Return
// the exit code.
[[nodiscard]] int log_line(Session& session, std::span<const std::string> tokens);
[[nodiscard]] int walk_round(Session& session, std::span<const std::string> tokens);

}  // namespace undercroft::cli
