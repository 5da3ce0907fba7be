// The rows of command.hpp in two files, so that neither grows long.
#pragma once

#include <vector>

#include "cli/command.hpp"

namespace undercroft::cli {

[[nodiscard]] std::vector<Command> act_commands();
[[nodiscard]] std::vector<Command> other_commands();
[[nodiscard]] std::vector<Command> ages_commands();

}  // namespace undercroft::cli
