// Keys of sittings for books made from a seed.
#pragma once

#include <cstdio>
#include <string>

#include "base/instant.hpp"

namespace undercroft::bench {

// A UUID of version 7 (RFC 9562) of that instant; the number stands where chance would.
inline std::string sitting_key(Instant at, unsigned number) {
    char text[64];
    const auto ms = static_cast<std::uint64_t>(at.ms);
    std::snprintf(text, sizeof text, "%08llx-%04llx-7%03x-8000-%012x", static_cast<unsigned long long>(ms >> 16U),
                  static_cast<unsigned long long>(ms & 0xFFFFU), number & 0xFFFU, number);
    return text;
}

}  // namespace undercroft::bench
