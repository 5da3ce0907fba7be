// Founding a solera: wishes as typed, designs as answered, and one of them as a first sitting.
#include <algorithm>
#include <cmath>

#include "app/ages.hpp"
#include "app/bodies.hpp"
#include "app/book.hpp"
#include "engine/age/solera_formulas.hpp"
#include "units/duration.hpp"

namespace undercroft::app {
namespace {

using engine::DesignWish;

constexpr std::size_t k_shown = 5;
constexpr int k_turns_shown = 8;
constexpr double k_young_years = 1.0;

// "30 L=40" in its two parts; the second may be missing.
std::pair<std::string, std::string> parts_of(const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos) return {text, ""};
    return {text.substr(0, equals), text.substr(equals + 1)};
}

// Beer that works pushes through an air lock when the vessel is brimful.
constexpr double k_usual_ullage = 0.05;  // common practice, no source

Result<double> ullage_from(const std::string& text) {
    if (text.empty()) return k_usual_ullage;
    if (text == "none") return 0.0;
    TRY(const double share, parse_share("ullage", text));
    if (share > 0.5) return fail(ErrorKind::bad_input, "ullage", "More than half of a vessel left empty is no ullage.");
    return share;
}

engine::VesselOffer offer_of(Volume brimful, double ullage_share, double price) {
    const Volume ullage = Volume::from_litres(std::round(brimful.in_litres() * ullage_share * 100.0) / 100.0);
    return {brimful - ullage, price, ullage};
}

Result<DesignWish> wish_from(const DesignRequest& request, Gallons gallons) {
    DesignWish wish;
    if (request.demand.empty())
        return fail(ErrorKind::bad_input, "demand", "How much is wanted in a year? Write --demand 60 L.");
    TRY(const Volume demand, positive_volume("demand", request.demand, gallons));
    wish.demand_litres = demand.in_litres();
    if (!request.age.empty()) {
        TRY(const Duration age, parse_duration("age", request.age));
        wish.mean_years = age.in_years();
    }
    for (const std::string& text : request.older) {
        const auto [years, share] = parts_of(text);
        if (share.empty())
            return fail(ErrorKind::bad_input, "older-than",
                        "\"" + text + "\" wants an age and a share: --older-than \"3 years=50 %\".");
        TRY(const Duration span, parse_duration("older-than", years));
        TRY(const double part, parse_share("older-than", share));
        wish.older.push_back({span.in_years(), part});
    }
    if (!request.wait.empty()) {
        TRY(const Duration wait, parse_duration("wait", request.wait));
        wish.wait_years = wait.in_years();
    }
    if (!request.new_beer_age.empty()) {
        TRY(const Duration age, parse_duration("new-beer", request.new_beer_age));
        wish.age_in_years = age.in_years();
    }
    TRY(const double ullage, ullage_from(request.ullage));
    // Where no price is said, a litre of vessel costs two: only the proportion to a day's worth matters.
    constexpr double k_price_per_litre = 2.0;
    for (const std::string& text : request.vessels) {
        const auto [volume, price] = parts_of(text);
        TRY(const Volume brimful, positive_volume("vessel", volume, gallons));
        engine::VesselOffer offer = offer_of(brimful, ullage, k_price_per_litre * brimful.in_litres());
        if (!price.empty()) {
            TRY(const Decimal paid, parse_number("vessel", price, 0.0, 1e6));
            offer.price = paid.value();
        }
        wish.vessels.push_back(offer);
    }
    if (wish.vessels.empty())
        for (const Volume brimful : engine::usual_vessels())
            wish.vessels.push_back(offer_of(brimful, ullage, k_price_per_litre * brimful.in_litres()));
    wish.shares = engine::usual_shares();
    wish.intervals = engine::usual_intervals();
    if (!request.every.empty()) {
        TRY(const Duration every, parse_duration("every", request.every));
        wish.intervals = {every.in_years()};
    }
    if (!request.stages.empty()) {
        const auto dots = request.stages.find("..");
        TRY(wish.fewest_stages, parse_count("stages", request.stages.substr(0, dots), 1, 12));
        wish.most_stages = wish.fewest_stages;
        if (dots != std::string::npos) {
            TRY(wish.most_stages, parse_count("stages", request.stages.substr(dots + 2), wish.fewest_stages, 12));
        }
    }
    if (!request.day_worth.empty()) {
        TRY(const Decimal worth, parse_number("day-worth", request.day_worth, 0.0, 1e6));
        wish.day_worth = worth.value();
    }
    if (const char* trouble = engine::trouble_of(wish)) return fail(ErrorKind::bad_input, "design", trouble);
    return wish;
}

std::string wish_words(const DesignWish& wish) {
    std::string words;
    if (wish.mean_years) words = "a mean of " + duration_text(*wish.mean_years);
    for (const engine::OlderWish& older : wish.older)
        words += (words.empty() ? "" : " and ") + percent_text(older.share, 0) + " of " + duration_text(older.years) +
                 " and over";
    return words;
}

std::string answer_of(const DesignView& view) {
    const DesignWish& wish = view.wish;
    if (view.reached)
        return std::string(view.designs.back().design.reached() ? "Each of these yields " : "Those without * yield ") +
               text_of(Volume::from_litres(wish.demand_litres)) + " a year or more, with " + wish_words(wish) +
               " within " + duration_text(wish.wait_years) + ".";
    const engine::Design& nearest = view.designs.front().design;
    std::string words =
        "No design reaches " + wish_words(wish) + " within " + duration_text(wish.wait_years) +
        ": begun with new beer nothing is older than " + duration_text(wish.wait_years + wish.age_in_years) +
        " by then, and what is pulled is younger. The nearest comes to a mean of " + duration_text(nearest.age_at_wait);
    for (std::size_t i = 0; i < wish.older.size(); ++i)
        words += ", " + percent_text(nearest.older_at_wait[i], 0) + " of " + duration_text(wish.older[i].years) +
                 " and over";
    return words + "; it settles at " + duration_text(nearest.settled_years) +
           ". A longer --wait, or aged beer to begin with, reaches it.";
}

Result<std::size_t> number_of_design(const DesignRequest& request, std::size_t designs) {
    TRY(const int number, parse_count("draft", request.draft, 1, static_cast<int>(designs)));
    return static_cast<std::size_t>(number) - 1;
}

}  // namespace

Result<DesignView> design_sum(const DesignRequest& request, Gallons gallons, const Patience& patience) {
    DesignView view;
    TRY(view.wish, wish_from(request, gallons));
    int shown = static_cast<int>(k_shown);
    if (!request.show.empty()) {
        TRY(shown, parse_count("show", request.show, 1, 80));
    }
    const auto designs = engine::designs_of(view.wish, static_cast<std::size_t>(shown), patience);
    if (patience.is_over()) return fail(ErrorKind::impossible, "design", "Nobody waits for this answer any more.");
    if (designs.empty())
        return fail(
            ErrorKind::impossible, "demand",
            "No vessel here yields " + text_of(Volume::from_litres(view.wish.demand_litres)) +
                " a year, four side by side and half of each pulled at every turn.",
            {{"largest vessel", text_of(std::max_element(view.wish.vessels.begin(), view.wish.vessels.end(),
                                                         [](const auto& a, const auto& b) { return a.full < b.full; })
                                            ->full)}},
            "Offer larger vessels with --vessel, or a shorter interval with --every.");
    for (const engine::Design& design : designs) {
        DesignLine line;
        line.design = design;
        const engine::SoleraPlan plan = engine::plan_of(design, view.wish);
        line.turns = engine::turns_of(plan, k_turns_shown);
        line.turns_to_settle = engine::turns_to_settle(plan, 0.01);
        const int at_wait = static_cast<int>(std::floor(view.wish.wait_years / design.interval_years + 1e-9));
        if (at_wait > 0)
            line.young_share = 1.0 - engine::turns_of(plan, at_wait).back().share_older_than(k_young_years);
        view.designs.push_back(std::move(line));
    }
    view.reached = designs.front().reached();
    view.answer = answer_of(view);
    if (!request.draft.empty()) {
        TRY(view.chosen, number_of_design(request, designs.size()));
    }
    view.starts = engine::starts_of(designs[view.chosen], view.wish);
    if (designs[view.chosen].share > 0.5)
        view.cautions.push_back({"solera.share",
                                 "More than half a pull: acid, age and culture lag behind, and the "
                                 "old beer is soon gone (common practice, no source)."});
    return view;
}

Result<DesignView> Book::design(const DesignRequest& request, const Patience& patience) {
    TRY_VOID(load());
    TRY(DesignView view, design_sum(request, gallons(), patience));
    if (request.draft.empty()) return view;
    const engine::Design& design = view.designs[view.chosen].design;
    const std::string name = request.name.empty() ? "Solera" : request.name;
    SittingRequest sitting;
    sitting.by = request.by;
    for (int stage = 1; stage <= design.stages; ++stage)
        for (int beside = 1; beside <= design.abreast; ++beside) {
            RegisterVessel vessel;
            vessel.name = name;
            if (design.stages > 1) vessel.name += " stage " + std::to_string(stage);
            if (design.abreast > 1) vessel.name += " no. " + std::to_string(beside);
            vessel.capacity = exact_text_of(design.vessel + design.ullage);
            if (design.ullage > Volume{}) vessel.ullage = exact_text_of(design.ullage);
            vessel.role = "solera";
            EnterLot fill;
            fill.vessel = vessel.name;
            fill.name = "Founding brew of " + name;
            fill.volume = exact_text_of(design.vessel);
            fill.original_gravity = request.original_gravity;
            fill.gravity = request.gravity;
            sitting.acts.emplace_back(std::move(vessel));
            sitting.acts.emplace_back(std::move(fill));
        }
    view.drafted = sitting;
    TRY(view.sitting, request.keep ? book(sitting) : preview(sitting));
    view.book = line();
    return view;
}

}  // namespace undercroft::app
