#include "paper/labels.hpp"
#include "base/letters.hpp"

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include "paper/canvas.hpp"
#include "paper/printable.hpp"
#include "paper/strata.hpp"
#include "units/amount.hpp"

namespace undercroft::paper {

namespace {

constexpr double k_largest_points = 9.0;
constexpr double k_least_points = 4.4;
constexpr double k_step_points = 0.2;
constexpr double k_x_height = 0.536;  // of the size of the face used
constexpr double k_gap = 1.5;
constexpr double k_strip = 2.4;
constexpr double k_least_code = 15.0;
constexpr double k_largest_code = 27.0;

std::string fact(const app::LabelView& label, std::string_view name) {
    for (const auto& [known, value] : label.facts)
        if (known == name) return value;
    return {};
}

struct Line {
    std::string words;
    bool bold = false;
};

std::string spoken(const char* before, const std::string& value) {
    return value.empty() ? std::string() : before + value;
}

std::vector<Line> lines_of(const app::LabelView& label) {
    std::vector<Line> lines;
    const auto add = [&lines](std::string words, bool bold = false) {
        if (!words.empty()) lines.push_back({std::move(words), bold});
    };
    add(joined({fact(label, "run"), spoken("packaged ", fact(label, "packaged")), fact(label, "contents"),
                fact(label, "alcohol")},
               "  ·  "),
        true);
    add(spoken("Allergens: ", fact(label, "allergens")), true);
    add(fact(label, "culture"), true);
    add(spoken("Age: ", fact(label, "age")));
    add(spoken("Made up of ", fact(label, "make-up")));
    add(spoken("With ", fact(label, "with")));
    add(joined({spoken("Best ", fact(label, "best")), spoken("Serve ", fact(label, "serving"))}, ". "));
    add(fact(label, "caution"));
    if (label.book.invented) add("Invented: nothing here is real.");
    return lines;
}

struct Place {
    double x, y, width, height;
};

// --- belly -------------------------------------------------------------------------------------

struct BellyPlan {
    double code = 0.0;  // side
    double text_width = 0.0;
    double points = 0.0;
};

double text_height(Canvas& canvas, const app::LabelView& label, const std::vector<Line>& lines, double width,
                   double points) {
    double high = canvas.height_of(width, fact(label, "name"), {points * 1.6, true, true, Align::left});
    if (!label.strata.empty()) high += k_strip + 0.8;
    for (const Line& line : lines) high += canvas.height_of(width, line.words, {points, line.bold, false, Align::left});
    return high;
}

double margin_of(const Grid& grid) {
    return std::min(2.5, 0.06 * grid.height);
}

Result<BellyPlan> plan_belly(Canvas& canvas, const app::LabelView& label, const std::vector<Line>& lines,
                             const Grid& grid, bool pictured) {
    const double margin = margin_of(grid);
    const double high = grid.height - 2.0 * margin;
    BellyPlan plan;
    plan.code = std::min({pictured ? high / 2.0 - 0.5 : high, 0.36 * grid.width, k_largest_code});
    plan.text_width = grid.width - 2.0 * margin - plan.code - k_gap;
    if (plan.code >= k_least_code)
        for (plan.points = k_largest_points; plan.points >= k_least_points; plan.points -= k_step_points)
            if (text_height(canvas, label, lines, plan.text_width, plan.points) <= high) return plan;
    return fail(ErrorKind::bad_input, "grid",
                "A label of " + number_text(grid.width, 0) + " by " + number_text(grid.height, 0) +
                    " mm has no room for all that " + label.run + " has to say" +
                    (pictured ? " beside a picture" : "") +
                    ", and nothing is cut off. Choose larger labels, such as A4 2x4 or Letter 2x3" +
                    (pictured ? ", or leave the picture out." : "."));
}

Result<void> draw_belly(Canvas& canvas, const app::LabelView& label, const std::vector<Line>& lines, const Place& at,
                        const BellyPlan& plan, const LabelJob& job) {
    const double margin = margin_of(job.grid);
    const double x = at.x + margin;
    double y = at.y + margin;
    y += canvas.text(x, y, plan.text_width, fact(label, "name"), {plan.points * 1.6, true, true, Align::left});
    if (!label.strata.empty()) {
        draw_strata(canvas, x, y, plan.text_width, k_strip, label.strata);
        y += k_strip + 0.8;
    }
    for (const Line& line : lines)
        y += canvas.text(x, y, plan.text_width, line.words, {plan.points, line.bold, false, Align::left});
    const double right = at.x + at.width - margin - plan.code;
    TRY_VOID(canvas.code(right, at.y + margin, plan.code, label_code(label)));
    if (!job.picture.empty())
        TRY_VOID(canvas.picture(right, at.y + at.height - margin - plan.code, plan.code, plan.code, job.picture));
    return {};
}

// --- neck and crown ----------------------------------------------------------------------------

std::vector<Line> short_lines(const app::LabelView& label, LabelShape shape) {
    const std::string alcohol = fact(label, "alcohol");
    const std::string strength = alcohol.substr(0, alcohol.find(" ("));
    const std::string packaged = fact(label, "packaged");
    if (shape == LabelShape::crown)
        return {{fact(label, "run"), true}, {packaged.substr(0, 7), false}, {strength, false}};
    return {{fact(label, "name"), true},
            {joined({fact(label, "run"), strength}, "  ·  "), true},
            {joined({packaged, spoken("best ", fact(label, "best"))}, ", "), false}};
}

struct ShortPlan {
    std::vector<Line> lines;
    double width = 0.0;
    double points = 0.0;
    double height = 0.0;
};

Result<ShortPlan> plan_short(Canvas& canvas, const app::LabelView& label, const LabelJob& job) {
    ShortPlan plan;
    plan.lines = short_lines(label, job.shape);
    std::erase_if(plan.lines, [](const Line& line) { return line.words.empty(); });
    const bool round = job.shape == LabelShape::crown;
    const double side = std::min(job.grid.width, job.grid.height);
    // What fits in a circle of that side.
    plan.width = round ? 0.72 * side : job.grid.width - 3.0;
    const double high = round ? 0.66 * side : job.grid.height - 2.0;
    for (plan.points = 12.0; plan.points >= k_least_points; plan.points -= k_step_points) {
        plan.height = 0.0;
        bool whole = true;  // on a crown no word is broken
        for (const Line& line : plan.lines) {
            const Style style{plan.points, line.bold, false, Align::centre};
            plan.height += canvas.height_of(plan.width, line.words, style);
            whole = whole && (!round || canvas.width_of(line.words, style) <= plan.width);
        }
        if (whole && plan.height <= high) return plan;
    }
    return fail(ErrorKind::bad_input, "grid",
                "A mark of " + number_text(job.grid.width, 0) + " by " + number_text(job.grid.height, 0) +
                    " mm has no room for the code of " + label.run + "; choose larger ones.");
}

void draw_short(Canvas& canvas, const Place& at, const ShortPlan& plan, LabelShape shape) {
    const double x = at.x + (at.width - plan.width) / 2.0;
    double y = at.y + (at.height - plan.height) / 2.0;
    for (const Line& line : plan.lines)
        y += canvas.text(x, y, plan.width, line.words, {plan.points, line.bold, false, Align::centre});
    if (shape == LabelShape::crown)
        canvas.circle(at.x + at.width / 2.0, at.y + at.height / 2.0, std::min(at.width, at.height) / 2.0 - 0.3);
}

Result<void> check_job(const app::LabelView& label, const LabelJob& job) {
    if (job.count < 1 || job.count > k_most_labels)
        return fail(ErrorKind::bad_input, "count",
                    std::to_string(job.count) + " labels; 1 to " + std::to_string(k_most_labels) + " can be printed.");
    if (job.first_cell < 1 || job.first_cell > job.grid.cells())
        return fail(ErrorKind::bad_input, "first",
                    "A sheet " + job.grid.name + " has labels 1 to " + std::to_string(job.grid.cells()) +
                        "; asked for " + std::to_string(job.first_cell) + ".");
    for (const auto& [name, value] : label.facts) TRY_VOID(printable(name, value));
    if (!job.picture.empty()) {
        if (job.shape != LabelShape::belly)
            return fail(ErrorKind::bad_input, "picture", "Only a belly label has room for a picture.");
        TRY_VOID(picture_of_use(job.picture));
    }
    return {};
}

}  // namespace

std::string label_code(const app::LabelView& label) {
    std::string text = fact(label, "run") + "\n" + fact(label, "name") + "\n";
    text +=
        joined({spoken("packaged ", fact(label, "packaged")), fact(label, "contents"), fact(label, "alcohol")}, ", ") +
        "\n";
    text += "allergens: " + fact(label, "allergens") + "\n" + fact(label, "culture");
    if (label.book.invented) text += "\ninvented";
    return text;
}

Result<LabelSheet> label_sheet(const app::LabelView& label, const LabelJob& job, const std::string& made_on) {
    TRY_VOID(check_job(label, job));
    Canvas canvas(job.grid.page, {"Labels of " + label.run, made_on});
    const std::vector<Line> lines = lines_of(label);
    BellyPlan belly;
    ShortPlan small;
    if (job.shape == LabelShape::belly) {
        TRY(belly, plan_belly(canvas, label, lines, job.grid, !job.picture.empty()));
    } else {
        TRY(small, plan_short(canvas, label, job));
    }
    LabelSheet sheet;
    sheet.pages = 1;
    sheet.points = job.shape == LabelShape::belly ? belly.points : small.points;
    sheet.x_height_mm = sheet.points * k_x_height * k_mm_a_point;
    int cell = job.first_cell - 1;
    for (int i = 0; i < job.count; ++i, ++cell) {
        if (cell == job.grid.cells()) {
            canvas.next_page();
            cell = 0;
            ++sheet.pages;
        }
        const Place at{job.grid.x_of(cell), job.grid.y_of(cell), job.grid.width, job.grid.height};
        if (job.outlines) canvas.frame(at.x, at.y, at.width, at.height, 0.1);
        if (job.shape == LabelShape::belly) {
            TRY_VOID(draw_belly(canvas, label, lines, at, belly, job));
        } else {
            draw_short(canvas, at, small, job.shape);
        }
    }
    TRY(sheet.pdf, canvas.finish());
    return sheet;
}

}  // namespace undercroft::paper
