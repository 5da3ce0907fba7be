// A second file beside a large book, FILE.cache: its entries in a form that is read several times faster than the book.
//
// Holds: it can be thrown away at any moment, and nothing is lost. It is never trusted: one of another book, of an
// older state that this book did not come from, of another version of the program, torn or damaged is passed over as if
// it were not there. It holds no names and no pictures, so forgetting somebody leaves nothing here.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "ledger/entry.hpp"
#include "ledger/journal.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

struct CachedBook {
    std::int64_t last = 0;  // sequence of its last entry
    std::string link;       // of that entry, 32 raw bytes
    std::vector<ledger::Entry> entries;
};

[[nodiscard]] std::string cache_path_of(const std::string& book_path);

// Nothing when there is none that this program can use. Whether the book has that link at that entry is for the caller
// to ask. `room`: how many more entries the list is to have room for.
[[nodiscard]] std::optional<CachedBook> read_cache(const std::string& book_path, const std::string& book_id,
                                                   std::size_t room);

// Written whole beside it, then put in its place. Quietly does nothing where no file can be made.
void write_cache(const std::string& book_path, const std::string& book_id, const std::vector<ledger::Entry>& entries,
                 const std::string& link);

// The check "caches": what the cache says of each entry is what the book says. One that would not be used is no fault.
[[nodiscard]] Result<ledger::CheckFinding> check_cache(Database& database, const std::string& book_id);

}  // namespace undercroft::store
