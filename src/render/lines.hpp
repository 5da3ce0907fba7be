// Lines and tables of UTF-8 text. For the .cpp files of this folder.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace undercroft::render {

inline constexpr std::size_t k_columns = 100;

// Characters, each one column wide; combining marks count none.
[[nodiscard]] std::size_t width_of(std::string_view text);
[[nodiscard]] std::string padded(std::string_view text, std::size_t width);
// At most `width` columns, the last an ellipsis when it was longer.
[[nodiscard]] std::string clipped(std::string_view text, std::size_t width);
// `text` broken at blanks into lines of at most `width` columns; line breaks in it stay. A word too long stands alone.
[[nodiscard]] std::vector<std::string> broken(std::string_view text, std::size_t width);
// The same as lines of the terminal: `first` before the first line, as many blanks before the others.
[[nodiscard]] std::string wrapped(std::string_view first, std::string_view text);

enum class Align { left, right };

// Columns as wide as their widest cell; the last one wraps where the line is full.
class Table {
public:
    explicit Table(std::vector<Align> columns) : m_columns(std::move(columns)) {}
    void head(std::vector<std::string> cells);
    void row(std::vector<std::string> cells);
    [[nodiscard]] bool empty() const { return m_rows.size() == (m_has_head ? 1U : 0U); }
    // Indented by two; columns where every row is empty are left out.
    [[nodiscard]] std::string text() const;

private:
    std::vector<Align> m_columns;
    std::vector<std::vector<std::string>> m_rows;
    bool m_has_head = false;
};

}  // namespace undercroft::render
