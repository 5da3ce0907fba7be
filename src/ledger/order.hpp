// The order of the book, and which of its entries count.
//
// Holds: order is a stored total key (Place: instant, then path), so the order in which entries reached
// the journal never matters. A superseded or voided entry does not count; its replacement stands at the
// place it states, which is the old one's unless the keeper said otherwise. Whatever names an entry names
// its whole chain: a vessel whose name was corrected is still the same vessel.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/instant.hpp"
#include "ledger/entry.hpp"
#include "ledger/fault.hpp"

namespace undercroft::ledger {

// Which part of the book to look at.
struct Scope {
    std::optional<Instant> until;     // entries that happened up to here (`--on`)
    std::optional<Place> before;      // entries that stand before this place in the order
    std::optional<Instant> known_on;  // only what was recorded by then (`--known-on`); drafts always count
};

struct OrderedBook {
    std::vector<const Entry*> live;  // in order; points into the span it was made from
    // Key text of any entry -> key text of the first entry of its chain.
    std::unordered_map<std::string, std::string> root;
    // Key text of any entry -> key text of the entry that supersedes it.
    std::unordered_map<std::string, std::string> superseded_by;
};

// Sorts and resolves chains. Faults: a chain that names an entry that is not there, or two entries that
// supersede the same one.
[[nodiscard]] tl::expected<OrderedBook, ReplayFault> in_order(std::span<const Entry> entries, const Scope& scope);

// Place for an entry that should come right after `after`.
[[nodiscard]] Place place_after(const Place& after, const EntryKey& own);
// Place for an entry of its own.
[[nodiscard]] Place place_at(Instant at, const EntryKey& own);

}  // namespace undercroft::ledger
