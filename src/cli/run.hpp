// The command line: arguments in, an answer on the streams, and an exit code.
#pragma once

#include <string>
#include <vector>

#include "cli/host.hpp"

namespace undercroft::cli {

// `arguments` without the program's name. Everything input can break is answered; what is thrown is a bug.
[[nodiscard]] int run(const std::vector<std::string>& arguments, Host& host);

}  // namespace undercroft::cli
