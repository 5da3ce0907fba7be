// Books that could have been written: every entry in them was possible when it was added.
#pragma once

#include <vector>

#include "ledger/replay.hpp"
#include "tests/properties/split_mix.hpp"

namespace undercroft::testing {

class RandomBook {
public:
    explicit RandomBook(std::uint64_t seed) : m_random(seed) {}

    // Adds acts until the book holds `entries` of them.
    void grow(std::size_t entries);
    [[nodiscard]] const std::vector<ledger::Entry>& entries() const { return m_entries; }
    SplitMix64& random() { return m_random; }

    // Index of an entry that counts, other than notes: something worth correcting.
    [[nodiscard]] std::size_t any_live();
    // A correction of `entries()[target]` with this body, in its place; not in the book yet.
    [[nodiscard]] ledger::Entry correction_of(const ledger::Entry& target, ledger::Body body, unsigned number) const;

private:
    ledger::Body some_body(const ledger::Cellar& cellar);
    ledger::Body some_vessel();
    ledger::GearNames some_gear();
    ledger::Body some_care(const ledger::Cellar& cellar);
    ledger::Body some_treatment(const ledger::Cellar& cellar);
    ledger::Body some_confirmation(const ledger::Cellar& cellar);
    ledger::Body some_lot(const ledger::Cellar& cellar);
    ledger::Body some_move(const ledger::Cellar& cellar);
    ledger::Body some_addition(const ledger::Cellar& cellar);
    ledger::Body some_package(const ledger::Cellar& cellar);
    ledger::Body some_take(const ledger::Cellar& cellar);
    ledger::Body some_settle(const ledger::Cellar& cellar);
    ledger::Body some_look(const ledger::Cellar& cellar);
    ledger::Body other_than(ledger::Body body);

    ledger::EntryKey some_vessel_key(const ledger::Cellar& cellar, bool with_liquid);
    Volume part_of(Volume most);
    std::vector<ledger::Culture> some_cultures();
    std::vector<ledger::Allergen> some_allergens();
    bool keep_if_possible(ledger::Entry entry);

    SplitMix64 m_random;
    std::vector<ledger::Entry> m_entries;
    std::int64_t m_days = 0;
    unsigned m_names = 0;
};

}  // namespace undercroft::testing
