// Bottles: the first opening, the checks of their gas, and those whose gas is in doubt.
#include <algorithm>
#include <array>
#include <cmath>

#include "app/bodies.hpp"
#include "app/due_parts.hpp"
#include "app/gas.hpp"
#include "base/letters.hpp"

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

constexpr double k_fall = 0.001;  // SG that no reading's doubt explains

// The newest gravity read of a vessel after `from` and before `to`.
std::optional<double> gravity_between(const DueBook& book, int vessel, std::optional<Instant> from, Instant to) {
    std::optional<double> found;
    for (const int index : book.seen.cellar.vessels[at_index(vessel)].entries) {
        const Entry& entry = *book.seen.cellar.entries[at_index(index)];
        if (entry.at() > to) break;
        if (from && entry.at() <= *from) continue;
        if (const auto* reading = std::get_if<Reading>(&entry.body))
            for (const Measured& one : reading->values)
                if (one.quantity == Quantity::gravity)
                    found = engine::gravity_of_reading(
                        one, reading->read_at_c,
                        book.seen.cellar.calibration_at(index, reading->instrument, one.quantity));
    }
    return found;
}

// The gravity as packaged and as last read in the bottle, when it fell.
std::optional<std::string> fallen_gravity(const DueBook& book, int run) {
    const engine::LiquidState& now = book.seen.states.runs[at_index(run)];
    if (now.gravity_provenance != engine::Provenance::read || now.watch.size() < 1) return std::nullopt;
    const RunState& state = book.seen.cellar.runs[at_index(run)];
    const auto before = gravity_between(book, state.source, std::nullopt, state.packaged);
    const double after = now.watch.back().gravity;
    if (!before || *before - after < k_fall) return std::nullopt;
    return "gravity fell from " + number_text(*before, 4) + " when it was packaged to " + number_text(after, 4) +
           " in the bottle: gas was made";
}

// What was left in the vessel it was filled from is the same beer until something is poured in.
std::optional<std::string> fallen_source(const DueBook& book, int run) {
    const Cellar& cellar = book.seen.cellar;
    const RunState& state = cellar.runs[at_index(run)];
    Instant until = book.seen.when;
    for (const Flow& flow : cellar.flows) {
        const Instant when = cellar.entries[at_index(flow.entry)]->at();
        if (flow.to_vessel == state.source && when > state.packaged) until = std::min(until, when);
    }
    const auto before = gravity_between(book, state.source, std::nullopt, state.packaged);
    const auto after = gravity_between(book, state.source, state.packaged, until);
    if (!before || !after || *before - *after < k_fall) return std::nullopt;
    return "the rest of it in " + cellar.vessels[at_index(state.source)].as.name + " fell from " +
           number_text(*before, 4) + " to " + number_text(*after, 4) + " since: the bottles may do the same";
}

// The warmest store that the newest verdict was given for, °C.
std::optional<double> checked_for(const DueBook& book, int run) {
    std::optional<double> celsius;
    for (const Entry* entry : book.seen.cellar.entries)
        if (const auto* verdict = std::get_if<Snapshot>(&entry->body); verdict != nullptr &&
                                                                       verdict->kind == SnapshotKind::verdict &&
                                                                       book.seen.cellar.run_of(verdict->subject) == run)
            if (const auto store = verdict->facts.find("store"); store != verdict->facts.end())
                if (const auto read = parse_temperature("store", store->second)) celsius = read->in_celsius();
    return celsius;
}

bool reads_gas(const Reading& reading) {
    return std::any_of(reading.values.begin(), reading.values.end(), [](const Measured& one) {
        return one.quantity == Quantity::gravity || one.quantity == Quantity::dissolved_co2;
    });
}

// A bottle that gushed, or a store warmer than the one that was checked. Only a later look into a bottle settles that:
// its gravity or its gas was read, and the check goes by what it showed.
std::vector<std::string> seen_on_the_shelf(const DueBook& book, int run) {
    constexpr double k_warmer_c = 1.0;
    const auto store = checked_for(book, run);
    std::vector<std::string> doubts;
    for (const int index : book.seen.cellar.runs[at_index(run)].entries) {
        const Entry& entry = *book.seen.cellar.entries[at_index(index)];
        const std::string day = iso_text(book.day_of(entry.at()));
        if (const auto* tasting = std::get_if<Tasting>(&entry.body))
            for (const std::string& fault : tasting->faults)
                if (lower(fault).find("gush") != std::string::npos) doubts.push_back("one gushed on " + day);
        const auto* reading = std::get_if<Reading>(&entry.body);
        if (reading != nullptr && reads_gas(*reading)) doubts.clear();
        if (reading != nullptr)
            for (const Measured& one : reading->values)
                if (one.quantity == Quantity::temperature && store && one.value.value() > *store + k_warmer_c)
                    doubts.push_back("it stood at " + number_text(one.value.value(), 0) + " °C on " + day +
                                     ", and was checked for " + number_text(*store, 0) + " °C");
    }
    return doubts;
}

std::vector<std::string> doubts_of(const DueBook& book, int run) {
    std::vector<std::string> doubts = seen_on_the_shelf(book, run);
    if (auto fallen = fallen_gravity(book, run)) doubts.insert(doubts.begin(), std::move(*fallen));
    if (auto fallen = fallen_source(book, run)) doubts.push_back(std::move(*fallen));
    return doubts;
}

}  // namespace

void add_run(const DueBook& book, int run, std::vector<DueLine>& lines) {
    const engine::HolderRef holder{-1, run};
    const RunState& state = book.seen.cellar.runs[at_index(run)];
    const DueHistory history = book.history(holder);
    const Day packaged = book.day_of(state.packaged);
    const std::string open = "undercroft take " + book.typed(holder) + " opened WORDS";

    if (const std::vector<std::string> doubts = doubts_of(book, run); !doubts.empty()) {
        std::string why;
        for (const std::string& doubt : doubts) why += (why.empty() ? "" : "; ") + doubt;
        why +=
            ". In this order: leave them cold, do not touch them warm; face shield and gloves; chill to 2 °C for a day "
            "in a closed box; then open or dump them outdoors";
        book.add(lines,
                 urgent_line(state.as.run, "gas",
                             "gas in doubt: " + std::to_string(state.left) + " left, leave them cold and boxed", why,
                             "undercroft gas " + book.typed(holder)),
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
    // The keeper's own plan of openings.
    if (const auto every = book.interval(holder, Recurring::tasting); every && *every > 0) {
        const Day last = history.opened.empty() ? packaged : history.opened.back();
        const Day due = add_days(last, *every);
        book.add(lines,
                 due_line(state.as.run, "open", "open one and taste it",
                          "one every " + days_text(*every) + ", as you planned; last opened " + iso_text(last), open),
                 due, due, std::nullopt);
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
