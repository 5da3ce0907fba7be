// Two copies of one book: side by side, and what one has that the other has not.
#include "app/transfer.hpp"

#include <map>
#include <set>
#include <unordered_set>

#include "app/book_line.hpp"
#include "app/describe.hpp"
#include "app/incoming.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

Result<void> check_same_book(const BookCopy& here, const BookCopy& other) {
    if (here.facts.id != other.facts.id)
        return fail(ErrorKind::bad_input, "book",
                    "That is another book, not a copy of this one: " + other.facts.name + ".",
                    {{"this book", here.facts.id}, {"that book", other.facts.id}},
                    "`undercroft import` without --from-copy takes over what another book holds.");
    if (here.facts != other.facts)
        return fail(ErrorKind::storage, "book", "That says it is a copy of this book, but begins differently.", {},
                    "Run `undercroft check` on both.");
    return {};
}

// Indices of the entries of `one` that `other` does not hold.
std::vector<std::size_t> only_in(const BookCopy& one, const BookCopy& other) {
    const std::unordered_set<std::string> there(other.hashes.begin(), other.hashes.end());
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < one.entries.size(); ++i)
        if (!there.contains(one.hashes[i])) found.push_back(i);
    return found;
}

// Sittings that `other` holds under the same key, saying something else.
std::vector<std::string> clashing_sittings(const BookCopy& one, const std::vector<std::size_t>& only,
                                           const BookCopy& other) {
    std::unordered_set<std::string> there;
    for (const Entry& entry : other.entries) there.insert(entry.key.sitting);
    std::set<std::string> clash;
    for (const std::size_t i : only)
        if (there.contains(one.entries[i].key.sitting)) clash.insert(one.entries[i].key.sitting);
    return {clash.begin(), clash.end()};
}

std::vector<EntryLine> lines_of(const BookCopy& copy, const std::vector<std::size_t>& wanted, const Zone& zone) {
    const Chains chains = chains_of(copy.entries);
    const Telling telling{chains, copy.persons, zone, unit_of(copy.facts)};
    std::vector<EntryLine> lines;
    for (const std::size_t i : wanted) lines.push_back(telling.line(copy.entries[i]));
    return lines;
}

}  // namespace

Result<void> Transfer::check_writable(Booking booking) const {
    if (booking == Booking::now && m_journal.read_only())
        return fail(ErrorKind::read_only, m_journal.facts().name,
                    "This book was written by a newer program and opens read-only here.", {},
                    "Book with the program that wrote it.");
    return {};
}

Result<CompareView> Transfer::compare(const BookCopy& other, const std::string& name) {
    TRY(const BookCopy here, m_bulk.whole_copy());
    TRY_VOID(check_same_book(here, other));
    const std::vector<std::size_t> only_here = only_in(here, other);
    const std::vector<std::size_t> only_there = only_in(other, here);
    CompareView view;
    view.book = line_of(m_journal, here.entries, m_zone);
    view.other = name;
    std::size_t alike = 0;
    while (alike < here.hashes.size() && alike < other.hashes.size() && here.hashes[alike] == other.hashes[alike])
        ++alike;
    view.alike = static_cast<std::int64_t>(alike);
    if (alike > 0) view.alike_until = iso_text(day_of(here.entries[alike - 1].recorded, m_zone));
    view.in_both = static_cast<std::int64_t>(here.entries.size() - only_here.size());
    view.here = lines_of(here, only_here, m_zone);
    view.there = lines_of(other, only_there, m_zone);
    view.clash = clashing_sittings(here, only_here, other);
    return view;
}

Result<ImportView> Transfer::import_copy(const BookCopy& other, Booking booking) {
    TRY_VOID(check_writable(booking));
    TRY(const BookCopy here, m_bulk.whole_copy());
    TRY_VOID(check_same_book(here, other));
    const std::vector<std::size_t> only_there = only_in(other, here);
    if (const auto clash = clashing_sittings(other, only_there, here); !clash.empty())
        return fail(ErrorKind::stale, "sitting " + clash.front(),
                    "Both copies hold this sitting, and they say different things.", {},
                    "One of the two was changed by hand: run `undercroft check` on both.");
    Incoming incoming;
    for (const std::size_t i : only_there) incoming.take(other.entries[i], other.entries[i]);
    ImportView view;
    view.book = line_of(m_journal, here.entries, m_zone);
    view.from_copy = true;
    view.from = other.facts.name;
    view.from_id = other.facts.id;
    view.already_here = static_cast<std::int64_t>(other.entries.size() - only_there.size());
    TRY_VOID(incoming.fit_into(here, other, m_zone, view));
    if (booking == Booking::what_if || view.already) return view;
    TRY(const std::vector<Entry> booked,
        m_bulk.append_all(incoming.sittings(other), static_cast<std::int64_t>(here.entries.size())));
    mark_booked(view, booked);
    return view;
}

}  // namespace undercroft::app
