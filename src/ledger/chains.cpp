#include "ledger/chains.hpp"

#include <bit>
#include <functional>
#include <string_view>

namespace undercroft::ledger {
namespace {

std::size_t hash_of(const EntryKey& key) {
    const std::size_t sitting = std::hash<std::string_view>{}(key.sitting);
    return sitting ^ (static_cast<std::size_t>(key.index) * 0x9E3779B97F4A7C15U);
}

ReplayFault broken(const Entry& entry, const EntryKey& target) {
    return ReplayFault{FaultKind::broken_chain, entry.key, target.text(), {}, {}, 0, 0};
}

}  // namespace

std::size_t Chains::slot_of(const EntryKey& key) const {
    const std::size_t mask = m_slots.size() - 1;
    std::size_t slot = hash_of(key) & mask;
    while (m_slots[slot] != k_none && m_links[at(m_slots[slot])].entry->key != key) slot = (slot + 1) & mask;
    return slot;
}

void Chains::enter(int number) {
    int& slot = m_slots[slot_of(entry(number).key)];
    if (slot == k_none) slot = number;
}

void Chains::make_room(std::size_t entries) {
    m_links.reserve(entries);
    const std::size_t slots = std::bit_ceil(entries * 2 + 1);
    if (slots <= m_slots.size()) return;
    m_slots.assign(slots, k_none);
    for (std::size_t i = 0; i < m_links.size(); ++i) enter(static_cast<int>(i));
}

int Chains::number_of(const EntryKey& key) const {
    return m_slots.empty() ? k_none : m_slots[slot_of(key)];
}

const Entry* Chains::find(const EntryKey& key) const {
    const int number = number_of(key);
    return number == k_none ? nullptr : &entry(number);
}

const Entry* Chains::superseding(const EntryKey& key) const {
    const int number = number_of(key);
    const int next = number == k_none ? k_none : next_of(number);
    return next == k_none ? nullptr : &entry(next);
}

tl::expected<void, ReplayFault> Chains::find_first(int number) {
    int first = number;
    std::size_t steps = 0;
    while (m_links[at(first)].first == k_none && entry(first).supersedes) {
        first = number_of(*entry(first).supersedes);
        if (++steps > m_links.size()) return tl::unexpected(broken(entry(number), entry(number).key));
    }
    m_links[at(number)].first = m_links[at(first)].first == k_none ? first : m_links[at(first)].first;
    return {};
}

tl::expected<void, ReplayFault> Chains::add(std::span<const Entry* const> entries) {
    const auto begin = static_cast<int>(m_links.size());
    make_room(m_links.size() + entries.size());
    for (const Entry* one : entries) {
        m_links.push_back({one, k_none, k_none});
        enter(static_cast<int>(m_links.size()) - 1);
    }
    const auto end = static_cast<int>(m_links.size());
    for (int number = begin; number < end; ++number) {
        const Entry& one = entry(number);
        if (!one.supersedes) continue;
        const int target = number_of(*one.supersedes);
        if (target == k_none || next_of(target) != k_none) return tl::unexpected(broken(one, *one.supersedes));
        m_links[at(target)].next = number;
    }
    for (int number = begin; number < end; ++number)
        if (auto found = find_first(number); !found) return found;
    return {};
}

Chains chains_of(std::span<const Entry> entries) {
    std::vector<const Entry*> all;
    all.reserve(entries.size());
    for (const Entry& entry : entries) all.push_back(&entry);
    Chains chains;
    static_cast<void>(chains.add(all));
    return chains;
}

}  // namespace undercroft::ledger
