// The order of the book, and which of its entries count.
//
// Holds: order is a stored total key (Place: instant, then path), so the order in which entries reached
// the journal never matters. A superseded or voided entry does not count; its replacement stands at the
// place it states, which is the old one's unless the keeper said otherwise. Whatever names an entry names
// its whole chain: a vessel whose name was corrected is still the same vessel.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "base/instant.hpp"
#include "ledger/chains.hpp"
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
    std::shared_ptr<const Chains> chains;
};

// Sorts and resolves chains. Faults: a chain that names an entry that is not there, or two entries that
// supersede the same one.
[[nodiscard]] tl::expected<OrderedBook, ReplayFault> in_order(std::span<const Entry> entries, const Scope& scope);
[[nodiscard]] tl::expected<OrderedBook, ReplayFault> in_order(std::span<const Entry* const> entries,
                                                              const Scope& scope);

// As far as `scope` looks: whether a live entry at this place is part of it.
[[nodiscard]] bool reaches(const Scope& scope, const Place& place);
// Sorts entries by place. Quick when most of them are in order already, as a journal's are.
void sort_by_place(std::vector<const Entry*>& entries);

// Place for an entry that should come right after `after`.
[[nodiscard]] Place place_after(const Place& after, const EntryKey& own);
// Place for an entry of its own.
[[nodiscard]] Place place_at(Instant at, const EntryKey& own);

}  // namespace undercroft::ledger
