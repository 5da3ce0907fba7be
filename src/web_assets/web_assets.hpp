// The page, as the build put it into the program: every file of it, ready to be sent.
//
// Holds: path, media type, entity tag and bytes of each file, sorted by path. Built without the page
// (UNDERCROFT_WEB=OFF) the list is empty.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

namespace undercroft::web {

struct Asset {
    std::string_view path;        // "/index.html", "/assets/index-1a2b3c4d.js"
    std::string_view media_type;  // "text/html; charset=utf-8"
    std::string_view etag;        // with its quotes; of `bytes`
    std::span<const std::byte> bytes;
    std::span<const std::byte> gzip;  // RFC 1952; empty where it would save nothing (fonts, small files)
};

[[nodiscard]] std::span<const Asset> assets();

}  // namespace undercroft::web
