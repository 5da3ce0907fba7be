// Stock-takes, and what ends or proves a culture.
#include <algorithm>
#include <utility>

#include "ledger/liquid.hpp"
#include "ledger/replayer.hpp"

namespace undercroft::ledger {

Step Replayer::apply(const Settle& body) {
    int vessel_index = -1;
    int run_index = -1;
    STEP(find_subject(body.subject, vessel_index, run_index));
    return run_index >= 0 ? count_run(run_index, body) : settle_vessel(vessel_index, body);
}

Step Replayer::settle_vessel(int index, const Settle& body) {
    const std::string& name = vessel(index).as.name;
    if (body.missing < Volume{} || body.surplus < Volume{} || body.found < Volume{} || body.found_sd < Volume{} ||
        (body.missing > Volume{} && body.surplus > Volume{}) || body.missing_count != 0 || body.surplus_count != 0)
        return fault(FaultKind::absurd, name, std::min({body.missing, body.surplus, body.found}));
    if (body.missing > Volume{}) {
        STEP(take_out(index, body.missing, FlowKind::loss, body.cause));
        leave_residue_if_empty(vessel(index));
    }
    if (body.surplus > Volume{}) {
        const Volume most = most_ever_in(vessel(index));
        if (vessel(index).liquid.volume + body.surplus > most)
            return fault(FaultKind::never_there, name, vessel(index).liquid.volume + body.surplus, most);
        STEP(find_more(index, body.surplus));
    }
    return {};
}

Volume Replayer::most_ever_in(const VesselState& state) {
    return state.came_in + Volume::from_ul(state.came_in.ul() / 20);
}

Step Replayer::apply(const Care& body) {
    if (body.vessel.empty() && body.gear.empty()) return fault(FaultKind::absurd, "care");
    int index = -1;
    if (!body.vessel.empty()) {
        STEP(find_vessel(body.vessel, index));
        VesselState& state = vessel(index);
        if (state.liquid.volume > Volume{}) return fault(FaultKind::not_empty, state.as.name, {}, state.liquid.volume);
        for (const int addition : state.additions_inside) m_cellar.additions[at(addition)].until = m_entry->at();
        state.additions_inside.clear();
        Liquid left;
        if (!body.kills() || body.in_pores) left.cultures = only_possible(std::move(state.liquid.cultures));
        const bool residue = body.method == CareMethod::emptied || body.method == CareMethod::rinsed;
        if (residue) left.allergens = traces_of(std::move(state.liquid.allergens));
        state.liquid = std::move(left);
        state.held_last = k_no_node;
        state.came_in = Volume{};
    }
    for (const std::string& name : body.gear) {
        if (body.kills())
            m_cellar.gear[at(gear_named(m_cellar.gear, name))].cultures.clear();
        else if (index >= 0)
            touch(index, {name});
    }
    return {};
}

Step Replayer::apply(const Treat& body) {
    int vessel_index = -1;
    int run_index = -1;
    STEP(find_subject(body.subject, vessel_index, run_index));
    Liquid& liquid = run_index >= 0 ? run_at(run_index).liquid : vessel(vessel_index).liquid;
    if (liquid.volume == Volume{})
        return fault(FaultKind::holds_nothing,
                     run_index >= 0 ? run_at(run_index).as.run : vessel(vessel_index).as.name);
    treat_cultures(liquid.cultures, [&](int culture) { return fate_of(body, m_cellar.cultures[at(culture)].as); });
    add_allergens(liquid.allergens, allergens_here(body.allergens));
    return {};
}

Fate Replayer::fate_of(const Treat& body, const Culture& culture) {
    const auto among = [&culture](const std::vector<std::string>& kinds) {
        return std::find(kinds.begin(), kinds.end(), culture.kind) != kinds.end();
    };
    if (among(body.gone)) return Fate::dead;
    if (among(body.gone_unless_diastatic)) return culture.diastatic == Diastatic::yes ? Fate::perhaps_dead : Fate::dead;
    return among(body.perhaps) ? Fate::perhaps_dead : Fate::alive;
}

Step Replayer::apply(const Confirm& body) {
    int vessel_index = -1;
    int run_index = -1;
    STEP(find_subject(body.subject, vessel_index, run_index));
    Liquid& liquid = run_index >= 0 ? run_at(run_index).liquid : vessel(vessel_index).liquid;
    bool found = false;
    for (CultureHere& here : liquid.cultures) {
        if (m_cellar.cultures[at(here.culture)].as.name != body.culture) continue;
        here.certainty = Certainty::certain;
        here.brought = m_entry->at();
        here.gear = here.gear_was_in = -1;
        found = true;
    }
    return found ? Step{} : fault(FaultKind::no_such_culture, body.culture);
}

}  // namespace undercroft::ledger
