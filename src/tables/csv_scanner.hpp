// Parts text into records and cells (RFC 4180): a cell in quotes may hold separators, line ends and doubled quotes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

class CsvScanner {
public:
    // Both must outlive the scanner; `file` is only a name for messages.
    CsvScanner(std::string_view bytes, const std::string& file, char separator = ',')
        : m_bytes(bytes), m_file(file), m_separator(separator) {}

    [[nodiscard]] bool at_end() const { return m_at >= m_bytes.size(); }
    // Where the next record starts, from 1.
    [[nodiscard]] int line() const { return m_line; }

    // Lines may end in LF or CRLF. Bad_input, naming line and column, for a quote in the wrong place.
    [[nodiscard]] Result<std::vector<std::string>> record();

private:
    [[nodiscard]] bool peek(char c) const { return !at_end() && m_bytes[m_at] == c; }
    [[nodiscard]] bool at_line_end() const;
    void end_line();
    [[nodiscard]] Result<std::string> bare(std::size_t column);
    [[nodiscard]] Result<std::string> quoted(std::size_t column);
    [[nodiscard]] Failure broken(std::size_t column, std::string_view what) const;

    std::string_view m_bytes;
    const std::string& m_file;
    char m_separator;
    std::size_t m_at = 0;
    int m_line = 1;
};

// Without the byte order mark that some programs put in front.
[[nodiscard]] std::string_view without_byte_order_mark(std::string_view bytes);

}  // namespace undercroft::tables
