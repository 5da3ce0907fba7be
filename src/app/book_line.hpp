// The head of every answer, from the facts of a book.
#pragma once

#include <cstdint>

#include "app/views.hpp"
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

}  // namespace undercroft::app
