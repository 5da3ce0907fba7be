#include "paper/tags.hpp"

#include <algorithm>

#include "base/letters.hpp"
#include "paper/canvas.hpp"
#include "paper/printable.hpp"

namespace undercroft::paper {

namespace {

constexpr double k_width = 90.0;
constexpr double k_height = 60.0;
constexpr double k_code = 27.0;
constexpr double k_hole = 2.5;  // radius

// What tells it from others at a glance: the number its name ends with, else the first letter, however many bytes it
// has.
std::string letter_of(const std::string& name) {
    const std::string last = name.substr(name.find_last_of(' ') + 1);
    if (last.size() < name.size() && last.size() <= 3 && std::all_of(last.begin(), last.end(), is_digit)) return last;
    std::size_t end = 1;
    while (end < name.size() && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) ++end;
    return name.substr(0, end);
}

// As large as fits the width, on one line.
double points_for(Canvas& canvas, const std::string& words, double width, double largest, double least) {
    double points = largest;
    while (points > least && canvas.width_of(words, {points, true, true, Align::left}) > width) points -= 1.0;
    return points;
}

Result<void> draw_tag(Canvas& canvas, const Tag& tag, double x, double y) {
    canvas.frame(x, y, k_width, k_height, 0.1);
    canvas.circle(x + 5.0, y + 5.0, k_hole, 0.1);
    const std::string letter = tag.letter.empty() ? letter_of(tag.name) : tag.letter;
    const double letter_width = k_width - k_code - 8.0;
    canvas.text(x + 4.0, y + 4.0, letter_width, letter,
                {points_for(canvas, letter, letter_width, 72.0, 16.0), true, true, Align::centre});
    TRY_VOID(canvas.code(x + k_width - k_code - 2.0, y + 3.0, k_code, tag.code));
    const double below = k_width - 8.0;
    const double name_points = points_for(canvas, tag.name, below, 20.0, 8.0);
    double down = y + 39.0;
    down += canvas.text(x + 4.0, down, below, tag.name, {name_points, true, true, Align::left});
    canvas.text(x + 4.0, down, below, tag.under, {9.0, false, false, Align::left});
    return {};
}

}  // namespace

Result<std::string> tags_pdf(const std::vector<Tag>& tags, const PageSize& page, const std::string& made_on) {
    if (tags.empty()) return fail(ErrorKind::bad_input, "vessel", "There is no vessel to print a tag for.");
    for (const Tag& tag : tags)
        for (const std::string* words : {&tag.letter, &tag.name, &tag.under}) TRY_VOID(printable("tag", *words));
    Canvas canvas(page, {"Tags", made_on});
    const int rows = static_cast<int>((page.height - 16.0) / k_height);
    const double left = (page.width - 2.0 * k_width) / 2.0;
    const double top = (page.height - rows * k_height) / 2.0;
    for (std::size_t i = 0; i < tags.size(); ++i) {
        const int cell = static_cast<int>(i) % (2 * rows);
        if (i > 0 && cell == 0) canvas.next_page();
        TRY_VOID(draw_tag(canvas, tags[i], left + (cell % 2) * k_width, top + (cell / 2) * k_height));
    }
    return canvas.finish();
}

}  // namespace undercroft::paper
