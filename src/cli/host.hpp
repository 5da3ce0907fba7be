// What the command line is lent from outside: streams, clock, chance, zones, and a way to open books.
//
// Holds: nothing here is decided by `cli`. Tests lend streams of text and books in memory.
#pragma once

#include <functional>
#include <iosfwd>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "app/book.hpp"
#include "base/instant.hpp"
#include "ledger/bulk.hpp"
#include "ledger/exporter.hpp"
#include "ledger/journal.hpp"
#include "tables/tables.hpp"

namespace undercroft::cli {

// What a book is opened for: a question leaves even a write-protected file as it is.
enum class For { asking, booking };

struct OpenBook {
    std::unique_ptr<ledger::Journal> journal;
    // Of the journal.
    ledger::Keepsafe* keepsafe = nullptr;
    ledger::Exporter* exporter = nullptr;
    ledger::Bulk* bulk = nullptr;
};

// What `serve` is asked for.
struct ServeOrder {
    std::string book;
    int port = 8733;                          // 0: a free one
    std::function<void(int port)> listening;  // told once requests are taken
};

struct Host {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    const tables::Tables& tables;
    app::Surroundings surroundings;
    std::string version;
    std::string book;       // path used when --book is left out; may be empty
    std::string zone_here;  // of this machine
    std::function<Result<OpenBook>(const std::string& path, For use)> open_book;
    // Refuses a file that is there.
    std::function<Result<OpenBook>(const std::string& path, const ledger::BookFacts& facts)> create_book;
    // Bad_input for a name nobody knows.
    std::function<Result<std::unique_ptr<Zone>>(const std::string& name)> zone;
    std::vector<std::string_view> demo_scripts;  // their sittings are laid in order of time
    bool at_terminal = false;                    // `in` is a keyboard: whoever types can be asked
    // Makes a book that is not there out of an export; `name` is how errors call it.
    std::function<Result<ledger::ExportTotals>(const std::string& path, std::istream& in, const std::string& name)>
        restore = {};
    // All of another book, or of an export, whichever the file is.
    std::function<Result<ledger::BookCopy>(const std::string& path)> read_copy = {};
    // The bytes of a file, `most` of them and one more at most.
    std::function<Result<std::string>(const std::string& path, std::size_t most)> read_file = nullptr;
    // A new file, there whole or not at all. Errors: bad_input when one of that name is there, not_found when its
    // folder is missing.
    std::function<Result<void>(const std::string& path, const std::string& bytes)> write_file = nullptr;
    // Serves a book until it is told to stop.
    std::function<Result<void>(const ServeOrder& order)> serve = nullptr;
};

}  // namespace undercroft::cli
