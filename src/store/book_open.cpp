// Beginning, opening and closing a book.
#include <filesystem>
#include <utility>

#include "store/book_file.hpp"
#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "store/new_file.hpp"
#include "store/newer.hpp"
#include "store/schema.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {
namespace {

namespace fs = std::filesystem;

constexpr std::chrono::milliseconds k_wait_for_writer{5000};

Failure no_book(const std::string& path, const std::string& what) {
    return fail(ErrorKind::bad_input, path, what, {}, "Name the file of a book, or begin a new one.");
}

Result<void> check_facts(const ledger::BookFacts& facts) {
    if (facts.name.empty()) return fail(ErrorKind::bad_input, "name", "a book needs a name.");
    if (facts.zone.empty()) return fail(ErrorKind::bad_input, "zone", "a book needs the time zone of its cellar.");
    if (!is_uuid(facts.id, '4')) return fail(ErrorKind::bad_input, "id", "the id of a book is a UUID of version 4.");
    if (facts.format != k_book_format)
        return fail(ErrorKind::bad_input, "format",
                    "this program begins books of format " + std::to_string(k_book_format) + ".");
    return {};
}

// Asks the file system only: reading the file by other means than SQLite, and closing it, would drop the
// locks this process may hold on the same book.
Result<void> check_is_file(const std::string& path) {
    std::error_code code;
    const fs::file_status status = fs::status(path, code);
    if (!fs::exists(status))
        return fail(ErrorKind::not_found, path, "there is no such file.", {}, "Check the name, or begin a new book.");
    if (fs::is_directory(status)) return no_book(path, "this is a folder, no book.");
    if (!fs::is_regular_file(status)) return no_book(path, "this is no file of a book.");
    if (fs::file_size(path, code) == 0) return no_book(path, "the file is empty, so it is no book.");
    return {};
}

Result<void> fill_in(const std::string& path, const std::string& canonical) {
    TRY(const auto database, Database::open(path));
    TRY_VOID(set_habits(*database));
    TRY(auto transaction, Transaction::begin(*database, Transaction::Kind::write));
    TRY_VOID(build_schema(*database));
    TRY(auto insert, database->prepare("INSERT INTO book (id, canonical, link) VALUES (1, ?1, ?2)"));
    insert.bind(1, canonical).bind_blob(2, link_of_facts(canonical));
    TRY_VOID(insert.run());
    return transaction.commit();
}

}  // namespace

Result<std::unique_ptr<BookFile>> create_book(const std::string& path, const ledger::BookFacts& facts) {
    TRY_VOID(check_facts(facts));
    TRY(const std::string canonical, encode(facts));
    TRY(auto file, NewFile::claim(path));
    TRY_VOID(fill_in(file.working_path(), canonical));
    TRY_VOID(file.publish());
    return open_book(path, Access::write);
}

Result<std::unique_ptr<BookFile>> open_book(const std::string& path, Access access) {
    TRY_VOID(check_is_file(path));
    TRY(auto database, Database::open(absolute_path(path)));
    database->set_busy_timeout(k_wait_for_writer);
    TRY_VOID(set_habits(*database));
    TRY(const auto mark, database->integer("PRAGMA application_id"));
    TRY(const auto step, database->integer("PRAGMA user_version"));
    if (mark != k_application_id || step < 1) return no_book(path, "this file is a database, but no book.");
    TRY(const std::string canonical, database->text("SELECT canonical FROM book"));
    TRY(auto facts, decode_facts(canonical));
    TRY(const bool newer, holds_newer(*database, facts));
    if (access == Access::write && database->is_write_protected())
        return fail(ErrorKind::storage, path, "the file is write-protected.", {},
                    "Allow writing to it, or copy the book to a folder of your own.");
    if (access == Access::write && !newer) {
        // A write-ahead log lets others read while one writes. Where it cannot be had at this moment (somebody
        // is reading the plain file), SQLite goes on with its rollback journal, which keeps the same promises.
        static_cast<void>(database->text("PRAGMA journal_mode = WAL"));
        TRY_VOID(bring_up_to_date(*database));
    } else {
        TRY_VOID(database->execute("PRAGMA query_only = ON"));
    }
    return std::make_unique<BookFile>(std::move(database), std::move(facts), access, newer);
}

BookFile::BookFile(std::unique_ptr<Database> database, ledger::BookFacts facts, Access access, bool newer)
    : m_database(std::move(database)), m_facts(std::move(facts)), m_access(access), m_newer(newer) {}

BookFile::~BookFile() {
    if (m_database->is_write_protected()) return;
    // The last one out folds the log into the file and takes it away. While others have the book open this
    // is refused, at once and harmlessly: they will do it.
    m_database->set_busy_timeout(std::chrono::milliseconds{0});
    static_cast<void>(m_database->execute("PRAGMA query_only = OFF; PRAGMA journal_mode = DELETE;"));
}

}  // namespace undercroft::store
