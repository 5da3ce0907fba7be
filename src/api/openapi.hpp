// The OpenAPI document (3.1) of /api/v1, joined from src/api/openapi/ by the build.
#pragma once

#include <string_view>

namespace undercroft::api {

[[nodiscard]] std::string_view openapi_document();

}  // namespace undercroft::api
