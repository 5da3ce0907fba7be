#include "render/lines.hpp"

#include <algorithm>

namespace undercroft::render {
namespace {

constexpr std::size_t k_indent = 2;
constexpr std::size_t k_gap = 2;
// A last column is wrapped, but never to less than this.
constexpr std::size_t k_least_last_column = 16;

// True for the first byte of a character that takes a column: continuation bytes and combining marks
// (U+0300 to U+036F, CC 80 to CD AF) do not.
bool takes_column(std::string_view text, std::size_t i) {
    const auto byte = [&](std::size_t k) {
        return static_cast<unsigned>(static_cast<unsigned char>(k < text.size() ? text[k] : '\0'));
    };
    if ((byte(i) & 0xC0U) == 0x80U) return false;
    return !(byte(i) == 0xCCU || (byte(i) == 0xCDU && byte(i + 1) <= 0xAFU));
}

}  // namespace

std::size_t width_of(std::string_view text) {
    std::size_t width = 0;
    for (std::size_t i = 0; i < text.size(); ++i) width += takes_column(text, i) ? 1U : 0U;
    return width;
}

std::string padded(std::string_view text, std::size_t width) {
    const std::size_t own = width_of(text);
    return std::string(text) + std::string(width > own ? width - own : 0, ' ');
}

std::string clipped(std::string_view text, std::size_t width) {
    if (width_of(text) <= width) return std::string(text);
    std::size_t taken = 0;
    std::size_t end = 0;
    for (; end < text.size(); ++end)
        if (takes_column(text, end) && taken++ + 1 == width) break;
    return std::string(text.substr(0, end)) + "\u2026";
}

std::vector<std::string> broken(std::string_view text, std::size_t width) {
    std::vector<std::string> lines;
    while (true) {
        const std::size_t end = text.find('\n');
        std::string_view paragraph = text.substr(0, end);
        std::string line;
        while (!paragraph.empty()) {
            const std::size_t blank = paragraph.find(' ');
            const std::string_view word = paragraph.substr(0, blank);
            paragraph.remove_prefix(blank == std::string_view::npos ? paragraph.size() : blank + 1);
            if (!line.empty() && width_of(line) + 1 + width_of(word) > width) {
                lines.push_back(std::move(line));
                line = std::string(word);
            } else {
                line += (line.empty() ? "" : " ") + std::string(word);
            }
        }
        lines.push_back(std::move(line));
        if (end == std::string_view::npos) return lines;
        text.remove_prefix(end + 1);
    }
}

std::string wrapped(std::string_view first, std::string_view text) {
    const std::size_t indent = width_of(first);
    std::string out;
    for (const std::string& line : broken(text, k_columns - indent))
        out += (out.empty() ? std::string(first) : std::string(indent, ' ')) + line + "\n";
    return out;
}

void Table::head(std::vector<std::string> cells) {
    m_rows.insert(m_rows.begin(), std::move(cells));
    m_has_head = true;
}

void Table::row(std::vector<std::string> cells) {
    m_rows.push_back(std::move(cells));
}

std::string Table::text() const {
    std::vector<std::size_t> widths(m_columns.size(), 0);
    std::vector<bool> used(m_columns.size(), false);
    for (std::size_t r = 0; r < m_rows.size(); ++r)
        for (std::size_t c = 0; c < m_columns.size() && c < m_rows[r].size(); ++c) {
            widths[c] = std::max(widths[c], width_of(m_rows[r][c]));
            if (!m_rows[r][c].empty() && (r > 0 || !m_has_head)) used[c] = true;
        }
    std::size_t last = 0;
    for (std::size_t c = 0; c < used.size(); ++c)
        if (used[c]) last = c;

    std::string out;
    for (const auto& cells : m_rows) {
        std::string line(k_indent, ' ');
        for (std::size_t c = 0; c <= last; ++c) {
            if (!used[c]) continue;
            const std::string cell = c < cells.size() ? cells[c] : std::string{};
            if (c < last) {
                line += m_columns[c] == Align::right ? std::string(widths[c] - width_of(cell), ' ') + cell
                                                     : padded(cell, widths[c]);
                line += std::string(k_gap, ' ');
                continue;
            }
            const std::size_t at = width_of(line);
            const std::size_t room = std::max(k_least_last_column, k_columns > at ? k_columns - at : 0);
            if (m_columns[c] == Align::right && widths[c] <= room)
                line += std::string(widths[c] - width_of(cell), ' ') + cell;
            else
                for (const std::string& part : broken(cell, room)) {
                    if (width_of(line) > at) {
                        out += line + "\n";
                        line = std::string(at, ' ');
                    }
                    line += part;
                }
        }
        line.erase(line.find_last_not_of(' ') + 1);
        out += line + "\n";
    }
    return out;
}

}  // namespace undercroft::render
