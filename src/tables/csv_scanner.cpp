#include "tables/csv_scanner.hpp"

namespace undercroft::tables {

Result<std::vector<std::string>> CsvScanner::record() {
    std::vector<std::string> cells;
    while (true) {
        TRY(std::string cell, peek('"') ? quoted(cells.size()) : bare(cells.size()));
        cells.push_back(std::move(cell));
        if (peek(m_separator)) {
            ++m_at;
            continue;
        }
        end_line();
        return cells;
    }
}

bool CsvScanner::at_line_end() const {
    return at_end() || m_bytes[m_at] == '\n' || m_bytes.substr(m_at, 2) == "\r\n";
}

void CsvScanner::end_line() {
    if (at_end()) return;
    m_at += m_bytes[m_at] == '\r' ? 2U : 1U;
    ++m_line;
}

Result<std::string> CsvScanner::bare(std::size_t column) {
    const std::size_t begin = m_at;
    while (!at_line_end() && m_bytes[m_at] != m_separator) {
        if (m_bytes[m_at] == '"') return broken(column, "a quote inside a cell that does not start with one");
        ++m_at;
    }
    return std::string(m_bytes.substr(begin, m_at - begin));
}

Result<std::string> CsvScanner::quoted(std::size_t column) {
    std::string cell;
    for (++m_at; !at_end(); ++m_at) {
        const char c = m_bytes[m_at];
        if (c == '\n') ++m_line;
        if (c != '"') {
            cell.push_back(c);
            continue;
        }
        ++m_at;
        if (peek('"')) {
            cell.push_back('"');
            continue;
        }
        if (at_line_end() || m_bytes[m_at] == m_separator) return cell;
        const std::string_view separator = m_separator == ',' ? "comma" : m_separator == ';' ? "semicolon" : "tab";
        return broken(column,
                      "text after the closing quote; expected a " + std::string(separator) + " or the end of the line");
    }
    return broken(column, "a quote that is never closed");
}

Failure CsvScanner::broken(std::size_t column, std::string_view what) const {
    return fail(ErrorKind::bad_input,
                m_file + " line " + std::to_string(m_line) + ", column " + std::to_string(column + 1),
                "There is " + std::string(what) + ".");
}

std::string_view without_byte_order_mark(std::string_view bytes) {
    constexpr std::string_view k_mark = "\xEF\xBB\xBF";
    return bytes.starts_with(k_mark) ? bytes.substr(k_mark.size()) : bytes;
}

}  // namespace undercroft::tables
