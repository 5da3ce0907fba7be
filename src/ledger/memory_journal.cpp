#include "ledger/memory_journal.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace undercroft::ledger {
namespace {

bool holds_unknown(const Entry& entry) {
    return std::holds_alternative<Unknown>(entry.body);
}

// Everything but what the journal gives: sequence and recorded time.
bool same_draft(const Entry& a, const Entry& b) {
    return a.key == b.key && a.sitting_size == b.sitting_size && a.place == b.place && a.supersedes == b.supersedes &&
           a.reason == b.reason && a.by == b.by && a.origin_book == b.origin_book && a.origin_hash == b.origin_hash &&
           a.body == b.body;
}

std::set<std::string> named_persons(const Sitting& sitting) {
    std::set<std::string> named;
    for (const Entry& entry : sitting.entries) {
        named.insert(entry.by);
        if (const auto* tasting = std::get_if<Tasting>(&entry.body)) named.insert(tasting->taster);
        if (const auto* take = std::get_if<Take>(&entry.body)) named.insert(take->person);
    }
    named.erase("");
    return named;
}

bool contains(const std::vector<Person>& persons, const std::string& commitment) {
    return std::any_of(persons.begin(), persons.end(),
                       [&](const Person& person) { return person.commitment == commitment; });
}

Failure newer() {
    return fail(ErrorKind::read_only, "book",
                "a newer program has written to this book: it can be read here, not written.");
}

Result<void> check_shape(const Sitting& sitting) {
    if (sitting.entries.empty()) return fail(ErrorKind::bad_input, "sitting", "a sitting books at least one entry.");
    const auto size = static_cast<int>(sitting.entries.size());
    for (int i = 0; i < size; ++i) {
        const Entry& entry = sitting.entries[static_cast<std::size_t>(i)];
        if (entry.key != EntryKey{sitting.key, i} || entry.sitting_size != size || holds_unknown(entry))
            return fail(ErrorKind::bad_input, "entry " + std::to_string(i + 1) + " of the sitting",
                        "the entries of a sitting are of kinds this program knows, carry its key, count 0, 1, 2 and "
                        "so on, and state how many they are.");
    }
    return {};
}

}  // namespace

MemoryJournal::MemoryJournal(BookFacts facts, std::vector<Entry> entries, std::vector<Person> persons)
    : m_facts(std::move(facts)), m_entries(std::move(entries)), m_persons(std::move(persons)) {}

bool MemoryJournal::read_only() const {
    return std::any_of(m_entries.begin(), m_entries.end(), holds_unknown);
}

Result<std::int64_t> MemoryJournal::last_sequence() {
    return m_entries.empty() ? 0 : m_entries.back().sequence;
}

Result<Booked> MemoryJournal::append(const Sitting& sitting, Instant recorded, std::int64_t expected_sequence) {
    TRY_VOID(check_shape(sitting));
    if (read_only()) return newer();

    Booked before{true, {}};
    for (const Entry& entry : m_entries)
        if (entry.key.sitting == sitting.key) before.entries.push_back(entry);
    if (!before.entries.empty()) {
        if (!std::equal(before.entries.begin(), before.entries.end(), sitting.entries.begin(), sitting.entries.end(),
                        same_draft))
            return fail(ErrorKind::stale, "sitting " + sitting.key, "the book holds another sitting under this key.");
        return before;
    }
    TRY(const std::int64_t last, last_sequence());
    if (last != expected_sequence)
        return fail(ErrorKind::stale, "book", "the book has moved on since this was drafted.",
                    {{"drafted after entry", std::to_string(expected_sequence)},
                     {"the book is at entry", std::to_string(last)}});

    const std::set<std::string> named = named_persons(sitting);
    for (const Person& person : sitting.persons)
        if (!named.contains(person.commitment))
            return fail(ErrorKind::bad_input, "person", "a sitting brings only persons that its entries name.");
    for (const std::string& commitment : named)
        if (!contains(m_persons, commitment) && !contains(sitting.persons, commitment))
            return fail(ErrorKind::bad_input, "person",
                        "an entry names person " + commitment + ", whom the book does not know.");

    for (const Entry& entry : sitting.entries)
        if (const auto* note = std::get_if<Note>(&entry.body); note != nullptr && !note->picture.empty()) {
            const auto holds = [&](const std::vector<Picture>& pictures) {
                return std::any_of(pictures.begin(), pictures.end(),
                                   [&](const Picture& one) { return one.commitment == note->picture; });
            };
            if (!holds(m_pictures) && !holds(sitting.pictures))
                return fail(ErrorKind::bad_input, "picture",
                            "an entry names picture " + note->picture + ", which the book does not hold.");
        }
    m_pictures.insert(m_pictures.end(), sitting.pictures.begin(), sitting.pictures.end());
    for (const Person& person : sitting.persons)
        if (!contains(m_persons, person.commitment)) m_persons.push_back(person);
    Booked booked{false, sitting.entries};
    for (Entry& entry : booked.entries) {
        entry.sequence = last + 1 + entry.key.index;
        entry.recorded = recorded;
        m_entries.push_back(entry);
    }
    return booked;
}

Result<std::optional<Picture>> MemoryJournal::picture(const std::string& commitment) {
    for (const Picture& picture : m_pictures)
        if (picture.commitment == commitment) return picture;
    return std::nullopt;
}

Result<void> MemoryJournal::forget(const std::string& person) {
    if (read_only()) return newer();
    for (Person& one : m_persons) {
        if (one.commitment != person) continue;
        one.salt.clear();
        one.name.clear();
        return {};
    }
    return fail(ErrorKind::not_found, "person", "the book knows no such person.");
}

Result<void> MemoryJournal::forget_picture(const std::string& commitment) {
    if (read_only()) return newer();
    for (Picture& one : m_pictures) {
        if (one.commitment != commitment) continue;
        one = Picture{commitment, {}, {}, {}};
        return {};
    }
    return fail(ErrorKind::not_found, "picture", "the book holds no such picture.");
}

}  // namespace undercroft::ledger
