// Finishing: what hangs or lies in a vessel, and the watch before packaging.
#include <algorithm>
#include <cmath>

#include "app/bodies.hpp"
#include "app/due_parts.hpp"
#include "app/gas.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// data/tasks.csv: spice_first_taste "after a third of its t90", spice_latest_out "at twice t90 at most".
constexpr double k_first_taste_share = 1.0 / 3.0;
constexpr double k_latest_out_share = 2.0;
// age_on_fruit: "first taste after 14 days, then every 14", 180 days at most.
constexpr int k_fruit_taste_days = 14;
// data/flavourings.csv: the row of high intensity begins here, g/L of beer.
constexpr double k_much_fruit_g_per_l = 200.0;

int whole_days(double days) {
    return static_cast<int>(std::lround(days));
}

// Days until nine tenths of what it gives has gone over; 0 for what gives no taste that is waited for.
double days_to_most(const DueBook& book, const Addition& addition, Volume beer) {
    if (addition.kind == AdditionKind::fruit) {
        const double dose = beer > Volume{} ? addition.mass.in_grams() / beer.in_litres() : 0.0;
        const auto row = book.tables.find_flavouring(
            dose >= k_much_fruit_g_per_l ? "fruit, high (traditional sour cherry/raspberry)" : "fruit, medium");
        return row ? (*row)->days_to_90_percent : 0.0;
    }
    if (addition.kind != AdditionKind::spice && addition.kind != AdditionKind::oak &&
        addition.kind != AdditionKind::hops)
        return 0.0;
    const auto row = book.tables.find_flavouring(addition.item);
    return row ? (*row)->days_to_90_percent : 0.0;
}

void add_addition(const DueBook& book, int vessel, const AdditionState& addition, std::vector<DueLine>& lines) {
    const engine::HolderRef holder{vessel, -1};
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    const double most = days_to_most(book, addition.as, state.liquid.volume);
    if (most <= 0.0) return;
    const Day in = book.day_of(addition.from);
    const DueHistory history = book.history(holder);
    const bool tasted = !history.tastings.empty() && history.tastings.back() >= in;
    const bool fruit = addition.as.kind == AdditionKind::fruit;
    const std::string& name = addition.as.name;
    const std::string rest = name + " went in " + iso_text(in) + "; nine tenths of it in " +
                             days_text(whole_days(most)) + " (data/flavourings.csv)";

    const int first = fruit ? k_fruit_taste_days : std::max(1, whole_days(most * k_first_taste_share));
    const Day last_tasted = tasted ? history.tastings.back() : in;
    const Day taste = fruit ? add_days(last_tasted, k_fruit_taste_days) : add_days(in, first);
    const tables::Task* ageing = book.task("age_on_fruit");
    const Day latest = fruit && ageing != nullptr
                           ? add_days(in, std::max(whole_days(ageing->duration_max), whole_days(most)))
                           : add_days(in, whole_days(most * k_latest_out_share));
    if ((fruit || !tasted) && taste < latest)
        book.add(lines,
                 due_line(state.as.name, "tasting", "taste the " + name,
                          fruit && tasted ? "last tasted " + iso_text(last_tasted) + "; fruit is tasted every " +
                                                days_text(k_fruit_taste_days)
                                          : rest,
                          "undercroft taste " + book.typed(holder) + " ATTRIBUTE=N WORDS --taster NAME"),
                 taste, taste, latest);
    const double ripe = fruit && ageing != nullptr ? std::max(most, ageing->duration_typical) : most;
    const Day out = add_days(in, whole_days(ripe));
    const std::string bag = "undercroft lift " + book.typed(holder) + " " + name;
    DueLine line =
        addition.as.contained
            ? due_line(state.as.name, "lift", "lift the " + name, rest + "; at the latest " + iso_text(latest), bag)
            : due_line(state.as.name, "rack", "rack it off the " + name,
                       rest + "; loose, so it stays behind when racked, at the latest " + iso_text(latest),
                       "undercroft rack " + book.typed(holder) + " --to VESSEL");
    line.urgent = book.today > latest && addition.as.contained;
    // Due as long as its window is open, overdue when that has closed.
    const Day due = book.today > latest ? latest : std::max(out, book.today);
    book.add(lines, std::move(line), taste, due, latest);
}

// The newest decision how the beer in a vessel is to be finished: what is to go in, and when a tasting tells what came.
void add_decided(const DueBook& book, int vessel, std::vector<DueLine>& lines) {
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    if (state.liquid.volume == Volume{}) return;
    const Entry* decision = nullptr;
    bool added = false;
    bool left = false;
    for (const Entry* entry : book.seen.cellar.entries) {
        if (entry->at() > book.seen.when) break;
        if (const auto* one = std::get_if<Decide>(&entry->body); one != nullptr && one->subject == state.key) {
            decision = entry;
            added = left = false;
        }
        if (decision == nullptr) continue;
        if (const auto* one = std::get_if<Addition>(&entry->body); one != nullptr && one->vessel == state.key)
            added = true;
        if (const auto* one = std::get_if<Move>(&entry->body); one != nullptr && one->from == state.key) left = true;
        if (const auto* one = std::get_if<Package>(&entry->body); one != nullptr && one->from == state.key) left = true;
    }
    if (decision == nullptr || left) return;
    const auto& body = std::get<Decide>(decision->body);
    const auto row = std::find_if(book.tables.techniques.begin(), book.tables.techniques.end(), [&](const auto& one) {
        const bool way = body.way.empty() || (body.way == "onto_beer") == (one.way == tables::FruitWay::onto_beer);
        return one.id == body.technique && way;
    });
    if (row == book.tables.techniques.end() || row->kind == tables::TechniqueKind::leave) return;
    const engine::HolderRef holder{vessel, -1};
    const Day day = book.day_of(decision->at());
    const std::string why = "decided " + iso_text(day) + ": " + row->name +
                            (body.unit.empty() ? "" : ", " + body.dose.text() + " " + body.unit);
    if (!added && !row->data_row.empty() && body.unit == "g/L") {
        const double grams = body.dose.value() * body.volume.in_litres();
        constexpr double k_gram_in_kg = 1000.0;
        const std::string mass = grams >= k_gram_in_kg ? number_text(grams / k_gram_in_kg, 2) + " kg"
                                                       : number_text(grams, grams >= 10.0 ? 0 : 1) + " g";
        book.add(lines,
                 due_line(state.as.name, "add", "put in " + mass + " of it", why,
                          "undercroft add " + book.typed(holder) + " \"" + row->data_row + "\" \"" + mass + "\""),
                 day, add_days(day, 1), std::nullopt);
        return;
    }
    const Day tells = add_days(day, std::max(1, whole_days(body.days.value())));
    const DueHistory history = book.history(holder);
    if (!history.tastings.empty() && history.tastings.back() >= tells) return;
    constexpr int k_patience = 14;
    book.add(lines,
             due_line(state.as.name, "tasting", "taste what came of it",
                      why + "; what was forecast stands in undercroft learned",
                      "undercroft taste " + book.typed(holder) + " ATTRIBUTE=N WORDS --taster NAME"),
             tells, std::max(tells, std::min(book.today, add_days(tells, k_patience))), add_days(tells, k_patience));
}

}  // namespace

std::optional<DueWatch> watch_of(const DueBook& book, int vessel) {
    const engine::LiquidState& state = book.seen.states.vessels[at_index(vessel)];
    if (!state.composition) return std::nullopt;
    const auto question = gas_question_of(book.seen.cellar, book.seen.states, book.tables, {vessel, -1});
    DueWatch watch;
    watch.needed = engine::package::evidence_needed(question.cultures);
    if (watch.needed.readings == 0) return std::nullopt;
    const bool cold =
        !state.temperatures_c.empty() && *std::min_element(state.temperatures_c.begin(), state.temperatures_c.end()) <
                                             engine::package::k_watch_warm.in_celsius();
    watch.days_needed = cold ? std::max(watch.needed.days, watch.needed.days_below_15_c) : watch.needed.days;
    const std::size_t since = engine::package::plateau_begin(state.watch, watch.needed.resolution_sg);
    watch.readings = static_cast<int>(state.watch.size() - since);
    if (watch.readings > 0) watch.since = book.day_of(state.watch[since].at);
    if (watch.readings > 0) {
        watch.newest = book.day_of(state.watch.back().at);
        watch.gravity = number_text(state.watch.back().gravity, 4);
        watch.complete = watch.readings >= watch.needed.readings &&
                         days_between(*watch.since, watch.newest) >= whole_days(watch.days_needed);
    }
    return watch;
}

void add_finishing(const DueBook& book, int vessel, std::vector<DueLine>& lines) {
    const engine::HolderRef holder{vessel, -1};
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    for (const int index : state.additions_inside)
        add_addition(book, vessel, book.seen.cellar.additions[at_index(index)], lines);
    add_decided(book, vessel, lines);
    if (state.as.role != VesselRole::finishing) return;
    const auto watch = watch_of(book, vessel);
    if (!watch || !watch->since) return;
    const int days = whole_days(watch->days_needed);
    if (watch->complete) {
        book.add(lines,
                 due_line(state.as.name, "gas", "gas check: the watch is complete",
                          std::to_string(watch->readings) + " readings of " + watch->gravity + " agree since " +
                              iso_text(*watch->since) + ", over the " + days_text(days) + " its cultures ask for",
                          "undercroft gas " + book.typed(holder) + " CONTAINER"),
                 book.today, book.today, std::nullopt);
        return;
    }
    const Day complete = std::max(add_days(*watch->since, days), book.today);
    book.add(
        lines,
        due_line(state.as.name, "watch", "the gravity watch is complete if it still reads " + watch->gravity,
                 std::to_string(watch->readings) +
                     (watch->readings == 1 ? " reading since " : " readings agree since ") + iso_text(*watch->since) +
                     "; its cultures ask for " + std::to_string(watch->needed.readings) + " over " + days_text(days),
                 "undercroft read " + book.typed(holder) + " GRAVITY --temperature TEMPERATURE"),
        complete, complete, std::nullopt);
}

}  // namespace undercroft::app
