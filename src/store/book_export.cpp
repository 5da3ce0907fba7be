// Writes a whole book out as lines, and reads it whole.
#include <fstream>

#include "store/book_file.hpp"
#include "store/digest.hpp"
#include "store/entry_row.hpp"
#include "store/export_lines.hpp"
#include "store/new_file.hpp"
#include "store/picture_rows.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {
namespace {

Failure broken(const std::string& where, const std::string& path) {
    return fail(ErrorKind::storage, path, "the chain breaks at " + where + ": the book is damaged.", {},
                "Go on with the latest backup that checks out, and keep this file.");
}

// Gives `visit` the sequence, canonical bytes and link of every entry, proved; and the last link.
template <class Visit>
Result<std::string> walk_chain(Database& database, Visit visit) {
    TRY(const std::string facts, database.text("SELECT canonical FROM book"));
    TRY(std::string link, database.text("SELECT link FROM book"));
    if (link != link_of_facts(facts)) return broken("its beginning", database.path());
    TRY(auto rows, database.prepare("SELECT sequence, canonical, link FROM entry ORDER BY sequence"));
    for (std::int64_t due = 1;; ++due) {
        TRY(const bool row, rows.step());
        if (!row) return link;
        const std::string canonical = rows.text(1);
        if (rows.integer(0) != due || rows.text(2) != link_of_entry(link, canonical))
            return broken("entry " + std::to_string(due), database.path());
        link = rows.text(2);
        TRY_VOID(visit(due, canonical, link));
    }
}

Failure not_written(const std::string& where) {
    return fail(ErrorKind::storage, where, "not all of the export could be written.");
}

}  // namespace

Result<ledger::ExportTotals> BookFile::export_to(std::ostream& out) {
    TRY(auto snapshot, Transaction::begin(*m_database, Transaction::Kind::read));
    TRY(const std::string facts, m_database->text("SELECT canonical FROM book"));
    out << line_of_facts(facts, link_of_facts(facts));
    ledger::ExportTotals totals;
    TRY(const auto people, persons());
    for (const ledger::Person& person : people) out << line_of_person(person);
    totals.persons = static_cast<std::int64_t>(people.size());
    TRY(const auto commitments, picture_commitments(*m_database));
    for (const std::string& commitment : commitments) {
        TRY(const auto picture, read_picture(*m_database, commitment));
        if (!picture) continue;
        out << line_of_picture(*picture);
        ++totals.pictures;
    }
    TRY(const std::string head,
        walk_chain(*m_database,
                   [&](std::int64_t sequence, const std::string& canonical, const std::string& link) -> Result<void> {
                       out << line_of_entry(sequence, canonical, link);
                       totals.entries = sequence;
                       if (!out) return not_written("export");
                       return {};
                   }));
    totals.head = hex_of(head);
    out << line_of_end(totals) << std::flush;
    if (!out) return not_written("export");
    TRY_VOID(snapshot.commit());
    return totals;
}

Result<ledger::ExportTotals> BookFile::export_to_file(const std::string& path) {
    TRY(auto file, NewFile::claim(path));
    std::ofstream out{file.working_path(), std::ios::binary | std::ios::trunc};
    const auto totals = export_to(out);
    if (!totals) return totals;
    out.close();
    if (!out) return not_written(path);
    TRY_VOID(file.publish());
    return totals;
}

Result<ledger::BookCopy> BookFile::whole_copy() {
    TRY(auto snapshot, Transaction::begin(*m_database, Transaction::Kind::read));
    ledger::BookCopy copy;
    copy.facts = m_facts;
    TRY(copy.persons, persons());
    TRY(const auto commitments, picture_commitments(*m_database));
    for (const std::string& commitment : commitments) {
        TRY(auto picture, read_picture(*m_database, commitment));
        if (picture) copy.pictures.push_back(*std::move(picture));
    }
    TRY(const std::string head,
        walk_chain(*m_database,
                   [&](std::int64_t sequence, const std::string& canonical, const std::string&) -> Result<void> {
                       TRY(auto entry, entry_in(sequence, canonical));
                       copy.entries.push_back(std::move(entry));
                       copy.hashes.push_back(hex_of(hash_of_entry(canonical)));
                       return {};
                   }));
    copy.head = hex_of(head);
    TRY_VOID(snapshot.commit());
    return copy;
}

}  // namespace undercroft::store
