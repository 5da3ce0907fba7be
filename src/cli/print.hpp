// The commands that put a book, or what is in it, on paper: print labels, necks, crowns, tags, card, recall, letter,
// pages.
#pragma once

#include "cli/command.hpp"
#include "cli/session.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {

// Gives the exit code.
[[nodiscard]] int print(Session& session, const Command& command, const Typed& typed);

}  // namespace undercroft::cli
