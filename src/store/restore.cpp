#include "store/restore.hpp"

#include <filesystem>
#include <fstream>
#include <utility>

#include "store/book_check.hpp"
#include "store/book_file.hpp"
#include "store/digest.hpp"
#include "store/entry_row.hpp"
#include "store/export_reader.hpp"
#include "store/new_file.hpp"
#include "store/picture_rows.hpp"
#include "store/schema.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {
namespace {

Result<ledger::ExportTotals> fill_in(Database& database, ExportReader& reader) {
    TRY(auto transaction, Transaction::begin(database, Transaction::Kind::write));
    TRY_VOID(build_schema(database));
    TRY(auto begin_book, database.prepare("INSERT INTO book (id, canonical, link) VALUES (1, ?1, ?2)"));
    begin_book.bind(1, reader.facts_canonical()).bind_blob(2, link_of_facts(reader.facts_canonical()));
    TRY_VOID(begin_book.run());
    TRY(auto add_person, database.prepare("INSERT INTO person (commitment, salt, name) VALUES (?1, ?2, ?3)"));
    while (true) {
        TRY(const ExportReader::Item item, reader.next());
        if (const auto* person = std::get_if<ledger::Person>(&item)) {
            add_person.bind(1, person->commitment).bind(2, person->salt).bind(3, person->name);
            TRY_VOID(add_person.run());
        } else if (const auto* picture = std::get_if<ledger::Picture>(&item)) {
            TRY_VOID(insert_picture(database, *picture));
        } else if (const auto* exported = std::get_if<ExportedEntry>(&item)) {
            TRY(const EntryRow row, row_of(exported->entry, exported->previous));
            TRY_VOID(insert_row(database, row));
        } else {
            TRY_VOID(transaction.commit());
            return std::get<ledger::ExportTotals>(item);
        }
    }
}

Result<void> prove(Database& database, const std::string& path, const std::string& head) {
    TRY(const auto findings, check_book(database));
    for (const ledger::CheckFinding& finding : findings)
        if (!finding.ok)
            return fail(ErrorKind::storage, path, "what was restored does not prove whole; it was thrown away.",
                        {{finding.check, finding.what}});
    TRY(const std::string last,
        database.text("SELECT link FROM (SELECT 0 AS sequence, link FROM book UNION ALL SELECT sequence, link "
                      "FROM entry) ORDER BY sequence DESC LIMIT 1"));
    if (hex_of(last) != head)
        return fail(ErrorKind::storage, path, "what was restored does not end as the export does; it was thrown away.");
    return {};
}

}  // namespace

Result<ledger::ExportTotals> restore_book(const std::string& path, std::istream& in, const std::string& name) {
    TRY(auto file, NewFile::claim(path));
    ExportReader reader{in, name};
    TRY_VOID(reader.begin());
    ledger::ExportTotals totals;
    {
        TRY(const auto database, Database::open(file.working_path()));
        TRY_VOID(set_habits(*database));
        TRY(totals, fill_in(*database, reader));
        TRY_VOID(prove(*database, path, totals.head));
    }
    TRY_VOID(file.publish());
    return totals;
}

Result<ledger::BookCopy> read_export(std::istream& in, const std::string& name) {
    ExportReader reader{in, name};
    TRY_VOID(reader.begin());
    ledger::BookCopy copy;
    copy.facts = reader.facts();
    while (true) {
        TRY(ExportReader::Item item, reader.next());
        if (auto* person = std::get_if<ledger::Person>(&item)) {
            copy.persons.push_back(std::move(*person));
        } else if (auto* picture = std::get_if<ledger::Picture>(&item)) {
            copy.pictures.push_back(std::move(*picture));
        } else if (auto* exported = std::get_if<ExportedEntry>(&item)) {
            copy.hashes.push_back(hex_of(hash_of_entry(exported->canonical)));
            copy.entries.push_back(std::move(exported->entry));
        } else {
            copy.head = std::get<ledger::ExportTotals>(item).head;
            return copy;
        }
    }
}

Result<ledger::BookCopy> read_copy(const std::string& path) {
    {
        std::error_code ignored;
        // Nothing else begins so; what does not is a book, or said by open_book() to be none.
        if (std::filesystem::is_regular_file(path, ignored))
            if (std::ifstream in{path, std::ios::binary}; in.peek() == '{') return read_export(in, path);
    }
    TRY(const auto book, open_book(path, Access::read));
    return book->whole_copy();
}

}  // namespace undercroft::store
