#include "tables/csv.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>

#include "tables/csv_scanner.hpp"

namespace undercroft::tables {

namespace {

std::string plain(double value) {
    char buffer[32];
    const auto [end, error] = std::to_chars(std::begin(buffer), std::end(buffer), value);
    return error == std::errc() ? std::string(std::begin(buffer), end) : std::string("?");
}

std::string_view trim(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

}  // namespace

Result<CsvTable> CsvTable::parse(std::string_view bytes, std::string file) {
    bytes = without_byte_order_mark(bytes);
    CsvTable table;
    table.m_file = std::move(file);
    if (bytes.empty()) {
        return fail(ErrorKind::bad_input, table.m_file, "The file is empty or missing: expected a header line.");
    }
    CsvScanner scanner(bytes, table.m_file);
    TRY(table.m_columns, scanner.record());
    for (std::size_t i = 0; i < table.m_columns.size(); ++i) {
        const std::string& name = table.m_columns[i];
        const auto earlier = table.m_columns.begin() + static_cast<std::ptrdiff_t>(i);
        if (name.empty() || std::find(table.m_columns.begin(), earlier, name) != earlier) {
            return fail(ErrorKind::bad_input, table.m_file + " line 1, column " + std::to_string(i + 1),
                        "\"" + name + "\": expected a column name that no other column has.");
        }
    }
    while (!scanner.at_end()) {
        const int line = scanner.line();
        TRY(std::vector<std::string> cells, scanner.record());
        if (cells.size() != table.m_columns.size()) {
            return fail(ErrorKind::bad_input,
                        table.m_file + " line " + std::to_string(line) + ", column " + std::to_string(cells.size()),
                        "The row has " + std::to_string(cells.size()) + " cells: expected " +
                            std::to_string(table.m_columns.size()) + ", as many as the header.");
        }
        table.m_records.push_back({line, std::move(cells)});
    }
    return table;
}

int CsvRow::line() const {
    return m_table->m_records[m_index].line;
}

Result<std::string_view> CsvRow::cell(std::string_view column) const {
    const auto& columns = m_table->m_columns;
    const auto found = std::find(columns.begin(), columns.end(), column);
    if (found == columns.end()) {
        return fail(ErrorKind::bad_input, m_table->m_file + " line 1",
                    "There is no column \"" + std::string(column) + "\": expected one.");
    }
    return std::string_view(m_table->m_records[m_index].cells[static_cast<std::size_t>(found - columns.begin())]);
}

Failure CsvRow::refuse(std::string_view column, std::string_view expected) const {
    const auto found = cell(column);
    return fail(
        ErrorKind::bad_input, m_table->m_file + " line " + std::to_string(line()) + ", column " + std::string(column),
        "\"" + std::string(found ? *found : std::string_view()) + "\": expected " + std::string(expected) + ".");
}

Result<std::string> CsvRow::text_or_empty(std::string_view column) const {
    TRY(const std::string_view found, cell(column));
    return std::string(found);
}

Result<std::string> CsvRow::text(std::string_view column) const {
    TRY(const std::string_view found, cell(column));
    if (trim(found).empty()) return refuse(column, "some text, not an empty cell");
    return std::string(found);
}

Result<std::string> CsvRow::id(std::string_view column) const {
    TRY(const std::string_view found, cell(column));
    const auto fits = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
    if (found.empty() || found.front() < 'a' || found.front() > 'z' || !std::all_of(found.begin(), found.end(), fits)) {
        return refuse(column, "an id of lower-case letters, digits and underscores, starting with a letter");
    }
    return std::string(found);
}

Result<std::vector<std::string>> CsvRow::list(std::string_view column, char separator) const {
    TRY(std::string_view rest, cell(column));
    std::vector<std::string> items;
    if (trim(rest).empty()) return items;
    while (true) {
        const std::size_t end = rest.find(separator);
        const std::string_view item = trim(rest.substr(0, end));
        if (item.empty()) return refuse(column, std::string("items between each \"") + separator + "\"");
        items.emplace_back(item);
        if (end == std::string_view::npos) return items;
        rest.remove_prefix(end + 1);
    }
}

Result<std::optional<double>> CsvRow::number_or_empty(std::string_view column, Range range) const {
    TRY(const std::string_view found, cell(column));
    if (found.empty()) return std::optional<double>();
    double value = 0.0;
    const char* const end = found.data() + found.size();
    const auto [stopped, error] = std::from_chars(found.data(), end, value);
    if (error != std::errc() || stopped != end || !std::isfinite(value) || value < range.low || value > range.high) {
        return refuse(column, "a number from " + plain(range.low) + " to " + plain(range.high));
    }
    return std::optional<double>(value);
}

Result<double> CsvRow::number(std::string_view column, Range range) const {
    TRY(const std::optional<double> value, number_or_empty(column, range));
    if (!value) return refuse(column, "a number from " + plain(range.low) + " to " + plain(range.high));
    return *value;
}

}  // namespace undercroft::tables
