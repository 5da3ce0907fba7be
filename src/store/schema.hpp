// The tables of a book, built in numbered steps, and the marks by which a file is known as one.
#pragma once

#include <cstdint>
#include <string>

#include "base/result.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

inline constexpr std::int64_t k_application_id = 0x55435242;  // "UCRB", in the file's header
inline constexpr std::int64_t k_schema_step = 1;              // PRAGMA user_version

// Builds the tables in an empty file and marks it as a book. Inside a transaction of the caller's.
[[nodiscard]] Result<void> build_schema(Database& database);

// Set on every connection before anything else is asked of it.
[[nodiscard]] Result<void> set_habits(Database& database);

// Every table, index and trigger with its SQL, one a line: two books of one step have the same.
[[nodiscard]] Result<std::string> schema_text(Database& database);

}  // namespace undercroft::store
