// From an export back to a book, or to all of it in memory.
#pragma once

#include <istream>
#include <string>

#include "base/result.hpp"
#include "ledger/bulk.hpp"
#include "ledger/exporter.hpp"

namespace undercroft::store {

// Makes the book at `path`, which must not be there, entry by entry as it was: order of arrival, links and head are the
// export's, proved by the checks of book_check.hpp before the file takes its place. On an error nothing is left behind.
// `name` is how errors call the export. Errors: those of ExportReader; bad_input, not_found, storage for the new file.
[[nodiscard]] Result<ledger::ExportTotals> restore_book(const std::string& path, std::istream& in,
                                                        const std::string& name);

// Errors: those of ExportReader.
[[nodiscard]] Result<ledger::BookCopy> read_export(std::istream& in, const std::string& name);

// The same of a book or an export, whichever the file at `path` is. Errors: also those of open_book().
[[nodiscard]] Result<ledger::BookCopy> read_copy(const std::string& path);

}  // namespace undercroft::store
