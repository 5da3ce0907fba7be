#include "paper/flow.hpp"

#include <algorithm>

#include "paper/strata.hpp"

namespace undercroft::paper {

namespace {

constexpr double k_title = 1.7;  // of the letters of the text
constexpr double k_small_title = 1.2;

}  // namespace

Flow::Flow(const PageSize& page, const Imprint& imprint, double points)
    : m_page(page),
      m_imprint(imprint),
      m_points(points),
      m_margin(points * 1.6),
      m_foot(points * 0.7),
      m_canvas(page, imprint),
      m_y(points * 1.6) {
    say_foot();
}

void Flow::say_foot() {
    const Style style{m_points * 0.8, false, false, Align::left};
    const double y = m_page.height - m_margin;
    m_canvas.line(m_margin, y - 0.5, m_page.width - m_margin, y - 0.5, 0.1);
    m_canvas.text(m_margin, y, width(), m_imprint.title + ", " + m_imprint.made_on, style);
    m_canvas.text(m_margin, y, width(), "page " + std::to_string(m_pages), {style.points, false, false, Align::right});
}

void Flow::next_page() {
    m_canvas.next_page();
    ++m_pages;
    m_y = m_margin;
    say_foot();
}

void Flow::keep_together(double height) {
    if (m_y > m_margin && m_y + height > m_margin + this->height()) next_page();
}

void Flow::gap() {
    m_y += m_points * k_mm_a_point;
}

void Flow::put(std::string_view words, const Style& style, double indent) {
    keep_together(m_canvas.height_of(width() - indent, words, style));
    m_y += m_canvas.text(m_margin + indent, m_y, width() - indent, words, style);
}

void Flow::heading(std::string_view words) {
    keep_together(m_points * 6.0 * k_mm_a_point);
    put(words, {m_points * k_title, true, true, Align::left});
    m_y += m_points * 0.3 * k_mm_a_point;
}

void Flow::small_heading(std::string_view words) {
    gap();
    keep_together(m_points * 5.0 * k_mm_a_point);
    put(words, {m_points * k_small_title, true, true, Align::left});
}

void Flow::paragraph(std::string_view words, bool bold) {
    put(words, {m_points, bold, false, Align::left});
    m_y += m_points * 0.3 * k_mm_a_point;
}

void Flow::point(std::string_view words) {
    const double indent = m_points * k_mm_a_point;
    const Style style{m_points, false, false, Align::left};
    keep_together(m_canvas.height_of(width() - indent, words, style));
    m_canvas.text(m_margin, m_y, indent, "–", style);
    put(words, style, indent);
}

void Flow::row(const std::vector<Cell>& cells, bool bold) {
    const Style style{m_points, bold, false, Align::left};
    const double between = m_points * 0.6 * k_mm_a_point;
    double high = 0.0;
    for (const Cell& cell : cells)
        high = std::max(high, m_canvas.height_of(cell.share * width() - between, cell.words, style));
    keep_together(high);
    double x = m_margin;
    for (const Cell& cell : cells) {
        m_canvas.text(x, m_y, cell.share * width() - between, cell.words, style);
        x += cell.share * width();
    }
    m_y += high + 0.3;
    m_canvas.line(m_margin, m_y, m_margin + width(), m_y, 0.08);
    m_y += 0.3;
}

void Flow::strata(const std::vector<app::Stratum>& strata) {
    if (strata.empty()) return;
    const double high = m_points * 1.1 * k_mm_a_point;
    keep_together(high);
    draw_strata(m_canvas, m_margin, m_y, width(), high, strata);
    m_y += high + m_points * 0.4 * k_mm_a_point;
}

Result<std::string> Flow::finish() {
    return m_canvas.finish();
}

}  // namespace undercroft::paper
