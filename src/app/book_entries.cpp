// Entries of the book, one by one.
#include <algorithm>

#include "app/bodies.hpp"
#include "app/book_look.hpp"
#include "app/retold.hpp"
#include "base/letters.hpp"
#include "ledger/references.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

bool is_entry_number(const std::string& text) {
    const std::string_view digits = std::string_view(text).substr(text.starts_with('#') ? 1 : 0);
    return !digits.empty() && digits.find_first_not_of("0123456789") == std::string_view::npos;
}

// An entry with all that it replaced and that replaced it, newest first.
std::vector<const ledger::Entry*> chain_of(const ledger::Chains& chains, const ledger::Entry& one) {
    std::vector<const ledger::Entry*> chain;
    const ledger::Entry* oldest = &chains.entry(chains.first_of(chains.number_of(one.key)));
    for (const auto* entry = oldest; entry != nullptr; entry = chains.superseding(entry->key)) chain.push_back(entry);
    std::reverse(chain.begin(), chain.end());
    return chain;
}

// Blanks part words.
std::vector<std::string> words_by_blanks(const std::string& text) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : lower(text) + " ") {
        if (c != ' ') {
            word += c;
        } else if (!word.empty()) {
            words.push_back(word);
            word.clear();
        }
    }
    return words;
}

bool says(const EntryLine& line, const std::vector<std::string>& words) {
    const std::string said = lower(line.text + " " + line.by + " " + line.reason);
    return std::all_of(words.begin(), words.end(),
                       [&](const std::string& word) { return said.find(word) != std::string::npos; });
}

Result<void> check_kind(const std::string& kind, const std::vector<ledger::Entry>& entries) {
    const std::vector<std::string> known = ledger::kind_words();
    if (kind.empty() || std::find(known.begin(), known.end(), kind) != known.end()) return {};
    // A newer program may have written it.
    if (std::any_of(entries.begin(), entries.end(),
                    [&](const ledger::Entry& entry) { return ledger::kind_word(entry.body) == kind; }))
        return {};
    std::string all;
    for (const std::string& word : known) all += (all.empty() ? "" : ", ") + word;
    return fail(ErrorKind::bad_input, "kind", "\"" + kind + "\" is no kind of entry. Known are " + all + ".");
}

// Chains of which an earlier entry names that vessel or run.
std::vector<const ledger::Entry*> no_longer_said_of(const ledger::Chains& chains, const ledger::EntryKey& holder) {
    const int wanted = chains.first_of(holder);
    std::vector<const ledger::Entry*> found;
    for (int number = 0; number < static_cast<int>(chains.size()); ++number) {
        if (chains.next_of(number) == ledger::Chains::k_none) continue;
        bool names = false;
        ledger::for_each_reference(chains.entry(number).body, [&](const ledger::EntryKey& key, ledger::RefersTo) {
            names = names || chains.first_of(key) == wanted;
        });
        if (!names) continue;
        for (const ledger::Entry* one : chain_of(chains, chains.entry(number)))
            if (std::find(found.begin(), found.end(), one) == found.end()) found.push_back(one);
    }
    return found;
}

}  // namespace

Result<AboutView> Book::about() {
    TRY_VOID(load());
    AboutView view;
    view.book = line();
    view.gallons = gallons();
    view.now = m_surroundings.now();
    view.today = iso_text(today());
    view.empty = m_entries.empty();
    return view;
}

Result<EntriesView> Book::entries(const EntriesRequest& request) {
    TRY(const Look here, look(Moment{}));
    const auto& cellar = here.cellar();
    const auto& telling = here.telling;
    EntriesView view;
    view.book = line();
    if (is_entry_number(request.subject) && !find_holder(cellar, "subject", request.subject)) {
        TRY(const ledger::Entry* entry, find_entry(m_entries, m_course.chains(), request.subject));
        for (const ledger::Entry* one : chain_of(m_course.chains(), *entry)) view.entries.push_back(telling.line(*one));
        return view;
    }
    TRY_VOID(check_kind(request.kind, m_entries));
    std::vector<const ledger::Entry*> ordered;
    if (request.subject.empty()) {
        for (const ledger::Entry& entry : m_entries) ordered.push_back(&entry);
    } else {
        TRY(const engine::HolderRef holder, find_holder(cellar, "subject", request.subject));
        const std::vector<int>& entries = holder.run >= 0 ? cellar.runs[at_index(holder.run)].entries
                                                          : cellar.vessels[at_index(holder.vessel)].entries;
        // What an entry of it replaced stays in its place, to be shown struck through.
        for (const int index : entries)
            for (const ledger::Entry* one : chain_of(m_course.chains(), *cellar.entries[at_index(index)]))
                ordered.push_back(one);
        // So does what was voided, or was said of it before a correction said it of another.
        const auto& key =
            holder.run >= 0 ? cellar.runs[at_index(holder.run)].key : cellar.vessels[at_index(holder.vessel)].key;
        for (const ledger::Entry* one : no_longer_said_of(m_course.chains(), key))
            if (std::find(ordered.begin(), ordered.end(), one) == ordered.end()) ordered.push_back(one);
    }
    if (!request.kind.empty())
        std::erase_if(ordered, [&](const auto* entry) { return ledger::kind_word(entry->body) != request.kind; });
    const auto newer = [](const ledger::Entry* a, const ledger::Entry* b) {
        return a->place == b->place ? a->sequence > b->sequence : b->place < a->place;
    };
    if (request.before != 0) {
        TRY(const ledger::Entry* from, find_entry(m_entries, m_course.chains(), std::to_string(request.before)));
        std::erase_if(ordered, [&](const auto* entry) { return !newer(from, entry); });
    }
    const auto wanted = static_cast<std::size_t>(std::max(0, request.most));
    const std::vector<std::string> words = words_by_blanks(request.words);
    // One more than wanted is put in order, to know whether there is more; all of them where words choose.
    const std::size_t sorted = words.empty() ? std::min(wanted + 1, ordered.size()) : ordered.size();
    std::partial_sort(ordered.begin(), ordered.begin() + static_cast<std::ptrdiff_t>(sorted), ordered.end(), newer);
    for (std::size_t i = 0; i < sorted; ++i) {
        EntryLine line = telling.line(*ordered[i]);
        if (!says(line, words)) continue;
        if (view.entries.size() == wanted) {
            if (!view.entries.empty()) view.more = view.entries.back().number;
            break;
        }
        view.entries.push_back(std::move(line));
    }
    return view;
}

Result<EntryView> Book::entry(std::int64_t number) {
    TRY(const Look here, look(Moment{}));
    TRY(const ledger::Entry* entry, find_entry(m_entries, m_course.chains(), std::to_string(number)));
    EntryView view;
    view.book = line();
    view.entry = here.telling.line(*entry);
    for (const ledger::Entry* one : chain_of(m_course.chains(), *entry)) view.chain.push_back(here.telling.line(*one));
    view.act = act_of(*entry, here.telling);
    return view;
}

}  // namespace undercroft::app
