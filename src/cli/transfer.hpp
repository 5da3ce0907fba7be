// The commands that take a book out of the program and bring others in: export, restore, compare, import, import-csv.
#pragma once

#include "cli/command.hpp"
#include "cli/session.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {

// Gives the exit code.
[[nodiscard]] int transfer(Session& session, const Command& command, const Typed& typed);

}  // namespace undercroft::cli
