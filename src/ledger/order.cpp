#include "ledger/order.hpp"

#include <algorithm>

namespace undercroft::ledger {

Place place_at(Instant at, const EntryKey& own) {
    return Place{at, own.text()};
}

Place place_after(const Place& after, const EntryKey& own) {
    return Place{after.at, after.path + "/" + own.text()};
}

tl::expected<OrderedBook, ReplayFault> in_order(std::span<const Entry> entries, const Scope& scope) {
    OrderedBook book;
    std::vector<const Entry*> known;
    known.reserve(entries.size());
    std::unordered_map<std::string, const Entry*> by_key;
    by_key.reserve(entries.size());
    for (const Entry& entry : entries) {
        const bool drafted = entry.sequence == 0;
        if (scope.known_on && !drafted && entry.recorded > *scope.known_on) continue;
        known.push_back(&entry);
        by_key.emplace(entry.key.text(), &entry);
    }
    for (const Entry* entry : known) {
        if (!entry->supersedes) continue;
        const std::string target = entry->supersedes->text();
        const bool first = by_key.contains(target) && book.superseded_by.emplace(target, entry->key.text()).second;
        if (!first) return tl::unexpected(ReplayFault{FaultKind::broken_chain, entry->key, target, {}, {}, 0, 0});
    }
    book.root.reserve(known.size());
    for (const Entry* entry : known) {
        const Entry* first = entry;
        std::size_t steps = 0;
        while (first->supersedes) {
            first = by_key.at(first->supersedes->text());
            if (++steps > known.size())
                return tl::unexpected(
                    ReplayFault{FaultKind::broken_chain, entry->key, entry->key.text(), {}, {}, 0, 0});
        }
        book.root.emplace(entry->key.text(), first->key.text());
    }
    for (const Entry* entry : known) {
        if (std::holds_alternative<Void>(entry->body) || book.superseded_by.contains(entry->key.text())) continue;
        if (scope.until && entry->place.at > *scope.until) continue;
        if (scope.before && !(entry->place < *scope.before)) continue;
        book.live.push_back(entry);
    }
    std::sort(book.live.begin(), book.live.end(), [](const Entry* a, const Entry* b) { return a->place < b->place; });
    return book;
}

}  // namespace undercroft::ledger
