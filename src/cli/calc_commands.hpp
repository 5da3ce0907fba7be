// Sums of chemistry without a book.
#pragma once

#include <optional>

#include "cli/session.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {

// Exit code, or nothing when `command` is none of these. Outside the range of a formula it is that of bad input.
[[nodiscard]] std::optional<int> calculate_chemistry(Session& session, const Command& command, const Typed& typed);

}  // namespace undercroft::cli
