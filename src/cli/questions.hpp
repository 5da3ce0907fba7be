// Asking a book, and sums without one.
#pragma once

#include "cli/session.hpp"
#include "cli/typed.hpp"
#include "units/amount.hpp"

namespace undercroft::cli {

// `command` is of role question, or begins with "calc". Returns the exit code.
[[nodiscard]] int ask(Session& session, const Command& command, const Typed& typed);

// What --gallons says; unset when it was left out.
[[nodiscard]] Result<Gallons> gallons_of(const Typed& typed);

}  // namespace undercroft::cli
