// The use cases that bring many entries into a book at once: from another book, from another copy of this one, from a
// keeper's spreadsheet.
//
// Holds: all of it is booked or nothing; a what-if runs all of the same but the booking; the book is replayed with
// everything in it before anything is booked. What was brought in before is not brought in again.
#pragma once

#include <string>
#include <vector>

#include "app/book.hpp"
#include "app/transfer_views.hpp"
#include "ledger/bulk.hpp"

namespace undercroft::app {

enum class Booking { what_if, now };

// A spreadsheet as its keeper hands it over.
struct SheetRequest {
    std::string file;               // its name, for messages
    std::string bytes;              // RFC 4180, parted by commas, semicolons or tabs
    std::vector<std::string> maps;  // "Datum=date,SG=gravity,Sour=score sour"; may be several
    std::string vessel;             // for rows that name none
    std::string taster;             // likewise
    std::string by;                 // who books it; may be empty
};

class Transfer {
public:
    // Everything given must outlive the Transfer; `journal` and `bulk` are of the same book.
    Transfer(ledger::Journal& journal, ledger::Bulk& bulk, const Zone& zone, const tables::Tables& tables,
             Surroundings surroundings)
        : m_journal(journal), m_bulk(bulk), m_zone(zone), m_tables(tables), m_surroundings(std::move(surroundings)) {}

    // Entries of another book become entries of this one, under new sitting keys, with their origin. `renames` are
    // "The Amber=Their Amber". Errors: impossible for a vessel or run whose name is here (with the list of them), for
    // an invented cellar into a kept one, for what the cellar could not do; bad_input for a copy of this book.
    [[nodiscard]] Result<ImportView> import_book(const ledger::BookCopy& other, const std::vector<std::string>& renames,
                                                 Booking booking);
    // What another copy of this book has and this one has not, under its own keys and in its own places. Errors:
    // bad_input for another book, impossible naming the entry that breaks, stale for a sitting that says another thing
    // here.
    [[nodiscard]] Result<ImportView> import_copy(const ledger::BookCopy& other, Booking booking);
    // Errors: bad_input for another book.
    [[nodiscard]] Result<CompareView> compare(const ledger::BookCopy& other, const std::string& name);
    // Rows become readings, tastings and notes, one sitting for each day and vessel. Errors: bad_input with one fact
    // for every row that cannot be read.
    [[nodiscard]] Result<SheetView> import_sheet(const SheetRequest& request, Booking booking);

private:
    [[nodiscard]] Result<void> check_writable(Booking booking) const;

    ledger::Journal& m_journal;
    ledger::Bulk& m_bulk;
    const Zone& m_zone;
    const tables::Tables& m_tables;
    Surroundings m_surroundings;
};

}  // namespace undercroft::app
