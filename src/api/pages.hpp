// The page itself: files that are built into the program.
#pragma once

#include <span>

#include "api/http.hpp"
#include "api/target.hpp"
#include "web_assets/web_assets.hpp"

namespace undercroft::api {

// A file, index.html for an address without an ending (the page's own rooms), or 404. Files with their hash in the name
// (below /assets/) are kept by the browser for good; all others are asked for again.
[[nodiscard]] Answer page_of(const Request& request, const Target& target, std::span<const web::Asset> assets);

}  // namespace undercroft::api
