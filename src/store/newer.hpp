// Tells a book that a newer program has written to.
#pragma once

#include "base/result.hpp"
#include "ledger/journal.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

// True when the schema step, the book's format, or the kind or format of any entry is unknown to this program.
[[nodiscard]] Result<bool> holds_newer(Database& database, const ledger::BookFacts& facts);

// The error for whoever wants to write to such a book.
[[nodiscard]] Failure newer_book(const std::string& path);

}  // namespace undercroft::store
