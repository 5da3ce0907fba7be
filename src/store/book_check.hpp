// Proves a book whole, or says what is wrong and where.
//
// Checks, always in this order: "integrity" (SQLite's own), "format" (marks and tables as this program
// makes them), "chain" (every link follows), "columns" (what is repeated beside the canonical bytes equals
// them), "sittings" (no half sitting), "persons" (commitments hold, every one has its row), "pictures" (the same).
#pragma once

#include <vector>

#include "base/result.hpp"
#include "ledger/journal.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

// Reads one state of the book, whatever is booked meanwhile. An Error only when the book cannot be read at
// all; damage is a finding.
[[nodiscard]] Result<std::vector<ledger::CheckFinding>> check_book(Database& database);

}  // namespace undercroft::store
