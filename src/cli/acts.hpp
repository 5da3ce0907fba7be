// What the words of one act ask for, as requests of `app`: one grammar for the command line and for lines read.
//
// Holds: amounts, days and names stay text; `app` reads them. Only what the form of a command settles is refused here.
#pragma once

#include <vector>

#include "app/act.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {

// One command of role `act`, except "correct"; several acts when it is booked as several entries (blend).
[[nodiscard]] Result<std::vector<app::Act>> acts_of(const Command& command, const Typed& typed);

}  // namespace undercroft::cli
