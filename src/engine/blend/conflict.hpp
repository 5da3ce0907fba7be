// Which limits contradict each other, and how near one comes to what was asked.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/blend/problem.hpp"

namespace undercroft::engine::blend {

struct Conflict {
    std::vector<std::string> limits;  // the fewest that cannot all hold; none: the stocks themselves do not suffice
    std::string figure;               // of one of them, whose nearest is told; empty: none has a figure
    std::optional<double> nearest;    // that it comes to with the others kept
    [[nodiscard]] std::string words() const;
};

// Nothing where the limits can all hold. Up to three limits are found as the fewest there are; of more, one set none of
// which can be spared.
[[nodiscard]] Result<std::optional<Conflict>> conflict_of(const Problem& problem);

}  // namespace undercroft::engine::blend
