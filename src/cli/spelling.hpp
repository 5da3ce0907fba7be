// Acts in the spelling of the command line: what is shown can be typed, and books the same.
#pragma once

#include <string>

#include "app/act.hpp"

namespace undercroft::cli {

// Without the program's name: `read "The Amber" 1.008 --ph 3.42`. For every act but a correction, which has no line
// of its own here; it comes out empty.
[[nodiscard]] std::string spelling_of(const app::Act& act);
// A word as split_line reads it back, in quotes where it needs them.
[[nodiscard]] std::string spelled(const std::string& word);

}  // namespace undercroft::cli
