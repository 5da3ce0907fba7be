#include "app/weighing.hpp"

#include <algorithm>

#include "base/index.hpp"
#include "chem/gas.hpp"
#include "engine/package/watch.hpp"
#include "engine/state/series.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

constexpr double k_seconds_a_day = 86400.0;

// Index of the entry that changed what stands on the scale last; -1: none did.
int touched_last(const ledger::Cellar& cellar, int vessel) {
    int last = -1;
    for (const ledger::Flow& flow : cellar.flows)
        if (flow.from_vessel == vessel || flow.to_vessel == vessel) last = std::max(last, flow.entry);
    for (const int index : cellar.vessels[at(vessel)].entries) {
        const ledger::Body& body = cellar.entries[at(index)]->body;
        if (std::holds_alternative<ledger::Addition>(body) || std::holds_alternative<ledger::Lift>(body))
            last = std::max(last, index);
    }
    return last;
}

Instant first_weight(const ledger::Cellar& cellar, int vessel, const std::vector<int>& entries) {
    const int touched = touched_last(cellar, vessel);
    for (const int index : entries)
        if (index > touched) return cellar.entries[at(index)]->at();
    return {};
}

}  // namespace

std::vector<FitPoint> weights_of(const ledger::Cellar& cellar, int vessel) {
    std::vector<FitPoint> weights;
    const int touched = touched_last(cellar, vessel);
    std::optional<Instant> first;
    for (const engine::Series& series : engine::series_of(cellar, cellar.vessels[at(vessel)].entries)) {
        if (series.quantity != ledger::Quantity::weight) continue;
        for (const engine::SeriesPoint& point : series.points) {
            if (point.entry <= touched) continue;
            const Instant when = cellar.entries[at(point.entry)]->at();
            if (!first) first = when;
            weights.push_back({static_cast<double>(when.ms - first->ms) / 1000.0 / k_seconds_a_day, point.value});
        }
    }
    return weights;
}

Result<WeighingView> weighing_of(const Seen& seen, int vessel, int twin, std::optional<double> scale_g) {
    const ledger::Cellar& cellar = seen.cellar;
    const ledger::VesselState& jar = cellar.vessels[at(vessel)];
    const double litres = jar.liquid.volume.in_litres();
    std::vector<FitPoint> dry;
    if (twin >= 0) {
        dry = weights_of(cellar, twin);
        if (dry.empty())
            return fail(ErrorKind::bad_input, "twin",
                        cellar.vessels[at(twin)].as.name +
                            " was never weighed since it was filled: weigh the twin whenever you weigh the jar.");
    }
    TRY(const engine::package::Weighing found,
        engine::package::weighed(weights_of(cellar, vessel), dry, litres, scale_g));
    WeighingView view;
    view.vessel = jar.as.name;
    if (twin >= 0) view.twin = cellar.vessels[at(twin)].as.name;
    std::vector<int> weighed_by;
    for (const engine::Series& series : engine::series_of(cellar, jar.entries))
        if (series.quantity == ledger::Quantity::weight)
            for (const engine::SeriesPoint& point : series.points) weighed_by.push_back(point.entry);
    view.since = seen.telling.day_text(first_weight(cellar, vessel, weighed_by));
    view.volume = jar.liquid.volume;
    const double volumes_a_month = chem::co2_volumes_of_g_per_l(found.co2_g_per_l_a_day * 30.0);
    const double most_a_month = chem::co2_volumes_of_g_per_l(found.co2_most_a_day * 30.0);
    view.terms = {{"loss", found.grams_a_day, "g a day",
                   "± " + number_text(found.grams_a_day_sd, 2) + "; " + std::to_string(found.readings) +
                       " weights over " + number_text(found.days, 0) + " days" +
                       (twin >= 0 ? ", less what " + view.twin + " evaporates" : ", evaporation counted as gas"),
                   "least squares"},
                  {"CO2", found.co2_g_per_l_a_day, "g/L a day", number_text(volumes_a_month, 2) + " volumes in 30 days",
                   "1.9768 g/L a volume"},
                  {"CO2, at most", found.co2_most_a_day, "g/L a day",
                   number_text(most_a_month, 2) + " volumes in 30 days, with 95 of 100", "one-sided 95 %"},
                  {"extract fermented", found.extract_g_per_l_a_day, "g/L a day",
                   "2.0665 g of extract for 0.9565 g of CO2", "Balling 1865"},
                  {"gravity falls", found.gravity_a_month * 1000.0, "points in 30 days", "half a volume for 0.001",
                   "common practice, no source"}};
    const bool still = found.grams_a_day < 2.0 * found.grams_a_day_sd;
    view.words = still ? "No loss can be told apart from none: at most " + number_text(most_a_month, 2) +
                             " volumes of CO2 in 30 days, with 95 of 100."
                       : "It still works: " + number_text(volumes_a_month, 2) + " volumes of CO2 in 30 days, " +
                             number_text(most_a_month, 2) + " at most.";
    view.words +=
        " Before slow organisms wake a jar can lie still for months, so this bounds the gas only once it has "
        "lain undisturbed for as long as its cultures need.";
    view.cautions.push_back({"weigh.same",
                             "Same scale, same place, same warmth, air lock filled the same: a filled air "
                             "lock or a wet jar is worth more than a month of gas."});
    view.cautions.push_back({"weigh.lift", "A full jar is heavy and glass breaks: leave it standing on the scale."});
    return view;
}

}  // namespace undercroft::app
