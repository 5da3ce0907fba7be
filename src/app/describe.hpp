// Entries and faults of the book in the keeper's words.
#pragma once

#include <string>
#include <vector>

#include "app/views.hpp"
#include "ledger/journal.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {

// What is needed to put an entry into words.
struct Telling {
    const ledger::Chains& chains;  // of all entries, booked and drafted
    const std::vector<ledger::Person>& persons;
    const Zone& zone;
    VolumeUnit unit = VolumeUnit::litres;

    // Name of the vessel or run behind a key: that of the newest entry of its chain.
    [[nodiscard]] std::string name_of(const ledger::EntryKey& key) const;
    // "pulls 18 L from The Amber into Jar 23"
    [[nodiscard]] std::string sentence(const ledger::Entry& entry) const;
    [[nodiscard]] EntryLine line(const ledger::Entry& entry) const;
    // The short number of the entry with that key, 0 for a draft or a key that is not there.
    [[nodiscard]] std::int64_t number_of(const ledger::EntryKey& key) const;
    [[nodiscard]] std::string day_text(Instant instant) const;
    [[nodiscard]] std::string time_text(Instant instant) const;
    [[nodiscard]] std::string volume(Volume value) const;

    // Why the book cannot be so. `drafted` tells whether the entry at fault is what the keeper is booking
    // now, or a later one that it would break.
    [[nodiscard]] Error error_of(const ledger::ReplayFault& fault, bool drafted) const;
};

// "upright, 42 cm high inside; tare 12 kg"; empty when nobody measured it.
[[nodiscard]] std::string gauge_text(const ledger::Gauge& gauge);

}  // namespace undercroft::app
