#include "app/ages.hpp"

#include "app/bodies.hpp"
#include "app/book.hpp"
#include "app/names.hpp"
#include "engine/age/turns.hpp"
#include "units/duration.hpp"

namespace undercroft::app {
namespace {

using engine::AgeFrom;

Result<AgeFrom> age_from(const std::string& text) {
    if (text.empty() || text == "brew day" || text == "brew-day" || text == "brew") return AgeFrom::brew_day;
    if (text == "entry") return AgeFrom::entry;
    return fail(ErrorKind::bad_input, "from",
                "\"" + text + "\" is no day that ages count from here; say \"brew day\" or entry.");
}

// Where the last turn began and ended.
struct LastTurn {
    std::optional<ledger::Place> before_pull;
    std::optional<ledger::Place> after_refill;
};

LastTurn last_turn_of(const ledger::Cellar& cellar, int vessel) {
    LastTurn last;
    for (const engine::BookedTurn& turn : engine::turns_of_vessel(cellar, vessel)) {
        if (turn.pull_entry >= 0) last.before_pull = cellar.entries[at_index(turn.pull_entry)]->place;
        if (turn.refill_entry < 0) continue;
        last.after_refill = cellar.entries[at_index(turn.refill_entry)]->place;
        last.after_refill->path += ' ';  // right after it, before what was placed after it
    }
    return last;
}

}  // namespace

Result<std::vector<double>> spans_from(const std::vector<std::string>& texts, std::vector<double> otherwise) {
    if (texts.empty()) return otherwise;
    std::vector<double> years;
    for (const std::string& text : texts) {
        TRY(const Duration span, parse_duration("older-than", text));
        years.push_back(span.in_years());
    }
    return years;
}

Result<AgeView> Book::age(const AgeRequest& request) {
    TRY(const AgeFrom from, age_from(request.from));
    TRY(const std::vector<double> spans, spans_from(request.older_than, {1.0, 2.0, 3.0, 5.0}));
    if (!request.state.empty() && request.state != "now" && request.state != "before" && request.state != "after")
        return fail(
            ErrorKind::bad_input, "state",
            "\"" + request.state + "\" is no point of a turn; say now, before (the pull) or after (the refill).");
    TRY_VOID(load());
    Instant when;
    TRY(const auto now_standing, standing_at({request.on, request.known_on}, when));
    const ledger::Cellar& cellar = now_standing->cellar;
    TRY(const engine::HolderRef holder, find_holder(cellar, "name", request.name));

    AgeView view;
    view.book = line();
    view.on = iso_text(day_of(when, m_zone));
    const auto no_age = [&](Volume held) {
        return fail(ErrorKind::impossible, view.subject,
                    held == Volume{} ? view.subject + " is empty then, so it has no age."
                                     : view.subject + " holds no beer then, so it has no age.");
    };
    if (holder.run >= 0) {
        const ledger::RunState& run = cellar.runs[at_index(holder.run)];
        view.kind = "run";
        view.subject = run.as.run;
        if (!request.state.empty() && request.state != "now")
            return fail(ErrorKind::bad_input, "state",
                        view.subject + " is a run of bottles: it is neither pulled from nor refilled.");
        view.state = "when_packaged";
        view.packaged = iso_text(day_of(run.packaged, m_zone));
        view.state_words = "when it was packaged on " + view.packaged;
        view.volume = run.liquid.volume;
        view.years_in_container = std::max(0.0, years_between(run.packaged, when));
        const auto age = engine::age_of(cellar, run.liquid, run.packaged, m_zone, from);
        if (!age) return no_age(run.as.fill);
        view.age = *age;
        view.profile = engine::profile_of(view.age, spans);
        return view;
    }

    const ledger::VesselState& vessel = cellar.vessels[at_index(holder.vessel)];
    view.kind = "vessel";
    view.subject = vessel.as.name;
    const LastTurn last = last_turn_of(cellar, holder.vessel);
    const auto at_place = [&](const ledger::Place& place) -> Result<std::pair<AgeAtTurn, Volume>> {
        ledger::Scope scope;
        scope.before = place;
        if (!request.known_on.empty()) {
            TRY(const Day known, parse_day("known-on", request.known_on, today()));
            scope.known_on = end_of_day(known, m_zone);
        }
        auto found_then = standing(scope);
        if (!found_then) return tl::unexpected(telling().error_of(found_then.error(), false));
        const std::shared_ptr<const Standing> standing_then = *std::move(found_then);
        const ledger::Cellar& then = standing_then->cellar;
        const ledger::Liquid& liquid = then.vessels[at_index(then.vessel_of(vessel.key))].liquid;
        const auto age = engine::age_of(then, liquid, place.at, m_zone, from);
        if (!age) return no_age(liquid.volume);
        return std::pair{AgeAtTurn{iso_text(day_of(place.at, m_zone)), *age}, liquid.volume};
    };
    Volume before_volume;
    Volume after_volume;
    if (last.before_pull) {
        TRY(auto then, at_place(*last.before_pull));
        view.before_pull = then.first;
        before_volume = then.second;
    }
    if (last.after_refill) {
        TRY(auto then, at_place(*last.after_refill));
        view.after_refill = then.first;
        after_volume = then.second;
    }
    if (request.state == "before" || request.state == "after") {
        const bool before = request.state == "before";
        const auto& chosen = before ? view.before_pull : view.after_refill;
        if (!chosen)
            return fail(ErrorKind::impossible, view.subject,
                        view.subject + (before ? " was never pulled from by then." : " was never refilled by then."));
        view.state = before ? "before_pull" : "after_refill";
        view.state_words = (before ? "before the pull of " : "after the refill of ") + chosen->day;
        view.age = chosen->age;
        view.volume = before ? before_volume : after_volume;
    } else {
        view.state = "now";
        view.volume = vessel.liquid.volume;
        view.state_words = "as it stands on " + view.on;
        if (view.after_refill) {
            const double since = std::max(0.0, years_between(last.after_refill->at, when));
            view.state_words += ", " + duration_text(since) + " after the refill of " + view.after_refill->day;
        }
        const auto age = engine::age_of(cellar, vessel.liquid, when, m_zone, from);
        if (!age) return no_age(vessel.liquid.volume);
        view.age = *age;
    }
    view.profile = engine::profile_of(view.age, spans);
    return view;
}

}  // namespace undercroft::app
