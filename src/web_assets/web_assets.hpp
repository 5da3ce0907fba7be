// The built page, as bytes in the binary.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

namespace undercroft::web {

struct Asset {
    std::string_view path;        // "/index.html"
    std::string_view media_type;  // "text/html; charset=utf-8"
    std::string_view etag;        // in its quotes
    std::span<const std::byte> bytes;
    std::span<const std::byte> gzip;  // the same, packed; empty where that gains nothing
};

// Empty when the page was not built in.
[[nodiscard]] std::span<const Asset> assets();

}  // namespace undercroft::web
