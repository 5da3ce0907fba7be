// A sheet of paper cut into cells: label sheets as they are sold, or a grid of one's own.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"

namespace undercroft::paper {

// All in millimetres.
struct PageSize {
    std::string name;
    double width = 0.0;
    double height = 0.0;
};
[[nodiscard]] PageSize a4();
[[nodiscard]] PageSize letter();
// "A4" or "Letter"; empty: A4.
[[nodiscard]] Result<PageSize> parse_page(const std::string& text);

struct Grid {
    std::string name;  // "A4 2x7"
    PageSize page;
    int columns = 1;
    int rows = 1;
    double width = 0.0;  // of a cell
    double height = 0.0;
    double left = 0.0;  // margins
    double top = 0.0;
    double gap_x = 0.0;
    double gap_y = 0.0;

    [[nodiscard]] int cells() const { return columns * rows; }
    [[nodiscard]] double x_of(int cell) const { return left + (cell % columns) * (width + gap_x); }
    [[nodiscard]] double y_of(int cell) const { return top + (cell / columns) * (height + gap_y); }
};

// Sizes that label sheets are commonly cut to, from memory (common practice, no source): try one on plain paper first.
[[nodiscard]] const std::vector<Grid>& known_grids();
// One of them by its name, or "A4, 2 x 5, 95 x 55 mm" with ", margin 10 x 12 mm" (left, top; left out: centred) and
// ", gap 2 x 2 mm"; "in" for inches. Fails: bad_input, naming what is known; also when it runs over the paper's edge.
[[nodiscard]] Result<Grid> parse_grid(const std::string& text);

}  // namespace undercroft::paper
