// The head of every answer, from the facts of a book.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "app/views.hpp"
#include "base/instant.hpp"
#include "ledger/journal.hpp"

namespace undercroft::app {

// What volumes of this book are shown in.
[[nodiscard]] inline VolumeUnit unit_of(const ledger::BookFacts& facts) {
    switch (facts.gallons) {
        case Gallons::us:
            return VolumeUnit::us_gallons;
        case Gallons::imperial:
            return VolumeUnit::imperial_gallons;
        case Gallons::unset:
            break;
    }
    return VolumeUnit::litres;
}

[[nodiscard]] inline BookLine line_of(const ledger::Journal& journal, std::int64_t sequence) {
    const ledger::BookFacts& facts = journal.facts();
    return {facts.name, facts.zone, facts.invented, journal.read_only(), sequence, unit_of(facts)};
}

// The same with what is left out of a newer book. `entries` are all of the book, in order of arrival.
[[nodiscard]] inline BookLine line_of(const ledger::Journal& journal, const std::vector<ledger::Entry>& entries,
                                      const Zone& zone) {
    BookLine line = line_of(journal, entries.empty() ? 0 : entries.back().sequence);
    std::optional<Instant> since;
    for (const ledger::Entry& entry : entries) {
        if (!std::holds_alternative<ledger::Unknown>(entry.body)) continue;
        ++line.skipped;
        since = std::min(since.value_or(entry.at()), entry.at());
    }
    if (since) line.skipped_since = iso_text(day_of(*since, zone));
    return line;
}

[[nodiscard]] inline bool holds_unknown(const std::vector<ledger::Entry>& entries) {
    return std::any_of(entries.begin(), entries.end(),
                       [](const ledger::Entry& entry) { return std::holds_alternative<ledger::Unknown>(entry.body); });
}

}  // namespace undercroft::app
