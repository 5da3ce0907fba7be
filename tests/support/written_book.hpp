// A book written entry by entry in a test, without drafting: what stands in it is what the test says.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ledger/entry.hpp"
#include "ledger/order.hpp"
#include "ledger/replay.hpp"

namespace undercroft::testing {

inline constexpr std::int64_t k_ms_per_day = 86'400'000;

// Noon UTC of 1 January 2020 and `days` later.
inline Instant on_day(int days) {
    constexpr std::int64_t k_first_noon_ms = 1'577'880'000'000;
    return Instant{k_first_noon_ms + days * k_ms_per_day};
}

inline std::string sitting_key(unsigned number) {
    char text[40];
    std::snprintf(text, sizeof text, "0190f3c8-0000-7000-8000-%012x", number);
    return text;
}

inline Volume litres(double value) {
    return Volume::from_litres(value);
}

class WrittenBook {
public:
    // Writes an entry in a sitting of its own; gives its key.
    ledger::EntryKey write(Instant at, ledger::Body body) {
        const ledger::EntryKey key = next_key();
        return put(key, ledger::place_at(at, key), std::move(body), std::nullopt);
    }
    // Right after `after` in the order.
    ledger::EntryKey write_after(const ledger::EntryKey& after, ledger::Body body) {
        const ledger::EntryKey key = next_key();
        return put(key, ledger::place_after(entry(after).place, key), std::move(body), std::nullopt);
    }
    // In the place of `old`.
    ledger::EntryKey correct(const ledger::EntryKey& old, ledger::Body body) {
        return put(next_key(), entry(old).place, std::move(body), old);
    }
    ledger::EntryKey strike(const ledger::EntryKey& old) { return correct(old, ledger::Void{}); }

    ledger::EntryKey vessel(Instant at, const std::string& name, double capacity, double ullage = 0.0) {
        ledger::VesselJoins body;
        body.name = name;
        body.capacity = litres(capacity);
        body.ullage = litres(ullage);
        return write(at, body);
    }
    ledger::EntryKey lot(Instant at, const ledger::EntryKey& into, const std::string& name, double volume) {
        ledger::LotEnters body;
        body.vessel = into;
        body.name = name;
        body.volume = litres(volume);
        return write(at, body);
    }
    ledger::EntryKey move(Instant at, const ledger::EntryKey& from, const ledger::EntryKey& to, double volume,
                          double loss = 0.0) {
        ledger::Move body;
        body.from = from;
        body.to = {{to, litres(volume)}};
        body.loss = litres(loss);
        return write(at, body);
    }
    ledger::EntryKey loss(Instant at, const ledger::EntryKey& from, double volume,
                          ledger::LossCause cause = ledger::LossCause::dump) {
        return write(at, ledger::Loss{from, litres(volume), cause});
    }
    ledger::EntryKey pitch(Instant at, const ledger::EntryKey& into, const std::string& name) {
        ledger::Pitch body;
        body.vessel = into;
        body.culture.name = name;
        body.culture.kind = "mixed_sour";
        return write(at, body);
    }

    [[nodiscard]] const std::vector<ledger::Entry>& entries() const { return m_entries; }
    [[nodiscard]] const ledger::Entry& entry(const ledger::EntryKey& key) const {
        for (const ledger::Entry& one : m_entries)
            if (one.key == key) return one;
        std::abort();  // the test names what it never wrote
    }
    // The cellar; it points into this book.
    [[nodiscard]] tl::expected<ledger::Cellar, ledger::ReplayFault> cellar(const ledger::Scope& scope = {}) const {
        return ledger::replay(m_entries, scope);
    }

private:
    [[nodiscard]] ledger::EntryKey next_key() const {
        return {sitting_key(static_cast<unsigned>(m_entries.size() + 1)), 0};
    }
    ledger::EntryKey put(const ledger::EntryKey& key, ledger::Place place, ledger::Body body,
                         std::optional<ledger::EntryKey> supersedes) {
        ledger::Entry entry;
        entry.key = key;
        entry.recorded = place.at;
        entry.place = std::move(place);
        entry.supersedes = std::move(supersedes);
        entry.body = std::move(body);
        entry.sequence = static_cast<std::int64_t>(m_entries.size() + 1);
        m_entries.push_back(std::move(entry));
        return key;
    }

    std::vector<ledger::Entry> m_entries;
};

// What stands in a vessel, by its name; the newest of that name.
inline const ledger::VesselState& vessel_named(const ledger::Cellar& cellar, const std::string& name) {
    for (auto vessel = cellar.vessels.rbegin(); vessel != cellar.vessels.rend(); ++vessel)
        if (vessel->as.name == name) return *vessel;
    std::abort();
}

// Share of the lot of that name in a liquid.
inline double share_of(const ledger::Cellar& cellar, const ledger::Liquid& liquid, const std::string& lot) {
    const std::vector<double> shares = cellar.shares(liquid);
    double sum = 0.0;
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (cellar.lots[i].name == lot) sum += shares[i];
    return sum;
}

}  // namespace undercroft::testing
