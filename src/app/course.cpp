#include "app/course.hpp"

#include <algorithm>
#include <limits>

namespace undercroft::app {
namespace {

using ledger::Chains;
using ledger::Entry;

constexpr std::size_t k_most_checkpoints = 8;
constexpr std::size_t k_recent = 3;

bool counts(const Chains& chains, int number) {
    return chains.next_of(number) == Chains::k_none && !std::holds_alternative<ledger::Void>(chains.entry(number).body);
}

template <class Map>
void drop_from(Map& map, std::size_t entries) {
    map.erase(map.upper_bound(entries), map.end());
}

}  // namespace

Course::Course(std::span<const Entry> entries, std::size_t way_back) : m_way_back(way_back) {
    std::vector<const Entry*> all;
    all.reserve(entries.size());
    for (const Entry& entry : entries) all.push_back(&entry);
    add(all);
}

void Course::add(std::span<const Entry* const> more) {
    if (const auto added = m_chains->add(more); !added)
        m_broken = added.error();
    else
        take_in(more);
}

Course Course::with(std::span<const Entry* const> drafts) const {
    Course result = *this;
    result.m_habit = Checkpoints::borrowed;
    result.m_chains = std::make_shared<Chains>(*m_chains);
    result.add(drafts);
    return result;
}

void Course::take_in(std::span<const Entry* const> more) {
    const auto before = [](const Entry* a, const Entry* b) { return a->place < b->place; };
    std::size_t same = m_live.size();  // so many live entries stay as they are
    std::vector<const Entry*> fresh;
    for (const Entry* entry : more) {
        if (entry->supersedes) {
            const Entry* gone = m_chains->find(*entry->supersedes);
            const auto spot = std::lower_bound(m_live.begin(), m_live.end(), gone, before);
            if (spot != m_live.end() && *spot == gone) {
                same = std::min(same, static_cast<std::size_t>(spot - m_live.begin()));
                m_live.erase(spot);
            }
        }
        if (counts(*m_chains, m_chains->number_of(entry->key))) fresh.push_back(entry);
    }
    ledger::sort_by_place(fresh);
    if (!fresh.empty()) {
        const auto spot = std::upper_bound(m_live.begin(), m_live.end(), fresh.front(), before);
        same = std::min(same, static_cast<std::size_t>(spot - m_live.begin()));
        const auto old = static_cast<std::ptrdiff_t>(m_live.size());
        m_live.insert(m_live.end(), fresh.begin(), fresh.end());
        std::inplace_merge(m_live.begin(), m_live.begin() + old, m_live.end(), before);
    }
    drop_from(m_checkpoints, same);
    drop_from(m_recent, same);
}

std::size_t Course::entries_in(const ledger::Scope& scope) const {
    const auto end = std::partition_point(
        m_live.begin(), m_live.end(), [&scope](const Entry* entry) { return ledger::reaches(scope, entry->place); });
    return static_cast<std::size_t>(end - m_live.begin());
}

std::size_t Course::next_checkpoint(std::size_t entries) const {
    std::size_t next = m_live.size();
    if (m_habit == Checkpoints::borrowed) return next;
    for (std::size_t back = m_way_back; back < m_live.size() && m_live.size() - back > entries; back *= 4)
        next = m_live.size() - back;
    return next;
}

Course::Kept Course::taken_up(std::size_t entries) {
    const auto newest_in = [entries](auto& map) { return map.upper_bound(entries); };
    const auto checkpoint = newest_in(m_checkpoints);
    const auto recent = newest_in(m_recent);
    const bool has_checkpoint = checkpoint != m_checkpoints.begin();
    const bool has_recent = recent != m_recent.begin();
    Kept found;
    if (has_recent && (!has_checkpoint || std::prev(checkpoint)->first <= std::prev(recent)->first)) {
        found = std::prev(recent)->second;
        if (found.use_count() == 2) {  // nobody else looks at it: it need not be copied
            m_recent.erase(std::prev(recent));
            found->cellar.chains = m_chains;
            return found;
        }
    } else if (has_checkpoint) {
        found = std::prev(checkpoint)->second;
    }
    auto own = found ? std::make_shared<Standing>(*found) : std::make_shared<Standing>();
    own->cellar.chains = m_chains;
    return own;
}

void Course::keep_checkpoint(std::size_t entries, const Standing& standing) {
    m_checkpoints.insert_or_assign(entries, std::make_shared<Standing>(standing));
    if (m_checkpoints.size() <= k_most_checkpoints) return;
    // The one that is missed least: without it the way back from the next to the one before grows by the least factor.
    const auto way_back = [this](auto checkpoint) {
        return static_cast<double>(m_live.size() - checkpoint->first + 1);
    };
    auto least = m_checkpoints.begin();
    double least_factor = std::numeric_limits<double>::infinity();
    for (auto one = m_checkpoints.begin(); std::next(one) != m_checkpoints.end(); ++one) {
        const double before =
            one == m_checkpoints.begin() ? static_cast<double>(m_live.size() + 1) : way_back(std::prev(one));
        const double factor = before / way_back(std::next(one));
        if (factor < least_factor) {
            least_factor = factor;
            least = one;
        }
    }
    m_checkpoints.erase(least);
}

void Course::keep_recent(std::size_t entries, Kept standing) {
    m_recent.insert_or_assign(entries, std::move(standing));
    // Those furthest back are asked for least.
    while (m_recent.size() > k_recent) m_recent.erase(m_recent.begin());
}

tl::expected<std::shared_ptr<const Standing>, ledger::ReplayFault> Course::at(const ledger::Scope& scope) {
    if (m_broken) return tl::unexpected(*m_broken);
    const std::size_t wanted = entries_in(scope);
    const auto known = m_recent.find(wanted);
    if (known != m_recent.end() && known->second->cellar.chains == m_chains) return known->second;
    Kept standing = taken_up(wanted);
    ledger::Cellar& cellar = standing->cellar;
    while (cellar.entries.size() < wanted) {
        const std::size_t stop = std::min(wanted, next_checkpoint(cellar.entries.size()));
        const auto next = std::span{m_live}.subspan(cellar.entries.size(), stop - cellar.entries.size());
        if (auto done = ledger::replay_on(cellar, next); !done) return tl::unexpected(done.error());
        engine::follow(standing->states, cellar);
        if (stop < wanted) keep_checkpoint(stop, *standing);
    }
    // A book that has grown much since the last one.
    const std::size_t last = m_checkpoints.empty() ? 0 : m_checkpoints.rbegin()->first;
    if (m_habit == Checkpoints::kept && wanted > last + 2 * std::max(m_way_back, m_live.size() / k_most_checkpoints))
        keep_checkpoint(wanted, *standing);
    keep_recent(wanted, standing);
    return standing;
}

}  // namespace undercroft::app
