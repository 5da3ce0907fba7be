// How a beer is to be finished.
#include <algorithm>
#include <cmath>

#include "app/bodies.hpp"
#include "app/finish_book.hpp"
#include "app/names.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

const char* unit_word(tables::TechniqueDose unit) {
    using U = tables::TechniqueDose;
    switch (unit) {
        case U::none:
            return "";
        case U::g_per_l:
            return "g/L";
        case U::percent:
            return "percent";
        case U::volumes:
            return "volumes";
        case U::days:
            return "days";
        case U::weeks:
            return "weeks";
        case U::months:
            return "months";
    }
    return "";
}

Decimal rounded(double value, int places) {
    return Decimal::from_double(value, places);
}

// With as few places as say it, at most three.
Decimal shortest(double value) {
    constexpr int k_most_places = 3;
    for (int places = 0; places < k_most_places; ++places) {
        const Decimal decimal = Decimal::from_double(value, places);
        if (std::abs(decimal.value() - value) < 1e-9) return decimal;
    }
    return Decimal::from_double(value, k_most_places);
}

}  // namespace

Result<Decide> body_of(const DecideFinish& act, Here& here) {
    TRY(const int vessel, find_vessel(here.cellar, "vessel", act.vessel));
    const Telling telling{here.chains, here.people.all(), here.zone, here.unit};
    const Seen seen{here.cellar, here.states, telling, here.at, here.tables};
    FinishRequest request;
    request.volume = act.volume;
    request.wants = act.wants;
    TRY(FinishBasis basis, finish_basis(seen, {vessel, -1}, request, here.gallons));
    TRY(const FinishView ranked, finish_view(basis, request, here.tables, here.gallons));
    request.technique = act.technique;
    request.dose = act.dose;
    request.days = act.days;
    TRY(const FinishView view, finish_view(basis, request, here.tables, here.gallons));
    const engine::finish::Option& chosen = *view.chosen;
    Decide body;
    body.subject = here.cellar.vessels[at_index(vessel)].key;
    body.volume = Volume::from_litres(view.litres);
    body.technique = chosen.technique.id;
    body.way = view.options.front().way;
    body.unit = unit_word(chosen.technique.dose_unit);
    if (!body.unit.empty()) body.dose = shortest(chosen.dose.amount);
    body.days = shortest(std::round(chosen.dose.days * 10.0) / 10.0);
    body.sour = basis.portion.sour;
    constexpr int k_chance_places = 3;
    body.inside = rounded(chosen.outcome.inside, k_chance_places);
    constexpr int k_places = 2;
    constexpr int k_places_of_gravity = 4;
    for (const auto& [attribute, after] : chosen.outcome.tasted) {
        const auto before = basis.portion.beer.figures.find(attribute);
        if (before == basis.portion.beer.figures.end() && !chosen.points.contains(attribute)) continue;
        // What nobody tasted before teaches nothing, and is forecast all the same.
        if (before == basis.portion.beer.figures.end()) continue;
        body.forecast.push_back({attribute, rounded(before->second.mean, k_places),
                                 rounded(before->second.sd, k_places), rounded(after.mean, k_places),
                                 rounded(after.sd, k_places)});
    }
    for (const auto& [figure, after] : chosen.chemistry.figures) {
        const auto before = basis.portion.beer.figures.find(figure);
        if (before == basis.portion.beer.figures.end()) continue;
        const int places = figure == "gravity" ? k_places_of_gravity : k_places;
        body.forecast.push_back({figure, rounded(before->second.mean, places), rounded(before->second.sd, places),
                                 rounded(after.mean, places), rounded(after.sd, places)});
    }
    constexpr std::size_t k_most_alternatives = 5;
    for (const FinishOption& one : ranked.options) {
        const bool same = one.technique == body.technique && one.way == body.way;
        if (same || (body.alternatives.size() >= k_most_alternatives && one.technique != "leave")) continue;
        body.alternatives.push_back(
            {one.name + (one.dose.empty() ? "" : ", " + one.dose), rounded(one.inside, k_chance_places)});
    }
    body.words = act.words;
    for (const FinishDate& date : view.dates) here.remarks.push_back(date.day + "  " + date.what + ".");
    for (const Caution& caution : view.options.front().cautions) here.cautions.push_back(caution);
    return body;
}

}  // namespace undercroft::app
