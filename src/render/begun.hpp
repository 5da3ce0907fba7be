// The answer to beginning a book, by `init` or `demo`.
#pragma once

#include <cstdint>
#include <string>

#include "app/views.hpp"

namespace undercroft::render {

struct BegunView {
    app::BookLine book;
    std::string path;
    std::string gallons;        // "us", "imperial" or "unset"
    std::int64_t sittings = 0;  // booked at once, by the demo
};

[[nodiscard]] std::string text_of(const BegunView& view);
[[nodiscard]] std::string json_of(const BegunView& view);

}  // namespace undercroft::render
