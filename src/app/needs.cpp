#include "app/needs.hpp"

#include <algorithm>

#include "ledger/replay.hpp"

namespace undercroft::app {

Needs needed_by(std::vector<ledger::Entry> entries, const std::function<bool(const ledger::EntryKey&)>& is_draft) {
    // One replay an entry found.
    constexpr std::size_t k_most = 500;
    Needs needs;
    while (needs.entries.size() < k_most) {
        const auto cellar = ledger::replay(entries, {});
        if (cellar || is_draft(cellar.error().entry)) break;
        const auto broken = std::find_if(entries.begin(), entries.end(),
                                         [&](const ledger::Entry& entry) { return entry.key == cellar.error().entry; });
        if (broken == entries.end()) break;
        needs.entries.push_back(*broken);
        // Gone, but what it replaced stays replaced.
        broken->body = ledger::Void{};
    }
    needs.all = needs.entries.size() < k_most;
    std::sort(needs.entries.begin(), needs.entries.end(),
              [](const ledger::Entry& a, const ledger::Entry& b) { return a.place < b.place; });
    return needs;
}

}  // namespace undercroft::app
