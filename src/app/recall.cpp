#include "app/recall.hpp"

#include <algorithm>

#include "base/index.hpp"
#include "engine/trace/recall.hpp"

namespace undercroft::app {
namespace {

class Recalling {
public:
    explicit Recalling(const Seen& seen) : m_seen(seen), m_received(receivers_of(seen)) {}

    RecallPlace& add(RecallView& view, engine::HolderRef holder) {
        auto& list = holder.run >= 0 ? view.runs : view.vessels;
        list.push_back(holder.run >= 0 ? run_place(holder.run) : vessel_place(holder.vessel));
        return list.back();
    }

private:
    [[nodiscard]] RecallPlace vessel_place(int index) const {
        const ledger::VesselState& vessel = m_seen.cellar.vessels[at(index)];
        RecallPlace place;
        place.kind = "vessel";
        place.number = m_seen.telling.number_of(vessel.key);
        place.name = vessel.as.name;
        place.location = vessel.as.location;
        place.holds = vessel.liquid.volume;
        return place;
    }

    [[nodiscard]] RecallPlace run_place(int index) const {
        const ledger::RunState& run = m_seen.cellar.runs[at(index)];
        RecallPlace place;
        place.kind = "run";
        place.number = m_seen.telling.number_of(run.key);
        place.name = run.as.run;
        place.location = run.as.location;
        place.holds = run.liquid.volume;
        place.packaged = m_seen.telling.day_text(run.packaged);
        place.count = run.as.count;
        place.left = run.left;
        place.received = m_received[at(index)];
        for (const auto& [cause, count] : run.taken)
            if (cause != ledger::TakeCause::given && cause != ledger::TakeCause::sold && count > 0)
                place.gone.emplace_back(ledger::word(cause), count);
        if (run.missing > 0) place.gone.emplace_back("missing", run.missing);
        return place;
    }

    const Seen& m_seen;
    std::vector<std::vector<Receiver>> m_received;
};

std::vector<int> lots_of(const ledger::Cellar& cellar, const Origin& origin) {
    std::vector<int> lots = origin.lots;
    for (std::size_t i = 0; i < cellar.lots.size(); ++i)
        if (std::find(origin.additions.begin(), origin.additions.end(), cellar.lots[i].addition) !=
            origin.additions.end())
            lots.push_back(static_cast<int>(i));
    return lots;
}

void add_additions(const Seen& seen, const Origin& origin, Recalling& recalling, RecallView& view) {
    const std::vector<engine::HeldIn> shares = engine::holders_of(seen.cellar, lots_of(seen.cellar, origin));
    for (const engine::HolderRef holder : engine::trace_additions(seen.cellar, origin.additions)) {
        if (holder.vessel >= 0 && seen.cellar.vessels[at(holder.vessel)].liquid.volume == Volume{}) continue;
        RecallPlace& place = recalling.add(view, holder);
        // What flavours and brings no liquid has no share.
        const auto held =
            std::find_if(shares.begin(), shares.end(), [&](const engine::HeldIn& one) { return one.holder == holder; });
        if (held != shares.end()) place.share = held->share;
    }
}

void add_cultures(const Seen& seen, const Origin& origin, Recalling& recalling, RecallView& view) {
    // A culture that came twice is found twice in one place: listed once, as surely and as long as either.
    struct Found {
        engine::HolderRef holder;
        ledger::Certainty certainty;
        Instant since;
    };
    std::vector<Found> all;
    for (const engine::CultureAt& culture : engine::trace_cultures(seen.cellar, origin.cultures)) {
        const ledger::Certainty certainty = certainty_of(seen, culture.holder, culture.here);
        const auto known =
            std::find_if(all.begin(), all.end(), [&](const Found& one) { return one.holder == culture.holder; });
        if (known == all.end()) {
            all.push_back({culture.holder, certainty, culture.here.since});
        } else {
            known->certainty = std::max(known->certainty, certainty);
            known->since = std::min(known->since, culture.here.since);
        }
    }
    for (const Found& one : all) {
        RecallPlace& place = recalling.add(view, one.holder);
        place.certainty = ledger::word(one.certainty);
        place.since = seen.telling.day_text(one.since);
    }
    for (const ledger::GearState& gear : seen.cellar.gear)
        if (std::any_of(gear.cultures.begin(), gear.cultures.end(), [&](const ledger::OnGear& rider) {
                return std::find(origin.cultures.begin(), origin.cultures.end(), rider.culture) !=
                       origin.cultures.end();
            }))
            view.gear.push_back(gear.name);
}

std::string counted(std::size_t count, const char* one) {
    return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

void say(RecallView& view) {
    std::size_t people = 0;
    for (const RecallPlace& run : view.runs) {
        view.on_hand += run.left;
        people += run.received.size();
        for (const Receiver& one : run.received) view.with_others += one.count;
    }
    view.words = view.subject + " is in " + counted(view.vessels.size(), "vessel") + " and in " +
                 counted(view.runs.size(), "run") + ": " +
                 counted(static_cast<std::size_t>(view.on_hand), "container") + " on hand, " +
                 std::to_string(view.with_others) + " with others" +
                 (people > 0 ? " (" + counted(people, "hand-over") + ")" : "") + ".";
    if (view.vessels.empty() && view.runs.empty())
        view.words = view.subject + " is nowhere any more, and no run held it.";
    if (!view.runs.empty())
        view.cautions.push_back(
            {"recall.do_not_ship",
             "Hold back every container of these runs until it is settled. A run in doubt for its "
             "gas is not touched warm: chill it in a closed box first, with face shield and gloves."});
    if (view.with_others > 0)
        view.cautions.push_back({"recall.tell",
                                 "Tell everybody on the list what it is, how to know the bottles, and what to do with "
                                 "them. Beer that was sold may have to be reported: follow your local rules."});
    if (!view.gear.empty())
        view.cautions.push_back({"recall.gear", "It may ride on the gear named here until a kill step on it."});
}

}  // namespace

std::vector<std::vector<Receiver>> receivers_of(const Seen& seen) {
    std::vector<std::vector<Receiver>> all(seen.cellar.runs.size());
    for (const ledger::Entry* entry : seen.cellar.entries) {
        const auto* take = std::get_if<ledger::Take>(&entry->body);
        if (take == nullptr || (take->cause != ledger::TakeCause::given && take->cause != ledger::TakeCause::sold))
            continue;
        const int run = seen.cellar.run_of(take->run);
        if (run >= 0)
            all[at(run)].push_back({person_name(seen.telling.persons, take->person), take->count,
                                    ledger::word(take->cause), seen.telling.day_text(entry->at())});
    }
    return all;
}

RecallView recall_of(const Seen& seen, const Origin& origin) {
    RecallView view;
    view.on = seen.telling.day_text(seen.when);
    Recalling recalling(seen);
    if (!origin.additions.empty()) {
        view.what = "addition";
        view.subject = seen.cellar.additions[at(origin.additions.front())].as.name;
        add_additions(seen, origin, recalling, view);
    } else if (!origin.cultures.empty()) {
        view.what = "culture";
        view.subject = seen.cellar.cultures[at(origin.cultures.front())].as.name;
        add_cultures(seen, origin, recalling, view);
    } else {
        view.what = "lot";
        view.subject = seen.cellar.lots[at(origin.lots.front())].name;
        for (const engine::HeldIn& held : engine::holders_of(seen.cellar, origin.lots))
            recalling.add(view, held.holder).share = held.share;
    }
    say(view);
    return view;
}

}  // namespace undercroft::app
