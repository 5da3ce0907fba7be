#include "paper/grid.hpp"

#include <algorithm>
#include <cctype>
#include <optional>
#include <sstream>
#include <utility>

#include "base/letters.hpp"
#include "units/amount.hpp"

namespace undercroft::paper {

namespace {

constexpr double k_mm_per_inch = 25.4;

Grid grid_of(const PageSize& page, int columns, int rows, double width, double height, double left, double top,
             double gap_x, double gap_y) {
    return {page.name + " " + std::to_string(columns) + "x" + std::to_string(rows),
            page,
            columns,
            rows,
            width,
            height,
            left,
            top,
            gap_x,
            gap_y};
}

std::string without_blanks(const std::string& text) {
    std::string plain;
    for (const char c : lower(text))
        if (c != ' ') plain += c;
    return plain;
}

struct Pair {
    double first = 0.0;
    double second = 0.0;
};

// "95 x 55 mm"; `unit`: has one.
std::optional<Pair> pair_of(const std::string& text, bool unit) {
    std::istringstream in(text);
    Pair pair;
    std::string cross;
    if (!(in >> pair.first >> cross >> pair.second) || cross != "x") return std::nullopt;
    std::string word;
    in >> word;
    std::string more;
    if (in >> more) return std::nullopt;
    if (!unit) return word.empty() ? std::optional(pair) : std::nullopt;
    if (word == "in") return Pair{pair.first * k_mm_per_inch, pair.second * k_mm_per_inch};
    return word == "mm" ? std::optional(pair) : std::nullopt;
}

std::string known_names() {
    std::string names;
    for (const Grid& grid : known_grids()) names += (names.empty() ? "" : ", ") + grid.name;
    return names;
}

auto no_grid(const std::string& text) {
    return fail(ErrorKind::bad_input, "grid",
                "\"" + text.substr(0, 60) + "\" is no sheet of labels; known are " + known_names() +
                    ", or say your own: \"A4, 2 x 5, 95 x 55 mm, margin 10 x 12 mm, gap 2 x 2 mm\".");
}

Result<Grid> free_grid(const std::string& text) {
    std::vector<std::string> parts;
    std::istringstream cut(lower(text));
    for (std::string part; std::getline(cut, part, ',');) parts.push_back(trimmed(part));
    if (parts.size() < 3) return no_grid(text);
    const auto page = parse_page(parts[0]);
    const auto count = pair_of(parts[1], false);
    const auto cell = pair_of(parts[2], true);
    if (!page || !count || !cell) return no_grid(text);
    constexpr double k_most = 40.0;
    const auto is_count = [](double value) {
        return value >= 1.0 && value <= k_most && value == static_cast<int>(value);
    };
    if (!is_count(count->first) || !is_count(count->second))
        return fail(ErrorKind::bad_input, "grid", "A sheet has 1 to 40 columns and as many rows.");
    Grid grid = grid_of(*page, static_cast<int>(count->first), static_cast<int>(count->second), cell->first,
                        cell->second, -1.0, -1.0, 0.0, 0.0);
    for (std::size_t i = 3; i < parts.size(); ++i) {
        const auto blank = parts[i].find(' ');
        const std::string word = parts[i].substr(0, blank);
        const auto pair = pair_of(blank == std::string::npos ? "" : parts[i].substr(blank + 1), true);
        if (!pair || (word != "margin" && word != "gap")) return no_grid(text);
        (word == "margin" ? grid.left : grid.gap_x) = pair->first;
        (word == "margin" ? grid.top : grid.gap_y) = pair->second;
    }
    const double wide = grid.columns * grid.width + (grid.columns - 1) * grid.gap_x;
    const double high = grid.rows * grid.height + (grid.rows - 1) * grid.gap_y;
    if (grid.left < 0.0) grid.left = (grid.page.width - wide) / 2.0;
    if (grid.top < 0.0) grid.top = (grid.page.height - high) / 2.0;
    constexpr double k_least_cell = 5.0;
    constexpr double k_slack = 0.05;
    if (!(grid.width >= k_least_cell) || !(grid.height >= k_least_cell))
        return fail(ErrorKind::bad_input, "grid", "A label is at least 5 mm wide and high.");
    if (grid.left < -k_slack || grid.top < -k_slack || grid.gap_x < 0.0 || grid.gap_y < 0.0 ||
        grid.left + wide > grid.page.width + k_slack || grid.top + high > grid.page.height + k_slack)
        return fail(ErrorKind::bad_input, "grid",
                    "These labels are " + number_text(wide, 1) + " by " + number_text(high, 1) +
                        " mm together and run over the edge of " + grid.page.name + ", " +
                        number_text(grid.page.width, 0) + " by " + number_text(grid.page.height, 0) + " mm.");
    return grid;
}

}  // namespace

PageSize a4() {
    return {"A4", 210.0, 297.0};
}

PageSize letter() {
    return {"Letter", 8.5 * k_mm_per_inch, 11.0 * k_mm_per_inch};
}

Result<PageSize> parse_page(const std::string& text) {
    const std::string name = lower(trimmed(text));
    if (name.empty() || name == "a4") return a4();
    if (name == "letter") return letter();
    return fail(ErrorKind::bad_input, "paper", "\"" + text.substr(0, 40) + "\" is no paper here; say A4 or Letter.");
}

const std::vector<Grid>& known_grids() {
    constexpr double in = k_mm_per_inch;
    static const std::vector<Grid> grids = {
        grid_of(a4(), 2, 4, 99.1, 67.7, 4.65, 13.1, 2.5, 0.0),
        grid_of(a4(), 2, 7, 99.1, 38.1, 4.65, 15.15, 2.5, 0.0),
        grid_of(a4(), 3, 7, 63.5, 38.1, 7.25, 15.15, 2.5, 0.0),
        grid_of(a4(), 3, 8, 70.0, 36.0, 0.0, 4.5, 0.0, 0.0),
        grid_of(a4(), 5, 13, 38.1, 21.2, 4.75, 10.7, 2.5, 0.0),
        grid_of(letter(), 2, 3, 4.0 * in, 10.0 / 3.0 * in, 0.15625 * in, 0.5 * in, 0.1875 * in, 0.0),
        grid_of(letter(), 2, 5, 4.0 * in, 2.0 * in, 0.15625 * in, 0.5 * in, 0.1875 * in, 0.0),
        grid_of(letter(), 3, 10, 2.625 * in, 1.0 * in, 0.1875 * in, 0.5 * in, 0.125 * in, 0.0),
        grid_of(letter(), 4, 20, 1.75 * in, 0.5 * in, 0.28125 * in, 0.5 * in, 0.3125 * in, 0.0)};
    return grids;
}

Result<Grid> parse_grid(const std::string& text) {
    const std::string wanted = without_blanks(text);
    for (const Grid& grid : known_grids())
        if (without_blanks(grid.name) == wanted) return grid;
    return text.find(',') == std::string::npos ? Result<Grid>(no_grid(text)) : free_grid(text);
}

}  // namespace undercroft::paper
