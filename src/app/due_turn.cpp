// The next turn of a solera: when to pull, and what comes before it.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "app/bodies.hpp"
#include "app/due_parts.hpp"
#include "app/gas.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// When vessels are pulled, in days. Common practice, no source; past turns and the keeper's `remind` come first.
struct Timing {
    int first_from, first_until;  // after it was first filled
    int next_from, next_until;    // after the pull before
};
constexpr Timing k_sour_wood{365, 730, 183, 365};
constexpr Timing k_sour_elsewhere{274, 548, 183, 365};
constexpr Timing k_clean{365, 548, 365, 456};
// Sooner after a refill layers and lag mislead (common practice).
constexpr int k_sour_rest_days = 122;
// A turn is a fifth earlier or later than usual without anybody asking why.
constexpr double k_usual_spread = 0.2;
constexpr std::size_t k_turns_counted = 3;
constexpr int k_taste_before_days = 14;
constexpr int k_tasting_fresh_days = 30;

bool is_sour(const DueBook& book, int vessel) {
    const auto question = gas_question_of(book.seen.cellar, book.seen.states, book.tables, {vessel, -1});
    return std::any_of(question.cultures.begin(), question.cultures.end(), [](const tables::CultureKind* kind) {
        return kind->makes_acid.find("lactic") != std::string::npos;
    });
}

struct Window {
    Day from;
    Day usual;  // in between: what to plan for
    Day until;
    std::string why;
};

Window window_of(const DueBook& book, int vessel, const DueHistory& history) {
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    const bool sour = is_sour(book, vessel);
    const bool wood = state.as.material == "oak" || state.as.material == "wood";
    const Timing& timing = !sour ? k_clean : wood ? k_sour_wood : k_sour_elsewhere;
    const auto asked = book.interval({vessel, -1}, Recurring::pull);
    if (history.pulls.empty()) {
        const Day filled = history.filled.value_or(book.today);
        if (asked)
            return {add_days(filled, *asked), add_days(filled, *asked), add_days(filled, *asked),
                    "filled " + iso_text(filled) + ", asked for every " + span_text(*asked)};
        return {add_days(filled, timing.first_from), add_days(filled, timing.first_from),
                add_days(filled, timing.first_until),
                "filled " + iso_text(filled) + "; a first pull is usual after " + span_text(timing.first_from) +
                    " to " + span_text(timing.first_until)};
    }
    const Day last = history.pulls.back();
    const std::string pulled = "last pulled " + iso_text(last) + "; ";
    if (asked)
        return {add_days(last, *asked), add_days(last, *asked), add_days(last, *asked),
                pulled + "asked for every " + span_text(*asked)};
    Window window{add_days(last, timing.next_from), add_days(last, timing.next_from), add_days(last, timing.next_until),
                  pulled + "usual after " + span_text(timing.next_from) + " to " + span_text(timing.next_until)};
    if (history.pulls.size() > 2) {
        const std::size_t turns = std::min(k_turns_counted, history.pulls.size() - 1);
        const Day first = history.pulls[history.pulls.size() - 1 - turns];
        const double mean = static_cast<double>(days_between(first, last)) / static_cast<double>(turns);
        window.from = add_days(last, static_cast<int>(std::lround(mean * (1.0 - k_usual_spread))));
        window.usual = add_days(last, static_cast<int>(std::lround(mean)));
        window.until = add_days(last, static_cast<int>(std::lround(mean * (1.0 + k_usual_spread))));
        window.why = pulled + "its last " + std::to_string(turns) + " turns took " + duration_text(mean / 365.25) +
                     " each on average";
    }
    if (sour && !history.refills.empty())
        window.from = std::max(window.from, add_days(history.refills.back(), k_sour_rest_days));
    window.usual = std::max(window.usual, window.from);
    window.until = std::max(window.until, window.usual);
    return window;
}

// "SG fell 0.0002 and pH 0.02 in the last 26 days: still", from the newest readings far enough apart.
std::string stillness(const DueBook& book, int vessel) {
    constexpr int k_apart_days = 20;
    constexpr double k_still_sg = 0.0005;
    constexpr double k_still_ph = 0.05;
    struct Point {
        Day day;
        std::optional<double> gravity, ph;
    };
    std::vector<Point> points;
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    for (const int index : state.entries) {
        const Entry& entry = *book.seen.cellar.entries[at_index(index)];
        const auto* reading = std::get_if<Reading>(&entry.body);
        if (reading == nullptr) continue;
        Point point{book.day_of(entry.at()), {}, {}};
        for (const Measured& one : reading->values) {
            const Calibrate* off_by = book.seen.cellar.calibration_at(index, reading->instrument, one.quantity);
            if (one.quantity == Quantity::gravity)
                point.gravity = engine::gravity_of_reading(one, reading->read_at_c, off_by);
            if (one.quantity == Quantity::ph) point.ph = engine::calibrated(one, off_by);
        }
        if (point.gravity) points.push_back(point);
    }
    if (points.size() < 2) return {};
    const Point& newest = points.back();
    for (auto older = points.rbegin() + 1; older != points.rend(); ++older) {
        const int apart = days_between(older->day, newest.day);
        if (apart < k_apart_days) continue;
        const double fall = *older->gravity - *newest.gravity;
        std::string text = "SG " + number_text(*older->gravity, 4) + " to " + number_text(*newest.gravity, 4);
        bool still = std::fabs(fall) < k_still_sg;
        if (older->ph && newest.ph) {
            text += ", pH " + number_text(*older->ph, 2) + " to " + number_text(*newest.ph, 2);
            still = still && std::fabs(*older->ph - *newest.ph) < k_still_ph;
        }
        return text + " in " + days_text(apart) + (still ? ": still" : ": still moving");
    }
    return {};
}

// Of a chain the last vessel is brewed for: it feeds the others.
void add_brew(const DueBook& book, int drawn, const DueHistory& of_drawn, Day pull, std::vector<DueLine>& lines) {
    int vessel = drawn;
    DueHistory history = of_drawn;
    for (std::size_t steps = 0; history.fed_by >= 0 && steps < book.seen.cellar.vessels.size(); ++steps) {
        vessel = history.fed_by;
        history = book.history({vessel, -1});
    }
    const engine::HolderRef holder{vessel, -1};
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    if (!history.refills.empty() && history.brewing_leads.empty()) return;  // from outside the cellar's brewing
    int lead = 0;
    std::string told;
    if (!history.brewing_leads.empty()) {
        lead = std::accumulate(history.brewing_leads.begin(), history.brewing_leads.end(), 0) /
               static_cast<int>(history.brewing_leads.size());
        told = "its refills were brewed " + days_text(lead) + " before they went in";
    } else {
        for (const char* id : {"young_ferment", "cool_young"})
            if (const tables::Task* task = book.task(id)) lead += static_cast<int>(std::lround(task->duration_typical));
        told = "young beer wants " + days_text(lead) + " (data/tasks.csv)";
    }
    std::string volume;
    if (!history.refill_volumes.empty()) {
        Volume sum;
        for (const Volume one : history.refill_volumes) sum += one;
        volume =
            ", about " + number_text(sum.in_litres() / static_cast<double>(history.refill_volumes.size()), 0) + " L";
    }
    const Day brew = add_days(pull, -lead);
    book.add(lines,
             due_line(state.as.name, "brew", "brew its refill" + volume,
                      (vessel == drawn ? "the pull can be " : book.name_of({drawn, -1}) + " can be drawn ") +
                          iso_text(pull) + "; " + told,
                      "undercroft refill " + book.typed(holder) + " VOLUME --lot NAME --og GRAVITY --brewed DAY"),
             brew, brew, std::nullopt);
}

}  // namespace

void add_turn(const DueBook& book, int vessel, std::vector<DueLine>& lines) {
    const engine::HolderRef holder{vessel, -1};
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    const DueHistory history = book.history(holder);
    // A stage that only refills others is drawn when they are.
    if (state.as.role != VesselRole::solera || (history.pulls.empty() && !history.drawn.empty())) return;
    if (book.interval(holder, Recurring::pull) == 0) return;
    const Window window = window_of(book, vessel, history);
    const std::string moving = stillness(book, vessel);
    const Day pull = std::max(window.usual, book.today);
    const std::string range =
        window.from == window.until ? iso_text(window.from) : iso_text(window.from) + " to " + iso_text(window.until);
    DueLine line =
        due_line(state.as.name, "pull", "pull window " + range, window.why + (moving.empty() ? "" : "; " + moving),
                 "undercroft pull " + book.typed(holder) + " VOLUME VESSEL --what-if");
    // Planned for the usual day; overdue only when the window has closed.
    const Day due = book.today > window.until ? window.until : pull;
    book.add(lines, std::move(line), window.from, due, window.until);

    const Day taste = add_days(pull, -k_taste_before_days);
    const bool fresh = !history.tastings.empty() &&
                       days_between(history.tastings.back(), std::max(taste, book.today)) <= k_tasting_fresh_days;
    if (!fresh)
        book.add(lines,
                 due_line(state.as.name, "taste", "taste and decide before the pull",
                          "the pull window opens " + iso_text(window.from) +
                              (history.tastings.empty() ? "; never tasted"
                                                        : "; last tasted " + iso_text(history.tastings.back())),
                          "undercroft taste " + book.typed(holder) + " ATTRIBUTE=N WORDS --taster NAME"),
                 taste, std::max(taste, add_days(window.from, -k_taste_before_days)), window.until);

    add_brew(book, vessel, history, pull, lines);
}

}  // namespace undercroft::app
