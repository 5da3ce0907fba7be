// A text that runs over pages: headings, paragraphs, rows of a table, strips of strata; every page says what it belongs
// to.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/views.hpp"
#include "paper/canvas.hpp"

namespace undercroft::paper {

// Share of the width, and the words of a cell.
struct Cell {
    double share = 0.0;
    std::string words;
};

class Flow {
public:
    // `points`: size of its letters; the margins and gaps go with it.
    Flow(const PageSize& page, const Imprint& imprint, double points);

    void heading(std::string_view words);
    void small_heading(std::string_view words);
    void paragraph(std::string_view words, bool bold = false);
    void point(std::string_view words);  // of a list
    void row(const std::vector<Cell>& cells, bool bold = false);
    void strata(const std::vector<app::Stratum>& strata);
    void gap();
    // So that at least `height` mm of this page are left, else the next one begins.
    void keep_together(double height);
    void next_page();

    [[nodiscard]] Canvas& canvas() { return m_canvas; }
    [[nodiscard]] double left() const { return m_margin; }
    [[nodiscard]] double top() const { return m_margin; }
    [[nodiscard]] double width() const { return m_page.width - 2.0 * m_margin; }
    [[nodiscard]] double height() const { return m_page.height - 2.0 * m_margin - m_foot; }
    [[nodiscard]] int pages() const { return m_pages; }

    [[nodiscard]] Result<std::string> finish();

private:
    void say_foot();
    void put(std::string_view words, const Style& style, double indent = 0.0);

    PageSize m_page;
    Imprint m_imprint;
    double m_points;
    double m_margin;
    double m_foot;
    Canvas m_canvas;
    double m_y;
    int m_pages = 1;
};

}  // namespace undercroft::paper
