// Books as a keeper would have written them over thirty years, made from a seed. All of it is invented.
//
// Holds: the book is possible (it replays); the same arguments give the same book. Ten vessels of the cellar
// are founded for every 20,000 entries, so a book of a million is that of fifty such cellars under one roof.
#pragma once

#include <vector>

#include "ledger/journal.hpp"

namespace undercroft::bench {

// Sittings in the order they were booked, at least `entries` entries in them; ends on `last`.
[[nodiscard]] std::vector<ledger::Sitting> keeper_book(std::size_t entries, Instant last, std::uint64_t seed = 1);

// All their entries, numbered and recorded when they happened.
[[nodiscard]] std::vector<ledger::Entry> booked(const std::vector<ledger::Sitting>& sittings);

}  // namespace undercroft::bench
