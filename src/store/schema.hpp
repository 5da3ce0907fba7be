// The tables of a book, built in numbered steps, and the marks by which a file is known as one.
#pragma once

#include <cstdint>
#include <string>

#include "base/result.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

inline constexpr std::int64_t k_application_id = 0x55435242;  // "UCRB", in the file's header
inline constexpr std::int64_t k_schema_step = 2;              // PRAGMA user_version

// Builds the tables of the steps after `from` up to `to`, and marks the file as a book of that step: an empty file is
// of step 0. Inside a transaction of the caller's.
[[nodiscard]] Result<void> build_schema(Database& database, std::int64_t from = 0, std::int64_t to = k_schema_step);

// Brings a book of an earlier step to this program's, whole or not at all. A book of this step is left as it is.
[[nodiscard]] Result<void> bring_up_to_date(Database& database);

// Set on every connection before anything else is asked of it.
[[nodiscard]] Result<void> set_habits(Database& database);

// Every table, index and trigger with its SQL, one a line: two books of one step have the same.
[[nodiscard]] Result<std::string> schema_text(Database& database);

}  // namespace undercroft::store
