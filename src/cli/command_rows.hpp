// The rows of command.hpp in several files, so that none grows long.
#pragma once

#include <vector>

#include "cli/command.hpp"

namespace undercroft::cli {

[[nodiscard]] std::vector<Command> act_commands();
[[nodiscard]] std::vector<Command> other_commands();
[[nodiscard]] std::vector<Command> ages_commands();
[[nodiscard]] std::vector<Command> transfer_commands();
[[nodiscard]] std::vector<Command> blend_commands();
[[nodiscard]] std::vector<Command> tasting_commands();
[[nodiscard]] std::vector<Command> finish_commands();
[[nodiscard]] std::vector<Command> quarter_commands();
[[nodiscard]] std::vector<Command> print_commands();
[[nodiscard]] std::vector<Command> calc_commands();

}  // namespace undercroft::cli
