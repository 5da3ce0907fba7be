#include "ledger/order.hpp"

#include <algorithm>

namespace undercroft::ledger {

Place place_at(Instant at, const EntryKey& own) {
    return Place{at, own.text()};
}

Place place_after(const Place& after, const EntryKey& own) {
    return Place{after.at, after.path + "/" + own.text()};
}

bool reaches(const Scope& scope, const Place& place) {
    return !(scope.until && place.at > *scope.until) && !(scope.before && !(place < *scope.before));
}

void sort_by_place(std::vector<const Entry*>& entries) {
    const auto before = [](const Entry* a, const Entry* b) { return a->place < b->place; };
    std::vector<const Entry*> in_place;
    std::vector<const Entry*> late;
    in_place.reserve(entries.size());
    for (const Entry* entry : entries) {
        const bool follows = in_place.empty() || !before(entry, in_place.back());
        (follows ? in_place : late).push_back(entry);
    }
    std::sort(late.begin(), late.end(), before);
    std::merge(in_place.begin(), in_place.end(), late.begin(), late.end(), entries.begin(), before);
}

tl::expected<OrderedBook, ReplayFault> in_order(std::span<const Entry> entries, const Scope& scope) {
    std::vector<const Entry*> all;
    all.reserve(entries.size());
    for (const Entry& entry : entries) all.push_back(&entry);
    return in_order(all, scope);
}

tl::expected<OrderedBook, ReplayFault> in_order(std::span<const Entry* const> entries, const Scope& scope) {
    std::vector<const Entry*> known;
    known.reserve(entries.size());
    for (const Entry* entry : entries) {
        const bool drafted = entry->sequence == 0;
        if (scope.known_on && !drafted && entry->recorded > *scope.known_on) continue;
        known.push_back(entry);
    }
    auto chains = std::make_shared<Chains>();
    if (const auto added = chains->add(known); !added) return tl::unexpected(added.error());
    OrderedBook book;
    for (std::size_t i = 0; i < known.size(); ++i) {
        const bool counts =
            chains->next_of(static_cast<int>(i)) == Chains::k_none && !std::holds_alternative<Void>(known[i]->body);
        if (counts && reaches(scope, known[i]->place)) book.live.push_back(known[i]);
    }
    sort_by_place(book.live);
    book.chains = std::move(chains);
    return book;
}

}  // namespace undercroft::ledger
