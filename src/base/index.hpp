// Numbers of vessels, runs, lots and entries are ints, -1 for none; lists want an unsigned place.
#pragma once

#include <cstddef>

namespace undercroft {

// `index` is not below 0.
[[nodiscard]] constexpr std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

}  // namespace undercroft
