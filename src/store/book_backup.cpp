// Copies an open book into a file of its own.
#include <sqlite3.h>

#include "store/book_file.hpp"
#include "store/new_file.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {
namespace {

// One step for all pages: the copy is one state of the book, and a writer waits rather than makes us start over.
Result<void> copy_pages(Database& from, const std::string& path) {
    TRY(const auto to, Database::open(path));
    sqlite3_backup* backup = sqlite3_backup_init(to->handle(), "main", from.handle(), "main");
    if (backup == nullptr) return Failure{to->error(sqlite3_errcode(to->handle()))};
    const int stepped = sqlite3_backup_step(backup, -1);
    const int finished = sqlite3_backup_finish(backup);
    if (stepped != SQLITE_DONE) return Failure{to->error(stepped)};
    if (finished != SQLITE_OK) return Failure{to->error(finished)};
    // The pages say "write-ahead log" when the open book has one; a copy at rest is one file.
    return to->execute("PRAGMA journal_mode = DELETE");
}

}  // namespace

Result<std::int64_t> BookFile::backup_to(const std::string& path) {
    TRY(auto file, NewFile::claim(path));
    TRY_VOID(copy_pages(*m_database, file.working_path()));
    std::int64_t copied = 0;
    {
        TRY(const auto copy, open_book(file.working_path(), Access::read));
        TRY(copied, copy->last_sequence());
        TRY(const std::string head, copy->link_at(copied));
        TRY(const std::string due, link_at(copied));
        if (head != due || copy->facts() != m_facts)
            return fail(ErrorKind::storage, path, "the copy does not end as the book does; it was thrown away.");
    }
    TRY_VOID(file.publish());
    return copied;
}

}  // namespace undercroft::store
