// Acts and sittings as JSON, both ways.
#pragma once

#include <string>

#include "api/fields.hpp"
#include "app/book.hpp"

namespace undercroft::api {

// `where`: its place in the body, "acts[0]".
[[nodiscard]] Result<app::Act> act_from(const Json& json, const std::string& where);
// What act_from() reads back as the same act; a picture is left out.
[[nodiscard]] Json json_of(const app::Act& act);
[[nodiscard]] std::vector<std::string> act_words();

// What a POST to /sittings may hold.
struct PostedSitting {
    app::SittingRequest request;
    std::optional<app::Expected> expected;
};
[[nodiscard]] Result<PostedSitting> sitting_from(const Json& body);

}  // namespace undercroft::api
