#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "render/ages.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"

namespace undercroft::render {
namespace {

constexpr std::size_t k_plot_columns = 60;

std::string plan_lines(const app::SoleraView& view) {
    const engine::SoleraPlan& plan = view.plan;
    std::string vessels;
    for (const Volume stage : plan.stages) vessels += (vessels.empty() ? "" : " -> ") + text_of(stage, view.book.unit);
    std::string out =
        wrapped("  ", fmt::format("new beer -> {} -> {} every {} ({} of the last vessel)", vessels,
                                  text_of(plan.pull, view.book.unit), duration_text(plan.interval_years),
                                  percent_text(plan.pull.in_litres() / plan.stages.back().in_litres(), 1)));
    out += wrapped(
        "  ", fmt::format("Mean age by volume, before the pull, counted from {}; {}.",
                          plan.age_in_years > 0.0
                              ? "the brew day (new beer enters " + duration_text(plan.age_in_years) + " old)"
                              : std::string("the day beer enters"),
                          plan.mixing == 1.0
                              ? std::string("vessels perfectly mixed")
                              : fmt::format("mixing quality {}, two zones, drawn from {}", number_text(plan.mixing, 2),
                                            plan.drawn == engine::DrawnFrom::below ? "below" : "above")));
    return out;
}

std::string turn_table(const app::SoleraView& view) {
    std::vector<Align> columns(7 + view.older_than.size(), Align::right);
    Table table(columns);
    std::vector<std::string> head{"turn", "after", "pulled", "mean age", "spread", "youngest", "first fill"};
    for (const double years : view.older_than) head.push_back(duration_text(years) + " and over");
    table.head(head);
    for (const engine::SoleraTurn& turn : view.turns) {
        std::vector<std::string> cells{
            std::to_string(turn.turn),
            duration_text(turn.years),
            text_of(turn.pulled, view.book.unit),
            number_text(turn.mean_years, 2) + " years",
            number_text(turn.sd_years, 2),
            percent_text(turn.fills.front().share, 0) + ", " + duration_text(turn.fills.front().years),
            percent_text(turn.original_share, turn.original_share < 0.0995 ? 1 : 0)};
        for (const double years : view.older_than) cells.push_back(percent_text(turn.share_older_than(years), 0));
        table.row(cells);
    }
    return table.text();
}

// One line a turn: how old the pull is on the way to where it settles.
std::string plot(const app::SoleraView& view, double limit_years) {
    double most = limit_years;
    for (const engine::SoleraTurn& turn : view.turns) most = std::max(most, turn.mean_years);
    if (most <= 0.0) return {};
    const auto column_of = [most](double years) {
        return static_cast<std::size_t>(std::lround(years / most * static_cast<double>(k_plot_columns)));
    };
    std::string out;
    for (const engine::SoleraTurn& turn : view.turns) {
        const std::size_t bar = column_of(turn.mean_years);
        const std::size_t limit = column_of(limit_years);
        std::string line;
        for (std::size_t i = 1; i <= k_plot_columns; ++i) line += i <= bar ? "\u2592" : i == limit ? "|" : " ";
        line.erase(line.find_last_not_of(' ') + 1);
        out += fmt::format("  {:>4}  {}\n", turn.turn, line);
    }
    return heading(fmt::format("Mean age of the pull, turn by turn; | where it settles, {} years",
                               number_text(limit_years, 2))) +
           out;
}

}  // namespace

std::string text_of(const app::SoleraView& view) {
    std::string out = "A solera of " + std::to_string(view.plan.stages.size()) +
                      (view.plan.stages.size() == 1 ? " vessel\n" : " stages\n");
    out += block_of(view.cautions) + "\n" + plan_lines(view) + "\n" + turn_table(view);
    if (view.limit_years) out += plot(view, *view.limit_years);
    out += heading("Settled");
    Sources sources;
    out += term_lines(view.settled, sources);
    out += heading("What is carried over from turn to turn") + term_lines(view.carried_over, sources);
    return out + sources.text();
}

}  // namespace undercroft::render
