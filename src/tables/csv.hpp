// Reads the CSV files of data/ (RFC 4180) and hands out their cells typed and checked.
//
// Holds: every record has as many cells as the header; the first thing wrong is an Error
// whose `where` names file, line and column, and whose `what` says what was expected.
// Leaves out: other separators, and cells that mean different things in different rows.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

// Both ends belong to it.
struct Range {
    double low = 0.0;
    double high = 0.0;
};

inline constexpr Range k_percent_range{0.0, 100.0};

class CsvTable;

// One record. It refers to its table, which must outlive it.
class CsvRow {
public:
    CsvRow(const CsvTable& table, std::size_t index) : m_table(&table), m_index(index) {}

    // Line of the file on which the record starts, from 1.
    [[nodiscard]] int line() const;

    // The cell as it stands; it may be empty.
    [[nodiscard]] Result<std::string> text_or_empty(std::string_view column) const;
    // Refuses an empty cell.
    [[nodiscard]] Result<std::string> text(std::string_view column) const;
    // Lower-case letters, digits and underscores, starting with a letter.
    [[nodiscard]] Result<std::string> id(std::string_view column) const;
    // "K1;K2 ; K28" gives three; an empty cell gives none.
    [[nodiscard]] Result<std::vector<std::string>> list(std::string_view column, char separator) const;
    // A decimal point, no unit; an empty cell is refused.
    [[nodiscard]] Result<double> number(std::string_view column, Range range) const;
    [[nodiscard]] Result<std::optional<double>> number_or_empty(std::string_view column, Range range) const;
    // The cell must be one of the given words.
    template <class T>
    [[nodiscard]] Result<T> word(std::string_view column,
                                 std::initializer_list<std::pair<std::string_view, T>> words) const;

    // An Error about this cell: what = "\"abc\": expected a number from 0 to 100."
    [[nodiscard]] Failure refuse(std::string_view column, std::string_view expected) const;

private:
    [[nodiscard]] Result<std::string_view> cell(std::string_view column) const;

    const CsvTable* m_table;
    std::size_t m_index;
};

class CsvTable {
public:
    // `file` is only a name for messages. Lines may end in LF or CRLF; a byte order mark is skipped.
    static Result<CsvTable> parse(std::string_view bytes, std::string file);

    [[nodiscard]] const std::string& file() const { return m_file; }
    [[nodiscard]] const std::vector<std::string>& columns() const { return m_columns; }
    [[nodiscard]] std::size_t size() const { return m_records.size(); }
    [[nodiscard]] CsvRow row(std::size_t index) const { return {*this, index}; }

private:
    friend class CsvRow;
    struct Record {
        int line = 0;
        std::vector<std::string> cells;
    };

    std::string m_file;
    std::vector<std::string> m_columns;
    std::vector<Record> m_records;
};

// Reads every record with `read` (CsvRow -> Result<T>), and refuses an empty table.
template <class T, class Read>
[[nodiscard]] Result<std::vector<T>> read_rows(std::string_view bytes, std::string file, Read read) {
    TRY(const CsvTable table, CsvTable::parse(bytes, std::move(file)));
    if (table.size() == 0) {
        return fail(ErrorKind::bad_input, table.file(),
                    "The table has no rows: expected a header and at least one row.");
    }
    std::vector<T> rows;
    rows.reserve(table.size());
    for (std::size_t index = 0; index < table.size(); ++index) {
        TRY(T value, read(table.row(index)));
        rows.push_back(std::move(value));
    }
    return rows;
}

template <class T>
Result<T> CsvRow::word(std::string_view column, std::initializer_list<std::pair<std::string_view, T>> words) const {
    TRY(const std::string found, text_or_empty(column));
    std::string accepted;
    for (const auto& [text, value] : words) {
        if (text == found) return value;
        accepted.append(accepted.empty() ? "one of \"" : ", \"").append(text).append("\"");
    }
    return refuse(column, accepted);
}

}  // namespace undercroft::tables
