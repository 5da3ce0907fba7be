// Which entry a key names, and the chains that corrections make: found by number instead of by text.
//
// Holds: entries are numbered 0, 1, 2, … as they are added and must stay where they are. What an entry names
// stands for its whole chain: a vessel whose name was corrected is still the same vessel.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include <tl/expected.hpp>

#include "ledger/entry.hpp"
#include "ledger/fault.hpp"

namespace undercroft::ledger {

class Chains {
public:
    static constexpr int k_none = -1;

    // Adds entries, in any order. Faults: one that supersedes an entry which is not there, or is superseded already.
    [[nodiscard]] tl::expected<void, ReplayFault> add(std::span<const Entry* const> entries);

    [[nodiscard]] std::size_t size() const { return m_links.size(); }
    [[nodiscard]] const Entry& entry(int number) const { return *m_links[at(number)].entry; }
    // k_none for a key that is not there.
    [[nodiscard]] int number_of(const EntryKey& key) const;
    // The first entry of the chain.
    [[nodiscard]] int first_of(int number) const { return m_links[at(number)].first; }
    // The entry that supersedes it, k_none when none does.
    [[nodiscard]] int next_of(int number) const { return m_links[at(number)].next; }

    // The same by key; nullptr when there is none.
    [[nodiscard]] const Entry* find(const EntryKey& key) const;
    [[nodiscard]] const Entry* superseding(const EntryKey& key) const;
    // Number of the first entry of the chain that `key` belongs to; k_none for a key that is not there.
    [[nodiscard]] int first_of(const EntryKey& key) const {
        const int number = number_of(key);
        return number == k_none ? k_none : first_of(number);
    }

private:
    struct Link {
        const Entry* entry = nullptr;
        int first = k_none;
        int next = k_none;
    };
    static std::size_t at(int number) { return static_cast<std::size_t>(number); }
    void make_room(std::size_t entries);
    void enter(int number);
    [[nodiscard]] std::size_t slot_of(const EntryKey& key) const;
    [[nodiscard]] tl::expected<void, ReplayFault> find_first(int number);

    std::vector<Link> m_links;
    std::vector<int> m_slots;  // open addressing: numbers by hash of the key; a power of two of them
};

// Of a whole book, to look entries up in: broken chains are left as far as they go.
[[nodiscard]] Chains chains_of(std::span<const Entry> entries);

}  // namespace undercroft::ledger
