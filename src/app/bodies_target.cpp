// What a beer shall be like.
#include <algorithm>
#include <cmath>
#include <map>

#include "app/blending.hpp"
#include "app/bodies.hpp"
#include "app/faults.hpp"
#include "app/gap.hpp"
#include "app/names.hpp"
#include "base/letters.hpp"
#include "engine/age/turns.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// With as many places as it has, at most four.
Decimal decimal_as_said(double value) {
    for (int places = 0; places < 4; ++places) {
        const Decimal decimal = Decimal::from_double(value, places);
        if (std::abs(decimal.value() - value) < 1e-9) return decimal;
    }
    return Decimal::from_double(value, 4);
}

// Half the width of a band round what was found (own choice: what two tasters or two readings differ by).
double half_band(const std::string& figure) {
    static const std::map<std::string, double> k_halves = {{"ph", 0.1}, {"ta", 0.5}, {"gravity", 0.001}};
    const auto half = k_halves.find(figure);
    return half == k_halves.end() ? 1.0 : half->second;
}

struct Sum {
    double total = 0.0;
    int count = 0;
    int day = 0;
};

// When and in what a beer was as it shall be again.
struct Then {
    EntryKey subject;
    Day from;  // nothing before it counts
    Day until;
    std::string words;  // "as on 2025-06-01"
};

// "turn 4", the name of a run or vessel, or a day.
Result<Then> then_of(const std::string& like, const engine::HolderRef& holder, const EntryKey& subject, Here& here) {
    const Day ever = Day(std::chrono::year(1), std::chrono::January, std::chrono::day(1));
    const std::string typed = lower(trimmed(like));
    if (typed.rfind("turn", 0) == 0) {
        const std::vector<engine::BookedTurn> turns = holder.vessel >= 0
                                                          ? engine::turns_of_vessel(here.cellar, holder.vessel)
                                                          : std::vector<engine::BookedTurn>{};
        if (turns.empty())
            return fail(ErrorKind::bad_input, "like", "Nothing was pulled from it and refilled; name a day instead.");
        TRY(const int number, parse_count("like", trimmed(typed.substr(4)), 1, int(turns.size())));
        const engine::BookedTurn& turn = turns[at_index(number - 1)];
        const Day until = day_of(turn.pull_entry >= 0 ? turn.pulled : turn.refilled, here.zone);
        const Day from = number > 1 && turns[at_index(number - 2)].refill_entry >= 0
                             ? day_of(turns[at_index(number - 2)].refilled, here.zone)
                             : ever;
        return Then{subject, from, until, "as turn " + std::to_string(number) + ", up to " + iso_text(until)};
    }
    if (const auto other = find_holder(here.cellar, "like", like))
        return Then{key_of(here.cellar, *other), ever, here.today, "as " + trimmed(like)};
    const auto day = parse_day("like", like, here.today);
    if (!day)
        return fail(ErrorKind::bad_input, "like", "\"" + like.substr(0, 60) + "\" is no day, turn, run or vessel here.",
                    {}, "Say a day as 2025-06-01, a turn as \"turn 4\", or the run that was as it should be.");
    return Then{subject, ever, *day, "as on " + iso_text(*day)};
}

// What was found of it on the newest day up to then, each figure on its own newest day.
std::map<std::string, double> found_by(const Then& then, Here& here) {
    const EntryKey& subject = then.subject;
    std::map<std::string, Sum> sums;
    const auto take = [&](const std::string& figure, double value, int day) {
        Sum& sum = sums[figure];
        if (sum.day != day) sum = {0.0, 0, day};
        sum.total += value;
        ++sum.count;
    };
    for (const Entry* entry : here.cellar.entries) {
        const Day day = day_of(entry->at(), here.zone);
        if (std::chrono::sys_days(day) > std::chrono::sys_days(then.until)) continue;
        if (std::chrono::sys_days(day) < std::chrono::sys_days(then.from)) continue;
        const int number = int(std::chrono::sys_days(day).time_since_epoch().count());
        if (const auto* tasting = std::get_if<Tasting>(&entry->body); tasting != nullptr && tasting->subject == subject)
            for (const auto& [attribute, score] : tasting->scores)
                take(here.tables.attribute_id(attribute), score.value(), number);
        if (const auto* reading = std::get_if<Reading>(&entry->body); reading != nullptr && reading->subject == subject)
            for (const Measured& one : reading->values) {
                if (one.quantity == Quantity::ph) take("ph", one.value.value(), number);
                if (one.quantity == Quantity::ta) take("ta", one.value.value(), number);
            }
    }
    std::map<std::string, double> found;
    for (const auto& [figure, sum] : sums) found[figure] = sum.total / sum.count;
    return found;
}

bool is_known(const std::string& figure, Here& here) {
    if (std::find(target_figures().begin(), target_figures().end(), figure) != target_figures().end()) return true;
    if (here.tables.find_attribute(figure)) return true;
    return std::any_of(here.cellar.entries.begin(), here.cellar.entries.end(), [&](const Entry* entry) {
        const auto* tasting = std::get_if<Tasting>(&entry->body);
        return tasting != nullptr && tasting->scores.contains(figure);
    });
}

}  // namespace

Result<Target> body_of(const SetTarget& act, Here& here) {
    Target body;
    TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
    body.subject = key_of(here.cellar, holder);
    body.words = act.words;
    const auto has = [&](const std::string& figure) {
        return std::any_of(body.figures.begin(), body.figures.end(),
                           [&](const TargetFigure& one) { return one.figure == figure; });
    };
    for (const std::string& text : act.wants) {
        TRY(const engine::blend::Wish wish, read_wish(text, false, here.tables));
        if (!is_known(wish.figure, here)) {
            const auto unknown = here.tables.find_attribute(wish.figure);
            return fail(ErrorKind::bad_input, "want", "\"" + wish.figure + "\" is neither measured nor tasted.", {},
                        "An attribute of undercroft tasting-words, or " + joined(target_figures(), ", ") + ". " +
                            (unknown ? "" : unknown.error().next_step));
        }
        if (has(wish.figure)) return fail(ErrorKind::bad_input, "want", wish.figure + " is said twice.");
        TargetFigure one;
        one.figure = wish.figure;
        if (wish.range.low) one.low = decimal_as_said(*wish.range.low);
        if (wish.range.high) one.high = decimal_as_said(*wish.range.high);
        one.weight = decimal_as_said(wish.weight);
        body.figures.push_back(std::move(one));
    }
    if (!act.like.empty()) {
        TRY(const Then then, then_of(act.like, holder, body.subject, here));
        const auto found = found_by(then, here);
        if (found.empty())
            return fail(ErrorKind::bad_input, "like", "Nothing was scored or read of it (" + then.words + ").");
        for (const auto& [figure, value] : found) {
            if (has(figure)) continue;
            const bool tasted = figure != "ph" && figure != "ta";
            const double half = half_band(figure);
            const auto kept = [&](double at) { return tasted ? std::clamp(at, 0.0, 10.0) : std::max(at, 0.0); };
            const auto rounded = [](double at) { return decimal_as_said(std::round(at * 100.0) / 100.0); };
            body.figures.push_back({figure, rounded(kept(value - half)), rounded(kept(value + half)), Decimal{1, 0}});
        }
        if (body.words.empty()) body.words = then.words;
    }
    if (body.figures.empty())
        return fail(
            ErrorKind::bad_input, "target",
            "What shall it be like? Say --want \"sourness 5 to 7\", or --like and the day it was as it should be.");
    return body;
}

}  // namespace undercroft::app
