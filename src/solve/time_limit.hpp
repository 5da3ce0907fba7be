// When a search that was given so many seconds is over. For the .cpp files of this folder.
//
// It is the vendor's clock, as in its own searches: a limit is all that a clock is for here.
#pragma once

#include "solve/mip.hpp"

namespace undercroft::solve {

class TimeLimit {
public:
    explicit TimeLimit(const Effort& effort);
    // Out of time, or given up by whoever asked.
    [[nodiscard]] bool over() const;

private:
    const Effort& m_effort;
    double m_end;
};

}  // namespace undercroft::solve
