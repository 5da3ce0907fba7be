// "Did you mean": the names nearest to what was typed.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace undercroft {

// Least number of insertions, deletions and replacements of bytes, and swaps of neighbours, that
// turn one into the other; ASCII case does not count.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

// At most `most` of `names`, nearest first, equals in the order given, each name once. A name that holds
// what was typed as a part ("cherry", "sour cherry") counts as near; what is more than half wrong is left out.
[[nodiscard]] std::vector<std::string> nearest_names(std::string_view wanted, const std::vector<std::string>& names,
                                                     std::size_t most);

}  // namespace undercroft
