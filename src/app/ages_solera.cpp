// Soleras without a book.
#include <algorithm>
#include <cmath>

#include "app/ages.hpp"
#include "app/bodies.hpp"
#include "engine/age/solera_formulas.hpp"
#include "units/duration.hpp"

namespace undercroft::app {
namespace {

constexpr const char* k_derived = "derived (docs/models/age.md)";
constexpr int k_most_turns = 400;
constexpr std::size_t k_most_stages = 50;

// A solera settles slowly or never; what stands in the way is said instead of a number.
Term settle_term(const SoleraView& view) {
    const std::string within = percent_text(view.settle_within, view.settle_within < 0.0095 ? 1 : 0);
    Term term{"settled within " + within + " after", 0.0, "turns",
              "counted: the first turn from which the mean age of the pull stays so near its limit", k_derived};
    if (view.turns_to_settle) {
        term.value = *view.turns_to_settle;
        term.how += ", " + duration_text(term.value * view.plan.interval_years) + " after the first fill";
    } else {
        term.how = "it does not settle within 100,000 turns: a half of a vessel is neither drawn from nor mixed";
    }
    return term;
}

void add_settled(SoleraView& view) {
    using namespace engine;
    const SoleraPlan& plan = view.plan;
    const SteadySolera steady = steady_state(plan);
    const auto limit = settled_ages(plan);
    const double f = plan.pull.in_litres() / plan.stages.back().in_litres();
    const bool plain = plan.mixing == 1.0;
    const auto add = [&](std::string name, double value, const char* unit, std::string how) {
        view.settled.push_back({std::move(name), value, unit, std::move(how), k_derived});
    };
    if (limit) {
        view.limit_years = limit->mean_years;
        add("mean age of the pull", limit->mean_years, "years",
            plain ? "age of the new beer + interval x sum of (volume / flow through it)"
                  : "fixed point of one turn of the two-zone model");
        add("mean after the refill", limit->after_refill_years, "years", "of the last vessel");
        add("mean over an interval", limit->after_refill_years + plan.interval_years / 2.0, "years",
            "of the last vessel: half an interval after the refill");
        for (std::size_t i = 0; i + 1 < limit->stage_years.size(); ++i)
            add("mean of stage " + std::to_string(i + 1), limit->stage_years[i], "years", "before the pull");
    }
    if (plain) {
        add("spread of the pull", steady.sd_years, "years",
            "one standard deviation: waits in the stages are geometric");
        add("youngest beer in the pull", steady.youngest_years, "years",
            "it came through every stage in one turn each");
        if (plan.stages.size() == 1 && plan.evaporation == 0.0)
            add("vintages, effectively", effective_vintages(f), "", "(2 - f)/f with f = " + percent_text(f, 1));
    }
    add("drawn", steady.yearly, "L a year", "pull / interval");
    add("new beer", steady.yearly_new_beer, "L a year", "what is drawn and what evaporates");
    view.turns_to_settle = turns_to_settle(plan, view.settle_within);
    view.settled.push_back(settle_term(view));
}

void add_carried_over(SoleraView& view) {
    using namespace engine;
    const SoleraPlan& plan = view.plan;
    const double f = plan.pull.in_litres() / plan.stages.back().in_litres();
    // One refill gone wrong, as the book would follow it: its share in each pull, counted on the recursion itself.
    constexpr int k_followed = 400;
    constexpr double k_gone = 0.01;
    const std::vector<SoleraTurn> turns = turns_of(plan, k_followed);
    double most = 0.0;
    int gone_after = 0;
    for (const SoleraTurn& turn : turns) {
        double share = 0.0;
        for (const FillShare& fill : turn.fills)
            if (fill.turn == 1) share += fill.share;
        most = std::max(most, share);
        if (share >= k_gone) gone_after = turn.turn;
    }
    const auto add = [&](std::string name, double value, const char* unit, std::string how) {
        view.carried_over.push_back({std::move(name), value, unit, std::move(how), k_derived});
    };
    add("a spoilt refill, most in one pull", 100.0 * most, "%", "share of the first turn's refill; it only dilutes");
    if (gone_after < k_followed)
        add("… below 1 % of a pull after", gone_after, "turns",
            "counted; " + duration_text(gone_after * plan.interval_years) + " after it went in");
    add("a culture that grows, in every pull", 100.0, "%",
        "it does not dilute: what lives in a vessel is there after every refill, whatever the share pulled");
    if (plan.evaporation > 0.0 && plan.stages.size() == 1) {
        add("what does not evaporate, before the pull", concentration_factor(plan.evaporation, f), "times the new beer",
            "(e + f)/f with e = " + percent_text(plan.evaporation, 1) + " and f = " + percent_text(f, 1));
        add("… after topping up", concentration_factor(plan.evaporation, f) * (1.0 - plan.evaporation),
            "times the new beer", "that times (1 - e)");
    }
}

}  // namespace

Result<Volume> share_or_volume(std::string_view field, const std::string& text, Volume whole, Gallons gallons) {
    return volume_from(field, text, whole, whole, gallons);
}

Result<SoleraView> solera_sum(const SoleraRequest& request, Gallons gallons) {
    SoleraView view;
    engine::SoleraPlan& plan = view.plan;
    if (request.vessels.empty())
        return fail(ErrorKind::bad_input, "vessel", "Which vessels? Write --vessel 60 L, once for each stage.");
    if (request.vessels.size() > k_most_stages)
        return fail(ErrorKind::bad_input, "vessel", "At most 50 stages are worked out.");
    for (const std::string& vessel : request.vessels) {
        TRY(const Volume volume, positive_volume("vessel", vessel, gallons));
        plan.stages.push_back(volume);
    }
    if (request.pull.empty())
        return fail(ErrorKind::bad_input, "pull", "How much is pulled? Write --pull 20 L, or --pull \"a third\".");
    TRY(plan.pull, share_or_volume("pull", request.pull, plan.stages.back(), gallons));
    for (const std::string& first : request.first_pulls) {
        TRY(const Volume volume, share_or_volume("first-pull", first, plan.stages.back(), gallons));
        plan.first_pulls.push_back(volume);
    }
    if (request.every.empty())
        return fail(ErrorKind::bad_input, "every", "How often is it pulled? Write --every 8 months.");
    TRY(const Duration interval, parse_duration("every", request.every));
    plan.interval_years = interval.in_years();
    if (!request.new_beer_age.empty()) {
        TRY(const Duration age, parse_duration("new-beer", request.new_beer_age));
        plan.age_in_years = age.in_years();
    }
    plan.start_age_years = plan.age_in_years;
    if (!request.start_age.empty()) {
        TRY(const Duration age, parse_duration("start", request.start_age));
        plan.start_age_years = age.in_years();
    }
    if (!request.evaporation.empty()) {
        TRY(plan.evaporation, parse_share("evaporation", request.evaporation));
    }
    if (!request.mixing.empty()) {
        TRY(const Decimal mixing, parse_number("mixing", request.mixing, 0.0, 1.0));
        plan.mixing = mixing.value();
    }
    if (!request.drawn.empty() && request.drawn != "below" && request.drawn != "above")
        return fail(ErrorKind::bad_input, "drawn", "\"" + request.drawn + "\" is neither below nor above.");
    plan.drawn = request.drawn == "above" ? engine::DrawnFrom::above : engine::DrawnFrom::below;
    if (!request.within.empty()) {
        TRY(view.settle_within, parse_share("within", request.within));
    }
    int turns = 10;
    if (!request.turns.empty()) {
        TRY(turns, parse_count("turns", request.turns, 1, k_most_turns));
    }
    TRY(view.older_than, spans_from(request.older_than, {1.0, 3.0}));
    if (const char* trouble = plan.trouble()) return fail(ErrorKind::impossible, "solera", trouble);
    view.turns = engine::turns_of(plan, turns);
    add_settled(view);
    add_carried_over(view);
    constexpr double k_hard_stop = 0.6;
    if (plan.pull.in_litres() > k_hard_stop * plan.stages.back().in_litres())
        view.cautions.push_back({"solera.share",
                                 "More than 60 % a pull: acid, age and culture cannot follow, and the "
                                 "old beer is soon gone (common practice, no source)."});
    return view;
}

}  // namespace undercroft::app
