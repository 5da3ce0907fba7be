// Tells a book that a newer program has written to.
#pragma once

#include <cstdint>

#include "base/result.hpp"
#include "ledger/journal.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

// True when the schema step, the book's format, or the kind or format of any entry after number `known` is unknown to
// this program.
[[nodiscard]] Result<bool> holds_newer(Database& database, const ledger::BookFacts& facts, std::int64_t known = 0);

// The error for whoever wants to write to such a book.
[[nodiscard]] Failure newer_book(const std::string& path);

}  // namespace undercroft::store
