// What a late entry or a correction changed today beyond the vessels it names, and which findings it opened or ended
// (DESIGN 5, rules 8 and 9).
//
// Holds: it is the difference of two full replays of the book, without the sitting and with it.
#pragma once

#include <functional>

#include "app/views_of.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// Vessels and runs that differ, but for those that `is_told` says are shown already, by key of the vessel's or run's
// first entry. A make-up differs when a share moved by more than 0.1 point.
[[nodiscard]] std::vector<Change> moved_between(const Seen& before, const Seen& after,
                                                const std::function<bool(const ledger::EntryKey&)>& is_told);

struct FindingNews {
    std::vector<FindingView> opened;
    std::vector<FindingView> closed;
};
[[nodiscard]] FindingNews finding_news(const Seen& before, const Seen& after, const tables::Tables& tables,
                                       Gallons gallons);

}  // namespace undercroft::app
