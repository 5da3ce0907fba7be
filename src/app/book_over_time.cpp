// One vessel or run over all its time.
#include "app/book_look.hpp"
#include "app/names.hpp"
#include "app/over_time.hpp"
#include "base/index.hpp"
#include "engine/age/age.hpp"
#include "engine/age/turns.hpp"
#include "engine/state/series.hpp"
#include "engine/trace/passage.hpp"
#include "engine/trace/river.hpp"

namespace undercroft::app {
namespace {

// Says whose time it is.
template <class View>
void name_subject(View& view, const ledger::Cellar& cellar, engine::HolderRef holder, const Telling& telling) {
    const bool run = holder.run >= 0;
    view.kind = run ? "run" : "vessel";
    view.subject = run ? cellar.runs[at(holder.run)].as.run : cellar.vessels[at(holder.vessel)].as.name;
    view.number = telling.number_of(run ? cellar.runs[at(holder.run)].key : cellar.vessels[at(holder.vessel)].key);
}

RiverTurn turn_of(const engine::BookedTurn& booked, const ledger::Cellar& cellar, const Telling& telling) {
    RiverTurn turn;
    const int first = booked.pull_entry >= 0 ? booked.pull_entry : booked.refill_entry;
    turn.number = cellar.entries[at(first)]->sequence;
    if (booked.pull_entry >= 0) turn.day = telling.day_text(booked.pulled);
    if (booked.refill_entry >= 0) turn.refilled_day = telling.day_text(booked.refilled);
    turn.pulled = booked.pulled_volume;
    turn.refilled = booked.refilled_volume;
    return turn;
}

}  // namespace

Result<RiverView> Book::river(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    const ledger::Cellar& cellar = here.cellar();
    TRY(const engine::HolderRef holder, holder_named(here, "name", name));
    RiverView view;
    view.book = line();
    view.on = here.telling.day_text(here.when);
    name_subject(view, cellar, holder, here.telling);
    const engine::River river = engine::river_of(cellar, holder);
    std::vector<int> serials(cellar.lots.size(), 0);
    for (const int index : river.lots) {
        const ledger::LotState& lot = cellar.lots[at(index)];
        serials[at(index)] = static_cast<int>(view.lots.size()) + 1;
        RiverLot& shown = view.lots.emplace_back();
        shown.serial = serials[at(index)];
        shown.number = here.telling.number_of(lot.key);
        shown.name = lot.name;
        shown.kind = ledger::word(lot.kind);
        if (lot.brewed_from) shown.brewed_from = iso_text(*lot.brewed_from);
        if (lot.brewed_to) shown.brewed_to = iso_text(*lot.brewed_to);
        shown.assumed = lot.age_assumed;
    }
    for (const engine::RiverStep& step : river.steps) {
        const ledger::Entry& entry = *cellar.entries[at(step.entry)];
        RiverStep& shown = view.steps.emplace_back();
        shown.time = iso_text(entry.at());
        shown.day = here.telling.day_text(entry.at());
        shown.number = entry.sequence;
        shown.after = step.after;
        shown.volume = step.volume;
        for (const auto& [lot, volume] : step.parts) shown.parts.push_back({serials[at(lot)], volume});
    }
    if (holder.run >= 0) return view;
    const auto turns = engine::turns_of_vessel(cellar, holder.vessel);
    for (const engine::BookedTurn& turn : turns) view.turns.push_back(turn_of(turn, cellar, here.telling));
    if (const auto usual = engine::usual_turn(turns)) {
        view.usual_pull = usual->pull;
        view.usual_interval_days = usual->interval_years * 365.25;
    }
    return view;
}

Result<ReadingsView> Book::readings(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    const ledger::Cellar& cellar = here.cellar();
    TRY(const engine::HolderRef holder, holder_named(here, "name", name));
    ReadingsView view;
    view.book = line();
    view.on = here.telling.day_text(here.when);
    name_subject(view, cellar, holder, here.telling);
    const std::vector<int>& entries =
        holder.run >= 0 ? cellar.runs[at(holder.run)].entries : cellar.vessels[at(holder.vessel)].entries;
    for (const engine::Series& series : engine::series_of(cellar, entries)) {
        ReadingSeries& shown = view.series.emplace_back();
        shown.quantity = ledger::word(series.quantity);
        shown.unit = series.unit;
        shown.decimals = series.decimals;
        for (const engine::SeriesPoint& point : series.points) {
            const ledger::Entry& entry = *cellar.entries[at(point.entry)];
            shown.points.push_back({iso_text(entry.at()), here.telling.day_text(entry.at()), point.value, point.sd,
                                    std::get<ledger::Reading>(entry.body).instrument, entry.sequence});
        }
    }
    return view;
}

namespace {

// Why bottles of a run are flagged; empty when nothing stands against them.
std::string words_against(const std::vector<FindingView>& findings, const std::string& run) {
    std::string words;
    for (const FindingView& finding : findings)
        if (finding.run == run) words += (words.empty() ? "" : " ") + finding.words;
    return words;
}

FlowNode node_of(const Seen& seen, engine::HolderRef holder, const std::vector<FindingView>& findings) {
    const ledger::Cellar& cellar = seen.cellar;
    FlowNode node;
    node.what = holder.run >= 0 ? "run" : "vessel";
    const ledger::Liquid& liquid =
        holder.run >= 0 ? cellar.runs[at(holder.run)].liquid : cellar.vessels[at(holder.vessel)].liquid;
    node.name = holder.run >= 0 ? cellar.runs[at(holder.run)].as.run : cellar.vessels[at(holder.vessel)].as.name;
    node.number = seen.telling.number_of(holder.run >= 0 ? cellar.runs[at(holder.run)].key
                                                         : cellar.vessels[at(holder.vessel)].key);
    node.id = node.what + " " + std::to_string(node.number);
    if (const auto age = engine::age_of(cellar, liquid, seen.when, seen.telling.zone, engine::AgeFrom::brew_day))
        node.mean_age_years = age->mean_years;
    if (holder.run >= 0) node.why = words_against(findings, node.name);
    node.flagged = !node.why.empty();
    return node;
}

}  // namespace

Result<FlowView> Book::flow(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    const ledger::Cellar& cellar = here.cellar();
    TRY(const engine::HolderRef holder, holder_named(here, "name", name));
    const Seen seen = here.seen();
    const std::vector<FindingView> findings = moment.is_now() ? findings_at(here) : std::vector<FindingView>{};
    const engine::Passage passage = engine::passage_of(cellar, holder);
    FlowView view;
    view.book = line();
    view.on = here.telling.day_text(here.when);
    name_subject(view, cellar, holder, here.telling);
    view.here = passage.here;
    view.nodes.push_back(node_of(seen, holder, findings));
    const std::string self = view.nodes.front().id;
    // Lots of one entry are one node: a filling to full finds liquid beside what it brings.
    for (const engine::PassedLot& passed : passage.lots) {
        const ledger::LotState& lot = cellar.lots[at(passed.lot)];
        FlowNode node;
        node.what = "lot";
        node.name = lot.name;
        node.number = here.telling.number_of(lot.key);
        node.id = "lot " + std::to_string(node.number) + (lot.like == ledger::k_no_node ? "" : " found");
        if (lot.kind == ledger::LotKind::beer)
            node.mean_age_years = engine::years_of_lot(lot, here.when, m_zone, engine::AgeFrom::brew_day);
        view.links.push_back({node.id, self, passed.entered});
        view.nodes.push_back(std::move(node));
    }
    for (const auto* list : {&passage.vessels, &passage.runs})
        for (const engine::PassedInto& into : *list) {
            FlowNode node = node_of(seen, into.holder, findings);
            view.links.push_back({self, node.id, into.volume});
            view.nodes.push_back(std::move(node));
        }
    for (const engine::PassedOut& out : passage.out) {
        FlowNode node;
        node.id = "out " + out.cause;
        node.what = "out";
        node.name = out.cause;
        view.links.push_back({self, node.id, out.volume});
        view.nodes.push_back(std::move(node));
    }
    return view;
}

}  // namespace undercroft::app
