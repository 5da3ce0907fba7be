// Acts that become several entries of one sitting: the end of a vessel, and a solera that becomes two.
#include <algorithm>

#include "app/drafter.hpp"
#include "app/names.hpp"
#include "app/views_of.hpp"
#include "units/amount.hpp"

namespace undercroft::app {

using namespace ledger;

Result<std::shared_ptr<const Standing>> Drafter::standing_next() {
    return standing_or_say(course(), Scope{std::nullopt, new_entry({}).place, std::nullopt});
}

Result<void> Drafter::draft_end(const EndVessel& act, const std::string& by) {
    TRY(const auto before, standing_next());
    TRY(const int index, find_vessel(before->cellar, "vessel", act.vessel));
    const VesselState& vessel = before->cellar.vessels[at_index(index)];
    const std::string name = vessel.as.name;
    const Telling words = telling();
    std::string told = name + " ends, in the cellar since " + words.day_text(vessel.joined);
    if (vessel.liquid.volume > Volume{}) {
        told += ", with " + words.volume(vessel.liquid.volume);
        const auto age = engine::age_of(before->cellar, vessel.liquid, m_at, m_in.zone, engine::AgeFrom::brew_day);
        if (age) told += ", " + age_text(*age);
    }
    m_remarks.push_back(told + ".");
    for (const int inside : vessel.additions_inside)
        m_remarks.push_back(before->cellar.additions[at_index(inside)].as.name + " that is still in " + name +
                            " leaves with it.");
    if (!act.to.empty()) {
        MoveLiquid last{.reason = Reason::pull, .from = name, .to = act.to, .loss = {}, .acknowledge = act.acknowledge};
        for (MoveLiquid::To& to : last.to)
            if (to.volume.empty()) to.volume = "rest";
        TRY_VOID(draft_act(last, by));
    }
    TRY(const auto after, standing_next());
    const Volume left = after->cellar.vessels[at_index(index)].liquid.volume;
    if (left > Volume{}) {
        if (!act.dump)
            return fail(ErrorKind::impossible, name,
                        "What becomes of the " + words.volume(left) + " left in " + name + "?",
                        {{name + " holds", words.volume(left)}},
                        "Say --to VESSEL for the last pull, or --dump for what is poured away.");
        TRY_VOID(draft_act(LoseLiquid{name, "all", word(LossCause::dump)}, by));
    }
    if (!act.words.empty()) TRY_VOID(draft_act(WriteNote{.subject = name, .words = act.words}, by));
    return draft_act(RetireVessel{name}, by);
}

Result<void> Drafter::draft_split(const SplitVessel& act, const std::string& by) {
    TRY(const auto before, standing_next());
    const Cellar& cellar = before->cellar;
    TRY(const int index, find_vessel(cellar, "vessel", act.vessel));
    const VesselState& vessel = cellar.vessels[at_index(index)];
    if (vessel.as.role != VesselRole::solera)
        return fail(ErrorKind::impossible, vessel.as.name,
                    vessel.as.name + " is a " + word(vessel.as.role) + " vessel; only a solera is split.", {},
                    "Rack a part of it instead.");
    const auto same = std::find_if(cellar.vessels.begin(), cellar.vessels.end(), [&act](const VesselState& one) {
        return !one.retired && (one.as.name == act.into || (!one.as.tag.empty() && one.as.tag == act.into));
    });
    std::string into = act.into;
    if (same == cellar.vessels.end()) {
        if (act.fresh.capacity.empty())
            return fail(ErrorKind::not_found, "into", "There is no vessel \"" + act.into + "\".", {},
                        "Say how much it holds, --capacity 60 L, and it joins with this split.");
        RegisterVessel fresh = act.fresh;
        fresh.name = act.into;
        fresh.role = word(VesselRole::solera);
        if (fresh.material.empty()) fresh.material = vessel.as.material;
        if (fresh.location.empty()) fresh.location = vessel.as.location;
        TRY_VOID(draft_act(fresh, by));
    } else {
        into = same->as.name;
        if (!act.fresh.capacity.empty())
            return fail(ErrorKind::bad_input, "capacity", into + " is in the cellar already; leave --capacity out.");
        if (same->as.role != VesselRole::solera)
            return fail(ErrorKind::impossible, into,
                        into + " is a " + word(same->as.role) + " vessel; the second half of a solera is a solera.", {},
                        "Correct the entry of " + into + " first (role), or name a new vessel with --capacity.");
        if (same->liquid.volume > Volume{})
            return fail(ErrorKind::impossible, into, into + " is not empty: that would be a blend.",
                        {{into + " holds", telling().volume(same->liquid.volume)}}, "Split into an empty vessel.");
    }
    m_remarks.push_back("Both are of the same make-up, age and cultures; from now on each has turns of its own.");
    return draft_act(MoveLiquid{.reason = Reason::split,
                                .from = vessel.as.name,
                                .to = {{into, act.volume}},
                                .loss = {},
                                .acknowledge = act.acknowledge},
                     by);
}

}  // namespace undercroft::app
