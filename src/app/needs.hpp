// Which entries could not stand any more if a correction were booked (DESIGN 5, rule 7).
#pragma once

#include <functional>
#include <vector>

#include "app/course.hpp"

namespace undercroft::app {

struct Needs {
    std::vector<const ledger::Entry*> entries;  // in the order of the book
    bool all = true;                            // false: there are more than can be listed in good time
};

// `course` is of the book with the correction drafted. An entry is on the list when it does not fit, or does not fit
// once those before it on the list are gone: with all of them gone the correction could be booked.
[[nodiscard]] Needs needed_by(Course course, const std::function<bool(const ledger::EntryKey&)>& is_draft);

}  // namespace undercroft::app
