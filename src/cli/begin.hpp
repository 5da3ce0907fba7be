// Beginning a book: an empty one, or the invented demo cellar.
#pragma once

#include "cli/session.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {

// `init` and `demo`. Return the exit code.
[[nodiscard]] int begin_book(Session& session, const Typed& typed);
[[nodiscard]] int write_demo(Session& session, const Typed& typed);

}  // namespace undercroft::cli
