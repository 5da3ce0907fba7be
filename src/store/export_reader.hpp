// Reads an export line by line and proves it while it is read.
//
// Holds: whatever next() has given was what the book held, up to a change that somebody made with all the links after
// it made anew: every line has the one form that export_lines.hpp writes, every link follows, entries count 1, 2,
// 3, ..., sittings are whole, people's names and pictures fit their commitments, and who or what is named by an entry
// has a line. The first
// thing that is not so is the error: `where` is file, line and column (in bytes), `what` says what was expected.
// Memory grows with the number of people, pictures and sittings, not with the entries.
#pragma once

#include <cstdint>
#include <istream>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <variant>

#include "base/result.hpp"
#include "ledger/exporter.hpp"
#include "ledger/journal.hpp"

namespace undercroft::store {

struct ExportedEntry {
    ledger::Entry entry;    // with its sequence
    std::string canonical;  // the bytes it was read from
    std::string previous;   // link before it, 32 raw bytes
    std::string link;       // its own
};

class ExportReader {
public:
    // `in` must outlive the reader; `name` is how errors call the file.
    ExportReader(std::istream& in, std::string name) : m_in(in), m_name(std::move(name)) {}

    // The first line; called once, before anything else.
    // Errors: bad_input when this is no export, read_only when a newer program wrote it, storage when it is damaged.
    [[nodiscard]] Result<void> begin();
    [[nodiscard]] const ledger::BookFacts& facts() const { return m_facts; }
    [[nodiscard]] const std::string& facts_canonical() const { return m_facts_canonical; }

    // People first, then pictures, then entries; the totals come once, last, when all of it was proved.
    // Errors: storage, and read_only for an entry of a kind this program does not know.
    using Item = std::variant<ledger::Person, ledger::Picture, ExportedEntry, ledger::ExportTotals>;
    [[nodiscard]] Result<Item> next();

private:
    [[nodiscard]] Result<void> read_line();
    [[nodiscard]] Result<Item> person_line();
    [[nodiscard]] Result<Item> picture_line();
    [[nodiscard]] Result<Item> entry_line();
    [[nodiscard]] Result<Item> end_line();
    [[nodiscard]] Result<void> follow_sitting(const ledger::Entry& entry);
    [[nodiscard]] Result<void> know_persons(const ledger::Entry& entry);
    [[nodiscard]] Result<void> know_pictures(const ledger::Entry& entry);
    [[nodiscard]] Failure damaged(std::size_t at, const std::string& what) const;
    [[nodiscard]] Failure expected(std::size_t at, std::string_view wanted) const;
    [[nodiscard]] Failure newer(const std::string& what) const;
    // Reads at m_at and moves it on.
    [[nodiscard]] Result<void> literal(std::string_view wanted);
    [[nodiscard]] Result<std::string> hex(std::size_t digits);
    [[nodiscard]] Result<void> end_of_line();

    std::istream& m_in;
    std::string m_name;
    std::string m_line;
    std::int64_t m_number = 0;  // of the line, from 1
    std::size_t m_at = 0;       // byte of the line

    ledger::BookFacts m_facts;
    std::string m_facts_canonical;
    std::string m_link;
    std::int64_t m_last = 0;
    std::string m_last_person;
    std::string m_last_picture;
    std::map<std::string, std::int64_t> m_unnamed;           // commitment -> its line, until an entry names it
    std::map<std::string, std::int64_t> m_unnamed_pictures;  // the same
    std::set<std::string> m_persons;
    std::set<std::string> m_pictures;
    std::string m_sitting;
    int m_sitting_size = 0;
    int m_next_index = 0;
    std::set<std::string> m_sittings;
};

}  // namespace undercroft::store
