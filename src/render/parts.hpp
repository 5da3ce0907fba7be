// What several answers share as text: title, cautions, ages and their picture, entries. For the .cpp files of this
// folder.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "app/views.hpp"

namespace undercroft::render {

// The book's name and `what` at the left, `right` at the right; under it, where they apply, that the cellar is
// invented and that the book is read-only. For a sum without a book only `what`.
[[nodiscard]] std::string title(const app::BookLine& book, std::string_view what, std::string_view right);
// An empty line, then `text`.
[[nodiscard]] std::string heading(std::string_view text);
// The cautions behind a bar of exclamation marks; nothing when there are none.
[[nodiscard]] std::string block_of(const std::vector<app::Caution>& cautions);

// "12 %", and "3.1 %" below ten.
[[nodiscard]] std::string share_text(double share);
// "2.1 years"; "about 9 years" when an assumed age weighs in.
[[nodiscard]] std::string mean_age_text(const engine::Age& age);
// Lightness says age: under one year, to two, to three, older.
[[nodiscard]] const char* shade_of(double age_years);
// A vessel lying on its side, `width` columns: beer oldest first, "~" what is not beer, dots the room left.
[[nodiscard]] std::string strata(const engine::Age& age, double fill, std::size_t width);
// The whole make-up, one bar a brew, youngest on top.
[[nodiscard]] std::string make_up(const engine::Age& age);

// "pH" of "ph": quantities as the trade writes them.
[[nodiscard]] std::string quantity_text(std::string_view quantity);
[[nodiscard]] std::string reading_text(const app::LastReading& reading);
// "12 days ago", "today".
[[nodiscard]] std::string ago_text(int days);
// One line each: when, what of, what.
[[nodiscard]] std::string due_table(const std::vector<app::DueLine>& lines);
// "overdue 12 days", "today", "in 3 days", "until 2026-05-02" of a window that is open.
[[nodiscard]] std::string due_text(const app::DueLine& line);
[[nodiscard]] std::string entry_lines(const std::vector<app::EntryLine>& entries);

// Standing findings under a heading, `most` of them at most; nothing when there are none.
[[nodiscard]] std::string finding_lines(std::string_view head, const std::vector<app::FindingView>& findings,
                                        std::size_t most);

// Sources of the figures of one answer, each printed once and numbered in order of use.
class Sources {
public:
    [[nodiscard]] std::string mark(const std::string& source);  // " [2]"; empty for no source
    [[nodiscard]] std::string text() const;

private:
    std::vector<std::string> m_sources;
};

// Each figure with how it was got.
[[nodiscard]] std::string term_lines(const std::vector<app::Term>& terms, Sources& sources);
// Digits worth showing of a value whose spread nobody gave: three, and four decimals of a gravity.
[[nodiscard]] std::string figure_text(double value, std::string_view unit);

}  // namespace undercroft::render
