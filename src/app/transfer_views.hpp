// What moving books, and bringing things into one, answers: plain values for `render`.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "app/views.hpp"
#include "ledger/exporter.hpp"

namespace undercroft::app {

struct ExportView {
    BookLine book;
    std::string path;
    ledger::ExportTotals totals;
};

struct RestoreView {
    BookLine book;  // the new one
    std::string path;
    ledger::ExportTotals totals;
};

// A vessel or run that came in, as it stands now.
struct CameIn {
    std::string what;  // "vessel" or "run"
    std::string name;
    Volume holds;
};

// Entries of another book, or of another copy of this one.
struct ImportView {
    BookLine book;
    bool booked = false;     // false: what-if
    bool already = false;    // nothing there that was not here
    bool from_copy = false;  // of this very book
    std::string from;        // name of the other book
    std::string from_id;
    std::int64_t sittings = 0;  // new here
    std::int64_t entries = 0;
    std::int64_t already_here = 0;  // entries of the other that were here before
    std::int64_t first_number = 0;  // of what was booked
    std::int64_t last_number = 0;
    std::vector<std::pair<std::string, std::string>> renamed;  // their name, its name here
    std::vector<CameIn> came_in;
    std::vector<std::string> remarks;
};

// Two copies of one book, side by side.
struct CompareView {
    BookLine book;
    std::string other;               // what it was read from
    std::int64_t alike = 0;          // so many entries at the beginning are the same in both
    std::string alike_until;         // ISO day the last of them was booked; empty for none
    std::int64_t in_both = 0;        // entries that are in both, wherever they stand
    std::vector<EntryLine> here;     // only in this copy, in order of arrival
    std::vector<EntryLine> there;    // only in the other
    std::vector<std::string> clash;  // sittings that are in both under one key and say different things
    [[nodiscard]] bool same() const { return here.empty() && there.empty(); }
};

struct SheetView {
    BookLine book;
    std::string file;
    bool booked = false;  // false: what-if
    int rows = 0;         // with something in them
    int passed_over = 0;  // rows without anything to book
    int already = 0;      // readings, tastings and notes that the book, or an earlier row, held
    int readings = 0;
    int tastings = 0;
    int notes = 0;
    int sittings = 0;
    std::string first_day, last_day;                    // ISO days; empty when there is nothing new
    std::vector<std::pair<std::string, int>> subjects;  // vessel or run, entries
    std::int64_t first_number = 0;
    std::int64_t last_number = 0;
    std::vector<std::string> remarks;
};

}  // namespace undercroft::app
