#include "api/openapi.hpp"

// Bytes of the file, in the assembly that cmake/openapi.cmake writes.
extern "C" {
extern const char openapi_begin[];
extern const char openapi_end[];
}

namespace undercroft::api {

std::string_view openapi_document() {
    return {openapi_begin, static_cast<std::size_t>(openapi_end - openapi_begin)};
}

}  // namespace undercroft::api
