// Bottles: the first opening, the checks of their gas, and those whose gas is in doubt.
#include <algorithm>
#include <array>
#include <cmath>

#include "app/bodies.hpp"
#include "app/due_parts.hpp"
#include "app/gas.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// data/tasks.csv, pressure_recheck: "repeat at 3, 6 and 12 months"; open_later: sour to 24 months.
constexpr auto k_recheck_days = std::to_array<int>({91, 183, 365, 730});

bool is_lively(const DueBook& book, int run) {
    const auto question = gas_question_of(book.seen.cellar, book.seen.states, book.tables, {-1, run});
    return std::any_of(question.cultures.begin(), question.cultures.end(), [](const tables::CultureKind* kind) {
        return kind->makes_acid.find("lactic") != std::string::npos;
    });
}

// The gravity as packaged and as last read in the bottle, when it fell.
std::optional<std::string> fallen_gravity(const DueBook& book, int run) {
    const engine::LiquidState& now = book.seen.states.runs[at_index(run)];
    if (now.gravity_provenance != engine::Provenance::read || now.watch.size() < 1) return std::nullopt;
    const RunState& state = book.seen.cellar.runs[at_index(run)];
    // The newest reading of the vessel it came from, before it was packaged.
    std::optional<double> before;
    for (const int index : book.seen.cellar.vessels[at_index(state.source)].entries) {
        const Entry& entry = *book.seen.cellar.entries[at_index(index)];
        if (entry.at() > state.packaged) break;
        if (const auto* reading = std::get_if<Reading>(&entry.body))
            for (const Measured& one : reading->values)
                if (one.quantity == Quantity::gravity)
                    before = engine::gravity_of_reading(
                        one, reading->read_at_c,
                        book.seen.cellar.calibration_at(index, reading->instrument, one.quantity));
    }
    constexpr double k_fall = 0.001;
    const double after = now.watch.back().gravity;
    if (!before || *before - after < k_fall) return std::nullopt;
    return "gravity fell from " + number_text(*before, 4) + " when it was packaged to " + number_text(after, 4) +
           " in the bottle: gas was made";
}

}  // namespace

void add_run(const DueBook& book, int run, std::vector<DueLine>& lines) {
    const engine::HolderRef holder{-1, run};
    const RunState& state = book.seen.cellar.runs[at_index(run)];
    const DueHistory history = book.history(holder);
    const Day packaged = book.day_of(state.packaged);
    const std::string open = "undercroft take " + book.typed(holder) + " opened WORDS";

    if (const auto fallen = fallen_gravity(book, run)) {
        book.add(lines,
                 urgent_line(state.as.run, "gas",
                             "gas in doubt: " + std::to_string(state.left) + " left, leave them cold and boxed",
                             *fallen, "undercroft gas " + book.typed(holder)),
                 book.today, book.today, std::nullopt);
        return;
    }

    const tables::Task* first = book.task("first_open");
    const tables::Task* condition = book.task(is_lively(book, run) ? "condition_sour" : "condition_clean");
    if (history.opened.empty() && history.readings.empty() && first != nullptr && condition != nullptr) {
        const Day due = add_days(packaged, static_cast<int>(std::lround(condition->duration_typical)));
        const Day until = std::max(due, add_days(packaged, static_cast<int>(first->lag_max_days.value_or(60.0))));
        book.add(lines,
                 due_line(state.as.run, "open", "open the first bottle",
                          "packaged " + iso_text(packaged) + "; conditioning takes " +
                              days_text(static_cast<int>(std::lround(condition->duration_typical))) +
                              " (data/tasks.csv); " + first->cautions,
                          open),
                 add_days(packaged, static_cast<int>(first->lag_min_days.value_or(14.0))), due, until);
        return;
    }
    std::optional<int> days = book.interval(holder, Recurring::reading);
    if (days == 0) return;
    Day looked = packaged;
    for (const auto* list : {&history.opened, &history.readings})
        if (!list->empty()) looked = std::max(looked, list->back());
    std::optional<Day> due;
    std::string rule = "asked for";
    if (days) {
        due = add_days(looked, *days);
    } else {
        // Of the steps it has missed only the newest is asked for.
        for (const int step : k_recheck_days) {
            const Day day = add_days(packaged, step);
            if (day <= looked) continue;
            if (due && day > book.today) break;
            due = day;
            if (day > book.today) break;
        }
        rule = "gas is checked again at 3, 6, 12 and 24 months";
    }
    if (!due) return;
    book.add(
        lines,
        due_line(state.as.run, "recheck", "open one and look at its gas",
                 "packaged " + iso_text(packaged) + ", last opened or read " + iso_text(looked) + "; " + rule, open),
        *due, *due, std::nullopt);
}

}  // namespace undercroft::app
