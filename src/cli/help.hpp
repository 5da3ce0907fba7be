// The pages of help, made from the rows of command.hpp.
#pragma once

#include <string>

#include "cli/command.hpp"

namespace undercroft::cli {

[[nodiscard]] std::string help_page();
[[nodiscard]] std::string help_of(const Command& command);

}  // namespace undercroft::cli
