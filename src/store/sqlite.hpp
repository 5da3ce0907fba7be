// A thin RAII wrapper over SQLite's C API: connection, statement, transaction.
//
// Holds: a handle is closed when its owner goes; every failure is an Error of kind storage that a keeper
// can act on; nothing throws. Leaves out: what the tables mean (schema/, entry_row.hpp).
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "base/result.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace undercroft::store {

class Database;

// One prepared statement. Parameters count from 1, columns from 0. Columns are read after step() gave true.
class Statement {
public:
    Statement& bind(int parameter, std::int64_t value);
    Statement& bind(int parameter, std::string_view text);
    Statement& bind_maybe(int parameter, const std::optional<std::int64_t>& value);
    Statement& bind_maybe(int parameter, const std::optional<std::string>& text);
    Statement& bind_blob(int parameter, std::string_view bytes);

    // True while there is a row.
    [[nodiscard]] Result<bool> step();
    // For a statement without rows: runs it, and makes it ready to be bound again.
    [[nodiscard]] Result<void> run();

    [[nodiscard]] std::int64_t integer(int column) const;
    // The bytes of a text or blob.
    [[nodiscard]] std::string text(int column) const;
    [[nodiscard]] std::optional<std::int64_t> maybe_integer(int column) const;
    [[nodiscard]] std::optional<std::string> maybe_text(int column) const;

private:
    friend class Database;
    struct Finalise {
        void operator()(sqlite3_stmt* statement) const;
    };
    Statement(Database& database, sqlite3_stmt* statement) : m_database(&database), m_statement(statement) {}
    void note(int code);

    Database* m_database;
    std::unique_ptr<sqlite3_stmt, Finalise> m_statement;
    int m_bind_code = 0;
};

class Database {
public:
    // Opens a file that is there; never makes one. Read-only when the system does not let it be written.
    [[nodiscard]] static Result<std::unique_ptr<Database>> open(const std::string& path);
    // An empty one that lives as long as the connection.
    [[nodiscard]] static Result<std::unique_ptr<Database>> in_memory();

    [[nodiscard]] Result<void> execute(const char* sql);
    [[nodiscard]] Result<Statement> prepare(std::string_view sql);
    // First column of the first row; `storage` when there is none.
    [[nodiscard]] Result<std::int64_t> integer(std::string_view sql);
    [[nodiscard]] Result<std::string> text(std::string_view sql);

    void set_busy_timeout(std::chrono::milliseconds timeout);
    [[nodiscard]] bool is_write_protected() const;
    [[nodiscard]] const std::string& path() const { return m_path; }
    [[nodiscard]] sqlite3* handle() const { return m_handle.get(); }
    // What `code`, just returned by SQLite on this connection, means to the keeper.
    [[nodiscard]] Error error(int code) const;

private:
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    Database(std::string path, sqlite3* handle) : m_path(std::move(path)), m_handle(handle) {}

    std::string m_path;
    std::unique_ptr<sqlite3, Close> m_handle;
};

// Rolls back when it goes without commit(): whatever happened in between, nothing is booked.
class Transaction {
public:
    enum class Kind { read, write };
    // A write transaction takes the one writer's place at once, waiting as long as the busy timeout says.
    [[nodiscard]] static Result<Transaction> begin(Database& database, Kind kind);
    Transaction(Transaction&& other) noexcept : m_database(std::exchange(other.m_database, nullptr)) {}
    Transaction& operator=(Transaction&&) = delete;
    ~Transaction();

    [[nodiscard]] Result<void> commit();

private:
    explicit Transaction(Database& database) : m_database(&database) {}
    Database* m_database;
};

}  // namespace undercroft::store
