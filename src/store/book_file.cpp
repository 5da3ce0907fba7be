// Reading from and appending to an open book.
#include "store/book_file.hpp"
#include "store/book_cache.hpp"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

#include "store/book_cache.hpp"
#include "store/book_check.hpp"
#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "store/entry_row.hpp"
#include "store/newer.hpp"
#include "store/picture_rows.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {
namespace {

using ledger::Booked;
using ledger::Entry;
using ledger::Person;
using ledger::Sitting;

// Beyond what is read, so that whoever reads a book can add what is booked next without moving the rest.
constexpr std::size_t k_room = 512;
// A book of fewer entries is read as fast as a cache of it; so many new ones are worth a new cache.
constexpr std::size_t k_worth_caching = 2000;

Result<void> check_shape(const Sitting& sitting) {
    if (sitting.entries.empty()) return fail(ErrorKind::bad_input, "sitting", "a sitting books at least one entry.");
    for (std::size_t i = 0; i < sitting.entries.size(); ++i) {
        const Entry& entry = sitting.entries[i];
        if (entry.key != ledger::EntryKey{sitting.key, static_cast<int>(i)} ||
            entry.sitting_size != static_cast<int>(sitting.entries.size()))
            return fail(
                ErrorKind::bad_input, "entry " + std::to_string(i + 1) + " of the sitting",
                "the entries of a sitting carry its key, count 0, 1, 2 and so on, and state how many they are.");
        if (std::holds_alternative<ledger::Unknown>(entry.body))
            return fail(ErrorKind::bad_input, "entry " + std::to_string(i + 1) + " of the sitting",
                        "an entry of a kind this program does not know cannot be booked by it.");
    }
    return {};
}

Result<void> check_person(const Person& person) {
    TRY_VOID(check_text("person", person.name));
    if (person.name.empty() || !is_salt(person.salt) || commitment_of(person.salt, person.name) != person.commitment)
        return fail(ErrorKind::bad_input, "person",
                    "a new person comes with a name, a salt of 16 bytes in hex, and the commitment made of both.");
    return {};
}

Result<std::int64_t> last_sequence_of(Database& database) {
    return database.integer("SELECT coalesce(max(sequence), 0) FROM entry");
}

Failure moved_on(std::int64_t expected, std::int64_t last) {
    return fail(ErrorKind::stale, "book", "the book has moved on since this was drafted.",
                {{"drafted after entry", std::to_string(expected)}, {"the book is at entry", std::to_string(last)}},
                "Look at what is new, and draft it again.");
}

// The rows of one sitting as they stand in the book.
Result<std::vector<EntryRow>> rows_of_sitting(Database& database, const std::string& key) {
    TRY(auto select, database.prepare(std::string(k_select_rows) + " WHERE sitting = ?1 ORDER BY idx"));
    select.bind(1, key);
    std::vector<EntryRow> rows;
    while (true) {
        TRY(const bool row, select.step());
        if (!row) return rows;
        rows.push_back(read_row(select));
    }
}

// What was booked then, if it is the same sitting; the recorded time of a second try is a later one.
Result<Booked> booked_before(const Sitting& sitting, const std::vector<EntryRow>& rows) {
    const Failure other =
        fail(ErrorKind::stale, "sitting " + sitting.key, "the book holds another sitting under this key.", {},
             "Draft it again, under a new key.");
    if (rows.size() != sitting.entries.size()) return other;
    Booked booked{true, sitting.entries};
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Entry& entry = booked.entries[i];
        entry.sequence = rows[i].sequence;
        entry.recorded = Instant{rows[i].recorded_ms};
        TRY(const std::string canonical, encode(entry));
        if (canonical != rows[i].canonical) return other;
    }
    return booked;
}

Result<bool> knows_person(Database& database, const std::string& commitment) {
    TRY(auto select, database.prepare("SELECT 1 FROM person WHERE commitment = ?1"));
    select.bind(1, commitment);
    return select.step();
}

Result<void> insert_persons(Database& database, const std::vector<Person>& persons, const std::vector<EntryRow>& rows) {
    std::set<std::string> named;
    for (const EntryRow& row : rows) {
        if (row.by_person) named.insert(*row.by_person);
        if (row.body.person) named.insert(*row.body.person);
    }
    for (const Person& person : persons) {
        if (!named.contains(person.commitment))
            return fail(ErrorKind::bad_input, "person", "a sitting brings only persons that its entries name.");
        TRY(const bool there, knows_person(database, person.commitment));
        if (there) continue;
        TRY(auto insert, database.prepare("INSERT INTO person (commitment, salt, name) VALUES (?1, ?2, ?3)"));
        insert.bind(1, person.commitment).bind(2, person.salt).bind(3, person.name);
        TRY_VOID(insert.run());
    }
    for (const std::string& commitment : named) {
        TRY(const bool there, knows_person(database, commitment));
        if (!there)
            return fail(ErrorKind::bad_input, "person",
                        "an entry names person " + commitment + ", whom the book does not know.");
    }
    return {};
}

}  // namespace

Result<std::vector<Entry>> BookFile::entries() {
    std::vector<Entry> entries;
    TRY(const std::int64_t cached, take_cached(entries));
    TRY(auto select,
        m_database->prepare("SELECT sequence, canonical FROM entry WHERE sequence > ?1 ORDER BY sequence"));
    select.bind(1, cached);
    if (cached == 0) {
        TRY(const std::int64_t count, m_database->integer("SELECT count(*) FROM entry"));
        entries.reserve(static_cast<std::size_t>(count) + k_room);
    }
    std::size_t read = 0;
    while (true) {
        TRY(const bool row, select.step());
        if (!row) break;
        TRY(auto entry, entry_in(select.integer(0), select.text(1)));
        m_newer = m_newer || std::holds_alternative<ledger::Unknown>(entry.body);
        entries.push_back(std::move(entry));
        ++read;
    }
    // Each was decoded: whether it is known need not be asked again.
    if (!entries.empty()) m_known = entries.back().sequence;
    if (read >= k_worth_caching && !m_newer) {
        TRY(const std::string link, link_at(entries.back().sequence));
        write_cache(m_database->path(), m_facts.id, entries, link);
    }
    return entries;
}

Result<std::int64_t> BookFile::take_cached(std::vector<Entry>& entries) {
    TRY(const std::int64_t last, last_sequence());
    if (m_newer || last < static_cast<std::int64_t>(k_worth_caching)) return 0;
    auto cached = read_cache(m_database->path(), m_facts.id, k_room + k_worth_caching);
    if (!cached || cached->last > last) return 0;
    TRY(const std::string link, link_at(cached->last));
    if (link != cached->link) return 0;
    entries = std::move(cached->entries);
    return cached->last;
}

Result<std::vector<Person>> BookFile::persons() {
    TRY(auto select, m_database->prepare("SELECT commitment, salt, name FROM person ORDER BY commitment"));
    std::vector<Person> persons;
    while (true) {
        TRY(const bool row, select.step());
        if (!row) return persons;
        persons.push_back({select.text(0), select.text(1), select.text(2)});
    }
}

Result<std::int64_t> BookFile::last_sequence() {
    return last_sequence_of(*m_database);
}

Result<Booked> BookFile::append(const Sitting& sitting, Instant recorded, std::int64_t expected_sequence) {
    TRY_VOID(check_shape(sitting));
    for (const Person& person : sitting.persons) TRY_VOID(check_person(person));
    for (const ledger::Picture& picture : sitting.pictures) TRY_VOID(check_picture(picture));
    TRY_VOID(check_writable());
    TRY(auto transaction, Transaction::begin(*m_database, Transaction::Kind::write));
    TRY_VOID(look_for_newer());
    TRY_VOID(check_writable());

    TRY(const auto before, rows_of_sitting(*m_database, sitting.key));
    if (!before.empty()) return booked_before(sitting, before);
    TRY(const std::int64_t last, last_sequence_of(*m_database));
    if (last != expected_sequence) return moved_on(expected_sequence, last);

    Booked booked{false, sitting.entries};
    for (Entry& entry : booked.entries) entry.recorded = recorded;
    std::int64_t sequence = last;
    TRY(std::string link, link_at(last));
    TRY_VOID(write_sitting(booked.entries, sitting, MissingPicture::refused, sequence, link));
    TRY_VOID(transaction.commit());
    return booked;
}

Result<void> BookFile::write_sitting(std::vector<Entry>& entries, const Sitting& sitting, MissingPicture missing,
                                     std::int64_t& last, std::string& link) {
    std::vector<EntryRow> rows;
    for (Entry& entry : entries) {
        entry.sequence = ++last;
        TRY(EntryRow row, row_of(entry, link));
        link = row.link;
        rows.push_back(std::move(row));
    }
    TRY_VOID(insert_persons(*m_database, sitting.persons, rows));
    TRY_VOID(insert_pictures(*m_database, sitting.pictures, entries, missing));
    for (const EntryRow& row : rows) TRY_VOID(insert_row(*m_database, row));

    TRY(const auto read_back, rows_of_sitting(*m_database, entries.front().key.sitting));
    if (read_back != rows)
        return fail(ErrorKind::storage, m_database->path(),
                    "what was written does not read back the same; nothing was booked.");
    return {};
}

Result<std::vector<Entry>> BookFile::append_all(const std::vector<Sitting>& sittings, std::int64_t expected_sequence) {
    for (const Sitting& sitting : sittings) {
        TRY_VOID(check_shape(sitting));
        for (const Person& person : sitting.persons) {
            const bool forgotten = person.salt.empty() && person.name.empty() && is_commitment(person.commitment);
            if (!forgotten) TRY_VOID(check_person(person));
        }
        for (const ledger::Picture& picture : sitting.pictures) {
            const bool forgotten = picture == ledger::Picture{picture.commitment, {}, {}, {}};
            if (!forgotten || !is_commitment(picture.commitment)) TRY_VOID(check_picture(picture));
        }
    }
    TRY_VOID(check_writable());
    TRY(auto transaction, Transaction::begin(*m_database, Transaction::Kind::write));
    TRY_VOID(look_for_newer());
    TRY_VOID(check_writable());
    TRY(std::int64_t last, last_sequence_of(*m_database));
    if (last != expected_sequence) return moved_on(expected_sequence, last);

    std::vector<Entry> booked;
    TRY(std::string link, link_at(last));
    for (const Sitting& sitting : sittings) {
        TRY(const auto before, rows_of_sitting(*m_database, sitting.key));
        if (!before.empty())
            return fail(ErrorKind::stale, "sitting " + sitting.key, "the book holds a sitting under this key.");
        std::vector<Entry> entries = sitting.entries;
        TRY_VOID(write_sitting(entries, sitting, MissingPicture::as_forgotten, last, link));
        booked.insert(booked.end(), std::make_move_iterator(entries.begin()), std::make_move_iterator(entries.end()));
    }
    TRY_VOID(transaction.commit());
    return booked;
}

Result<std::vector<ledger::CheckFinding>> BookFile::check_store() {
    TRY(auto findings, check_book(*m_database));
    TRY(ledger::CheckFinding caches, check_cache(*m_database, m_facts.id));
    findings.push_back(std::move(caches));
    return findings;
}

Result<std::string> BookFile::chain_head() {
    TRY(const std::int64_t last, last_sequence());
    TRY(const std::string link, link_at(last));
    return hex_of(link);
}

Result<std::int64_t> BookFile::entry_of_link(const std::string& hex) {
    TRY(auto select, m_database->prepare("SELECT 0 FROM book WHERE lower(hex(link)) = ?1 UNION ALL "
                                         "SELECT sequence FROM entry WHERE lower(hex(link)) = ?1"));
    select.bind(1, hex);
    TRY(const bool found, select.step());
    return found ? select.integer(0) : -1;
}

Result<std::string> BookFile::link_at(std::int64_t sequence) {
    if (sequence == 0) return m_database->text("SELECT link FROM book");
    return m_database->text("SELECT link FROM entry WHERE sequence = " + std::to_string(sequence));
}

Result<void> BookFile::check_writable() const {
    if (m_newer) return newer_book(m_database->path());
    if (m_access == Access::read)
        return fail(ErrorKind::read_only, m_database->path(), "the book was opened for reading only.");
    return {};
}

Result<void> BookFile::look_for_newer() {
    TRY(const bool newer, holds_newer(*m_database, m_facts, m_known));
    m_newer = m_newer || newer;
    return {};
}

}  // namespace undercroft::store
