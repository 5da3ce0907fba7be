// The table that cmake/embed_web.cmake writes.
#pragma once

#include <span>

#include "web_assets/web_assets.hpp"

namespace undercroft::web {

[[nodiscard]] std::span<const Asset> built_page();

}  // namespace undercroft::web
