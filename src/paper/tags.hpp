// Tags to hang on vessels and jars: a letter to be seen from across the cellar, the name, and a code.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "paper/grid.hpp"

namespace undercroft::paper {

struct Tag {
    std::string letter;  // the vessel's tag; empty: the number its name ends with, else its first letter
    std::string name;
    std::string under;  // what it is: "solera, 220 L, north wall"
    std::string code;   // what its code says
};

// Two tags side by side and as many rows as the paper has, with cut lines and a hole. Fails: bad_input for no tag, or
// letters that cannot be printed.
[[nodiscard]] Result<std::string> tags_pdf(const std::vector<Tag>& tags, const PageSize& page,
                                           const std::string& made_on);

}  // namespace undercroft::paper
