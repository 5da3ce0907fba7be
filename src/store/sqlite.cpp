#include "store/sqlite.hpp"

#include <sqlite3.h>

#include <utility>

namespace undercroft::store {
namespace {

// SQLite's own macro is a C cast; it makes SQLite keep a copy of what is bound.
const auto k_copied = reinterpret_cast<sqlite3_destructor_type>(std::intptr_t{-1});

}  // namespace

// --- Statement ---------------------------------------------------------------------------------

void Statement::Finalise::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

void Statement::note(int code) {
    if (code != SQLITE_OK && m_bind_code == SQLITE_OK) m_bind_code = code;
}

Statement& Statement::bind(int parameter, std::int64_t value) {
    note(sqlite3_bind_int64(m_statement.get(), parameter, value));
    return *this;
}

Statement& Statement::bind(int parameter, std::string_view text) {
    note(sqlite3_bind_text64(m_statement.get(), parameter, text.data(), text.size(), k_copied, SQLITE_UTF8));
    return *this;
}

Statement& Statement::bind_maybe(int parameter, const std::optional<std::int64_t>& value) {
    if (value) return bind(parameter, *value);
    note(sqlite3_bind_null(m_statement.get(), parameter));
    return *this;
}

Statement& Statement::bind_maybe(int parameter, const std::optional<std::string>& text) {
    if (text) return bind(parameter, std::string_view(*text));
    note(sqlite3_bind_null(m_statement.get(), parameter));
    return *this;
}

Statement& Statement::bind_blob(int parameter, std::string_view bytes) {
    note(sqlite3_bind_blob64(m_statement.get(), parameter, bytes.data(), bytes.size(), k_copied));
    return *this;
}

Result<bool> Statement::step() {
    const int code = m_bind_code != SQLITE_OK ? m_bind_code : sqlite3_step(m_statement.get());
    if (code == SQLITE_ROW) return true;
    if (code == SQLITE_DONE) return false;
    const Error error = m_database->error(code);
    sqlite3_reset(m_statement.get());
    return Failure{error};
}

Result<void> Statement::run() {
    TRY([[maybe_unused]] const bool row, step());
    sqlite3_reset(m_statement.get());
    sqlite3_clear_bindings(m_statement.get());
    return {};
}

std::int64_t Statement::integer(int column) const {
    return sqlite3_column_int64(m_statement.get(), column);
}

std::string Statement::text(int column) const {
    const auto* bytes = static_cast<const char*>(sqlite3_column_blob(m_statement.get(), column));
    const int size = sqlite3_column_bytes(m_statement.get(), column);
    return bytes == nullptr ? std::string{} : std::string(bytes, static_cast<std::size_t>(size));
}

std::optional<std::int64_t> Statement::maybe_integer(int column) const {
    if (sqlite3_column_type(m_statement.get(), column) == SQLITE_NULL) return std::nullopt;
    return integer(column);
}

std::optional<std::string> Statement::maybe_text(int column) const {
    if (sqlite3_column_type(m_statement.get(), column) == SQLITE_NULL) return std::nullopt;
    return text(column);
}

// --- Database ----------------------------------------------------------------------------------

void Database::Close::operator()(sqlite3* handle) const {
    sqlite3_close_v2(handle);
}

Result<std::unique_ptr<Database>> Database::open(const std::string& path) {
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(path.c_str(), &handle, SQLITE_OPEN_READWRITE, nullptr);
    std::unique_ptr<Database> database{new Database(path, handle)};
    if (code != SQLITE_OK) return Failure{database->error(code)};
    sqlite3_extended_result_codes(handle, 1);
    // Keeps SQL from switching the safety off: no writable schema, no journal in memory.
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    return database;
}

Result<std::unique_ptr<Database>> Database::in_memory() {
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(":memory:", &handle, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
    std::unique_ptr<Database> database{new Database(":memory:", handle)};
    if (code != SQLITE_OK) return Failure{database->error(code)};
    return database;
}

Result<void> Database::execute(const char* sql) {
    const int code = sqlite3_exec(m_handle.get(), sql, nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) return Failure{error(code)};
    return {};
}

Result<Statement> Database::prepare(std::string_view sql) {
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v2(m_handle.get(), sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
    if (code != SQLITE_OK) return Failure{error(code)};
    return Statement{*this, statement};
}

Result<std::int64_t> Database::integer(std::string_view sql) {
    TRY(auto statement, prepare(sql));
    TRY(const bool row, statement.step());
    if (!row) return fail(ErrorKind::storage, m_path, "a row of the book that must be there is missing.");
    return statement.integer(0);
}

Result<std::string> Database::text(std::string_view sql) {
    TRY(auto statement, prepare(sql));
    TRY(const bool row, statement.step());
    if (!row) return fail(ErrorKind::storage, m_path, "a row of the book that must be there is missing.");
    return statement.text(0);
}

void Database::set_busy_timeout(std::chrono::milliseconds timeout) {
    sqlite3_busy_timeout(m_handle.get(), static_cast<int>(timeout.count()));
}

bool Database::is_write_protected() const {
    return sqlite3_db_readonly(m_handle.get(), "main") == 1;
}

Error Database::error(int code) const {
    Error error{ErrorKind::storage, m_path, {}, {{"SQLite", sqlite3_errmsg(m_handle.get())}}, {}};
    switch (code & 0xFF) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            error.what = "another program is writing to this book.";
            error.next_step = "Wait until it has finished, or close it, and try again.";
            break;
        case SQLITE_FULL:
            error.what = "the disk is full.";
            error.next_step = "Make room and try again.";
            break;
        case SQLITE_IOERR:
            error.what = "the disk did not take or give the bytes of the book.";
            error.next_step = "See that there is room and that the disk is sound, then try again.";
            break;
        case SQLITE_READONLY:
            error.what = "the file, or the folder it lies in, is write-protected.";
            error.next_step = "Allow writing to both, or copy the book to a folder of your own.";
            break;
        case SQLITE_CANTOPEN:
            error.what = "the system does not let the file be opened.";
            error.next_step = "See who may read and write the file and the folder it lies in.";
            break;
        case SQLITE_NOTADB:
            error.kind = ErrorKind::bad_input;
            error.what = "this file is no book.";
            break;
        case SQLITE_CORRUPT:
            error.what = "the file is damaged.";
            error.next_step = "Keep it as it is, and go on with the latest backup.";
            break;
        default:
            error.what = "the book refused this: " + std::string(sqlite3_errmsg(m_handle.get())) + ".";
            break;
    }
    return error;
}

// --- Transaction -------------------------------------------------------------------------------

Result<Transaction> Transaction::begin(Database& database, Kind kind) {
    TRY_VOID(database.execute(kind == Kind::write ? "BEGIN IMMEDIATE" : "BEGIN"));
    return Transaction{database};
}

Transaction::~Transaction() {
    if (m_database != nullptr && sqlite3_get_autocommit(m_database->handle()) == 0)
        sqlite3_exec(m_database->handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

Result<void> Transaction::commit() {
    TRY_VOID(m_database->execute("COMMIT"));
    m_database = nullptr;
    return {};
}

}  // namespace undercroft::store
