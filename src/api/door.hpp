// Who may come in at all: only a page of this very server, or a program on this machine that names it by its own name.
//
// Holds: a foreign page cannot read or book, not even by a name that is made to point here (DNS rebinding): the Host
// must be this server's, and where a browser says which page asks (Origin), it must be one of ours.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "api/http.hpp"
#include "base/result.hpp"

namespace undercroft::api {

[[nodiscard]] Result<void> check_door(const Request& request, int port);

// Sent with every answer: nothing but the page's own files is ever loaded or run, and nobody frames it.
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& standing_headers();

}  // namespace undercroft::api
