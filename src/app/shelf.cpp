#include "app/shelf.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "app/due.hpp"
#include "app/recall.hpp"
#include "base/index.hpp"
#include "base/line_fit.hpp"

namespace undercroft::app {
namespace {

std::vector<std::vector<ShelfTasting>> tastings_of(const Seen& seen) {
    std::vector<std::vector<ShelfTasting>> all(seen.cellar.runs.size());
    for (const ledger::Entry* entry : seen.cellar.entries) {
        const auto* tasting = std::get_if<ledger::Tasting>(&entry->body);
        const int run = tasting != nullptr ? seen.cellar.run_of(tasting->subject) : -1;
        if (run < 0) continue;
        ShelfTasting told;
        told.day = seen.telling.day_text(entry->at());
        told.years = years_between(seen.cellar.runs[at(run)].packaged, entry->at());
        if (tasting->liking) told.liking = tasting->liking->value();
        told.words = tasting->words;
        for (const std::string& fault : tasting->faults) told.words += (told.words.empty() ? "" : "; ") + fault;
        all[at(run)].push_back(std::move(told));
    }
    return all;
}

std::string trend_words(const LineFit& line) {
    const bool clear = std::abs(line.slope) > 2.0 * line.slope_sd;
    const std::string by = number_text(std::abs(line.slope), 1) + " ± " + number_text(line.slope_sd, 1) +
                           " a year, by " + std::to_string(line.points) + " tastings";
    if (!clear) return "No clear trend yet: " + std::string(line.slope < 0 ? "down " : "up ") + by + ".";
    return line.slope > 0 ? "It gains with age: up " + by + "." : "It fades: down " + by + ". Open it sooner.";
}

void add_trends(const Seen& seen, const std::vector<std::vector<ShelfTasting>>& tastings, ShelfView& view) {
    std::map<std::string, std::vector<FitPoint>> of_solera;
    for (std::size_t run = 0; run < tastings.size(); ++run)
        for (const ShelfTasting& one : tastings[run])
            if (one.liking)
                of_solera[solera_behind(seen.cellar, static_cast<int>(run))].push_back({one.years, *one.liking});
    for (const auto& [solera, liked] : of_solera) {
        const auto line = line_through(liked);
        if (!line) continue;
        view.trends.push_back({solera, line->points, line->slope, line->slope_sd, trend_words(*line)});
    }
}

}  // namespace

std::string solera_behind(const ledger::Cellar& cellar, int run) {
    for (const engine::PathStep& step : engine::trace_back(cellar, {-1, run}).path)
        if (step.through.vessel >= 0 && cellar.vessels[at(step.through.vessel)].as.role == ledger::VesselRole::solera)
            return cellar.vessels[at(step.through.vessel)].as.name;
    return cellar.vessels[at(cellar.runs[at(run)].source)].as.name;
}

ShelfView shelf_of(const Seen& seen) {
    ShelfView view;
    view.on = seen.telling.day_text(seen.when);
    const auto tastings = tastings_of(seen);
    const auto received = receivers_of(seen);
    std::map<std::string, DueLine> next;
    for (DueLine& line : due_lines(seen, seen.tables)) {
        const bool of_run =
            std::any_of(seen.cellar.runs.begin(), seen.cellar.runs.end(),
                        [&](const ledger::RunState& run) { return run.left > 0 && run.as.run == line.subject; });
        if (!of_run) continue;
        next.try_emplace(line.subject, line);
        view.due.push_back(std::move(line));
    }
    std::map<std::string, std::vector<ShelfRun>> by_place;
    std::map<std::string, std::vector<std::string>> by_solera;
    for (std::size_t i = 0; i < seen.cellar.runs.size(); ++i) {
        const int index = static_cast<int>(i);
        if (seen.cellar.runs[i].left == 0) continue;
        ShelfRun shown;
        shown.run = run_summary(seen, index);
        shown.solera = solera_behind(seen.cellar, index);
        if (const auto line = next.find(shown.run.run); line != next.end()) shown.next = line->second;
        shown.opened = tastings[i];
        shown.received = received[i];
        by_solera[shown.solera].push_back(shown.run.run);
        by_place[shown.run.location].push_back(std::move(shown));
    }
    for (auto& [location, runs] : by_place) {
        ShelfPlace place;
        place.location = location;
        std::stable_sort(runs.begin(), runs.end(),
                         [](const ShelfRun& a, const ShelfRun& b) { return a.run.packaged < b.run.packaged; });
        for (const ShelfRun& one : runs) place.containers += one.run.left;
        place.runs = std::move(runs);
        view.places.push_back(std::move(place));
    }
    // What has no place comes last.
    std::stable_partition(view.places.begin(), view.places.end(),
                          [](const ShelfPlace& place) { return !place.location.empty(); });
    for (auto& [solera, runs] : by_solera)
        if (runs.size() > 1) view.verticals.push_back({solera, std::move(runs)});
    add_trends(seen, tastings, view);
    return view;
}

}  // namespace undercroft::app
