#include "app/needs.hpp"

#include <algorithm>
#include <deque>

namespace undercroft::app {

Needs needed_by(Course course, const std::function<bool(const ledger::EntryKey&)>& is_draft) {
    // One replay an entry found.
    constexpr std::size_t k_most = 500;
    Needs needs;
    std::deque<ledger::Entry> gone;  // where they are, they stay
    while (needs.entries.size() < k_most) {
        const auto standing = course.at({});
        if (standing || is_draft(standing.error().entry)) break;
        const ledger::Entry* broken = course.chains().find(standing.error().entry);
        if (broken == nullptr) break;
        needs.entries.push_back(broken);
        // Gone, but what it replaced stays replaced.
        ledger::Entry& out = gone.emplace_back();
        out.key = {"", static_cast<int>(gone.size())};
        out.place = broken->place;
        out.supersedes = broken->key;
        out.body = ledger::Void{};
        const ledger::Entry* const last = &out;
        course = course.with({&last, 1});
    }
    needs.all = needs.entries.size() < k_most;
    std::sort(needs.entries.begin(), needs.entries.end(),
              [](const ledger::Entry* a, const ledger::Entry* b) { return a->place < b->place; });
    return needs;
}

}  // namespace undercroft::app
