#include "ledger/replay.hpp"

#include <algorithm>
#include <utility>

#include "ledger/liquid.hpp"
#include "ledger/replayer.hpp"

namespace undercroft::ledger {
Step Replayer::take(const Entry& entry) {
    m_index = static_cast<int>(m_cellar.entries.size());
    m_entry = &entry;
    m_cellar.entries.push_back(&entry);
    return std::visit([this](const auto& body) { return apply(body); }, entry.body);
}

Step Replayer::fault(FaultKind kind, std::string what, Volume wanted, Volume held, int count, int held_count) const {
    return tl::unexpected(ReplayFault{kind, m_entry->key, std::move(what), wanted, held, count, held_count});
}

Step Replayer::not_found(const EntryKey& key) const {
    // The key may be that of a vessel which joins later in the book's order.
    const bool known = m_cellar.chains->number_of(key) != Chains::k_none;
    return fault(known ? FaultKind::not_there_yet : FaultKind::unknown_reference, key.text());
}

Step Replayer::find_vessel(const EntryKey& key, int& index) {
    index = m_cellar.vessel_of(key);
    if (index < 0) return not_found(key);
    if (vessel(index).retired) return fault(FaultKind::not_there_yet, vessel(index).as.name);
    touch_vessel(index);
    return {};
}

Step Replayer::find_run(const EntryKey& key, int& index) {
    index = m_cellar.run_of(key);
    if (index < 0) return not_found(key);
    touch_run(index);
    return {};
}

Step Replayer::find_subject(const EntryKey& key, int& vessel_index, int& run_index) {
    run_index = m_cellar.run_of(key);
    vessel_index = -1;
    if (run_index >= 0) return find_run(key, run_index);
    return find_vessel(key, vessel_index);
}

void Replayer::touch_vessel(int index) {
    auto& list = vessel(index).entries;
    if (list.empty() || list.back() != m_index) list.push_back(m_index);
}

void Replayer::touch_run(int index) {
    auto& list = run_at(index).entries;
    if (list.empty() || list.back() != m_index) list.push_back(m_index);
}

void Replayer::leave_residue_if_empty(VesselState& state) {
    Liquid& liquid = state.liquid;
    if (liquid.volume != Volume{}) return;
    if (liquid.node != k_no_node) state.held_last = liquid.node;
    liquid.node = k_no_node;
    liquid.additions = state.additions_inside;
    // Residue: what lived there may live on until the vessel is cleaned, and leaves traces of allergens.
    liquid.cultures = only_possible(std::move(liquid.cultures));
    liquid.allergens = traces_of(std::move(liquid.allergens));
}

Step Replayer::take_out(int from, Volume amount, FlowKind kind, LossCause cause) {
    if (amount < Volume{}) return fault(FaultKind::absurd, vessel(from).as.name, amount);
    if (amount == Volume{}) return {};
    VesselState& source = vessel(from);
    if (amount > source.liquid.volume)
        return fault(FaultKind::more_than_held, source.as.name, amount, source.liquid.volume);
    Flow flow;
    flow.entry = m_index;
    flow.kind = kind;
    flow.from_vessel = from;
    flow.volume = amount;
    flow.node = source.liquid.node;
    flow.cause = cause;
    if (kind == FlowKind::loss) m_cellar.flows.push_back(flow);
    // What air takes leaves its allergens behind.
    if (cause == LossCause::evaporation && amount < source.liquid.volume)
        concentrate_allergens(source.liquid.allergens, source.liquid.volume, source.liquid.volume - amount);
    source.liquid.volume -= amount;
    return {};
}

void Replayer::touch(int index, const GearNames& names) {
    for (const std::string& name : names) {
        const int gear = gear_named(m_cellar.gear, name);
        if (suspect(vessel(index).liquid, m_cellar.gear, gear, m_entry->at()))
            m_cellar.arrivals.push_back({m_index, index, -1});
        pick_up(m_cellar.gear[at(gear)], vessel(index).liquid, index, m_entry->at());
    }
}

void Replayer::touch_bottles(int index, const GearNames& names) {
    for (const std::string& name : names)
        if (suspect(run_at(index).liquid, m_cellar.gear, gear_named(m_cellar.gear, name), m_entry->at()))
            m_cellar.arrivals.push_back({m_index, -1, index});
}

Step Replayer::pour(int into, const Liquid& coming, Volume amount, Flow flow) {
    VesselState& target = vessel(into);
    if (amount < Volume{}) return fault(FaultKind::absurd, target.as.name, amount);
    if (amount == Volume{}) return {};
    const Volume room = target.as.capacity - solids_in(target);
    if (target.liquid.volume + amount > room)
        return fault(FaultKind::over_full, target.as.name, target.liquid.volume + amount, room);
    flow.entry = m_index;
    flow.to_vessel = into;
    flow.volume = amount;
    flow.present = target.liquid.volume;
    flow.node = coming.node;
    m_cellar.flows.push_back(flow);
    if (target.liquid.volume == Volume{}) target.filled_since = m_entry->at();
    if (flow.kind != FlowKind::found) target.came_in += amount;
    blend_into(target.liquid, coming, amount);
    return {};
}

void Replayer::blend_into(Liquid& there, const Liquid& coming, Volume amount) {
    there.node = m_cellar.graph.mix(there.node, there.volume, coming.node, amount);
    for (const CultureHere& here : coming.cultures)
        carry_culture(there.cultures, {here.culture, std::min(here.certainty, Certainty::likely), m_entry->at(),
                                       there.volume == Volume{} ? here.brought : m_entry->at()});
    carry_allergens(there.allergens, there.volume, coming.allergens, amount);
    if (!coming.additions.empty()) {
        std::vector<int> both;
        std::set_union(there.additions.begin(), there.additions.end(), coming.additions.begin(), coming.additions.end(),
                       std::back_inserter(both));
        there.additions = std::move(both);
    }
    there.volume += amount;
}

Volume Replayer::solids_in(const VesselState& state) const {
    Volume sum;
    for (const int index : state.additions_inside) sum += m_cellar.additions[at(index)].as.solids;
    return sum;
}

int Replayer::new_lot(LotState lot) {
    lot.key = own_key();
    lot.entered = m_entry->at();
    m_cellar.lots.push_back(std::move(lot));
    return last_of(m_cellar.lots);
}

void Replayer::bring_cultures(int into, const std::vector<Culture>& cultures, Liquid& liquid) {
    for (const Culture& one : cultures) {
        m_cellar.cultures.push_back(CultureState{own_key(), one, into, m_entry->at(), false});
        carry_culture(liquid.cultures, {last_of(m_cellar.cultures), Certainty::certain, m_entry->at(), m_entry->at()});
    }
}

Step Replayer::settle_before(int into, const FullSettlement& settlement) {
    if (settlement.evaporation < Volume{} || settlement.found < Volume{})
        return fault(FaultKind::absurd, vessel(into).as.name, std::min(settlement.evaporation, settlement.found));
    if (settlement.evaporation > Volume{}) {
        STEP(take_out(into, settlement.evaporation, FlowKind::loss, LossCause::evaporation));
        leave_residue_if_empty(vessel(into));
    }
    return find_more(into, settlement.found);
}

Step Replayer::find_more(int into, Volume amount) {
    if (amount == Volume{}) return {};
    const VesselState& there = vessel(into);
    LotState lot;
    lot.name = "found in " + there.as.name;
    lot.kind = LotKind::unknown;
    lot.volume = amount;
    lot.like = there.liquid.node != k_no_node ? there.liquid.node : there.held_last;
    lot.vessel = into;
    Flow flow;
    flow.kind = FlowKind::found;
    flow.lot = new_lot(std::move(lot));
    Liquid found;
    found.node = m_cellar.graph.leaf(flow.lot);
    found.allergens = there.liquid.allergens;  // they stay what they are
    return pour(into, found, amount, flow);
}

Step Replayer::apply(const VesselJoins& body) {
    if (body.capacity <= Volume{} || body.ullage < Volume{} || body.ullage >= body.capacity)
        return fault(FaultKind::absurd, body.name, body.capacity, body.ullage);
    for (const VesselState& other : m_cellar.vessels)
        if (!other.retired && other.as.name == body.name) return fault(FaultKind::name_taken, body.name);
    VesselState state;
    state.key = own_key();
    state.as = body;
    state.joined = m_entry->at();
    m_cellar.vessels.push_back(std::move(state));
    m_cellar.vessel_by_first.emplace(own_first(), last_of(m_cellar.vessels));
    touch_vessel(last_of(m_cellar.vessels));
    return {};
}

Step Replayer::apply(const VesselLeaves& body) {
    int index = -1;
    STEP(find_vessel(body.vessel, index));
    if (vessel(index).liquid.volume > Volume{})
        return fault(FaultKind::not_empty, vessel(index).as.name, {}, vessel(index).liquid.volume);
    // What was left inside leaves with it.
    for (const int addition : vessel(index).additions_inside) m_cellar.additions[at(addition)].until = m_entry->at();
    vessel(index).additions_inside.clear();
    vessel(index).retired = true;
    return {};
}

Step Replayer::apply(const LotEnters& body) {
    int into = -1;
    STEP(find_vessel(body.vessel, into));
    if (body.volume <= Volume{}) return fault(FaultKind::absurd, body.name, body.volume);
    STEP(settle_before(into, body.settlement));
    LotState lot;
    lot.name = body.name;
    lot.kind = body.kind;
    lot.volume = body.volume;
    lot.brewed_from = body.brewed_from;
    lot.brewed_to = body.brewed_to;
    lot.age_assumed = body.age_assumed;
    lot.vessel = into;
    Flow flow;
    flow.kind = FlowKind::lot;
    flow.lot = new_lot(std::move(lot));
    Liquid coming;
    coming.node = m_cellar.graph.leaf(flow.lot);
    coming.allergens = allergens_here(body.allergens);
    STEP(pour(into, coming, body.volume, flow));
    bring_cultures(into, body.cultures, vessel(into).liquid);
    touch(into, body.gear);
    return {};
}

Step Replayer::apply(const Move& body) {
    int from = -1;
    STEP(find_vessel(body.from, from));
    if (body.to.empty()) return fault(FaultKind::absurd, vessel(from).as.name);
    Volume sum = body.loss;
    for (const Destination& one : body.to) {
        if (one.volume <= Volume{}) return fault(FaultKind::absurd, vessel(from).as.name, one.volume);
        sum += one.volume;
    }
    if (sum > vessel(from).liquid.volume)
        return fault(FaultKind::more_than_held, vessel(from).as.name, sum, vessel(from).liquid.volume);
    if (body.to.size() > 1 && body.settlement != FullSettlement{})
        return fault(FaultKind::absurd, vessel(from).as.name,
                     body.settlement.evaporation + body.settlement.found);  // of which of them?
    const Liquid leaving = vessel(from).liquid;
    touch(from, body.gear);
    for (const Destination& one : body.to) {
        int into = -1;
        STEP(find_vessel(one.vessel, into));
        if (into == from) return fault(FaultKind::same_vessel, vessel(from).as.name);
        STEP(settle_before(into, body.settlement));
        STEP(take_out(from, one.volume, FlowKind::move));
        Flow flow;
        flow.kind = FlowKind::move;
        flow.from_vessel = from;
        STEP(pour(into, leaving, one.volume, flow));
        touch(into, body.gear);
    }
    STEP(take_out(from, body.loss, FlowKind::loss, LossCause::lees));
    leave_residue_if_empty(vessel(from));
    return {};
}

Step Replayer::apply(const Loss& body) {
    int from = -1;
    STEP(find_vessel(body.vessel, from));
    if (body.volume <= Volume{}) return fault(FaultKind::absurd, vessel(from).as.name, body.volume);
    STEP(take_out(from, body.volume, FlowKind::loss, body.cause));
    leave_residue_if_empty(vessel(from));
    return {};
}

Step Replayer::apply(const Addition& body) {
    int into = -1;
    STEP(find_vessel(body.vessel, into));
    if (body.brings < Volume{} || body.solids < Volume{} || body.hold_up < Volume{} ||
        (body.mass <= Mass{} && body.dose <= Volume{}))
        return fault(FaultKind::absurd, body.name, body.brings);
    AdditionState state;
    state.key = own_key();
    state.as = body;
    state.vessel = into;
    state.from = m_entry->at();
    m_cellar.additions.push_back(state);
    const int addition = last_of(m_cellar.additions);
    m_cellar.addition_by_first.emplace(own_first(), addition);
    VesselState& target = vessel(into);
    const bool stays = body.contained || body.solids > Volume{};
    if (stays) target.additions_inside.push_back(addition);
    if (target.liquid.volume + solids_in(target) > target.as.capacity)
        return fault(FaultKind::over_full, target.as.name, target.liquid.volume,
                     target.as.capacity - solids_in(target));
    Liquid coming;
    coming.allergens = allergens_here(body.allergens);
    if (body.brings > Volume{}) {
        LotState lot;
        lot.name = body.name;
        lot.kind = body.source_kind;
        lot.volume = body.brings;
        lot.vessel = into;
        lot.addition = addition;
        Flow flow;
        flow.kind = FlowKind::addition;
        flow.lot = new_lot(std::move(lot));
        coming.node = m_cellar.graph.leaf(flow.lot);
        STEP(pour(into, coming, body.brings, flow));
    } else {
        // How much that will be in a litre of what comes onto it later, nobody knows.
        if (target.liquid.volume == Volume{})
            for (AllergenHere& one : coming.allergens) one.mg_per_litre.reset();
        add_allergens(target.liquid.allergens, coming.allergens);
    }
    target.liquid.additions.push_back(addition);  // indices grow, so the list stays sorted
    bring_cultures(into, body.cultures, target.liquid);
    return {};
}

Step Replayer::apply(const Lift& body) {
    const int index = m_cellar.addition_of(body.addition);
    if (index < 0) return fault(FaultKind::unknown_reference, body.addition.text());
    AdditionState& addition = m_cellar.additions[at(index)];
    auto& inside = vessel(addition.vessel).additions_inside;
    const auto spot = std::find(inside.begin(), inside.end(), index);
    if (spot == inside.end()) return fault(FaultKind::not_there_yet, addition.as.name);
    touch_vessel(addition.vessel);
    inside.erase(spot);
    addition.until = m_entry->at();
    return {};
}

Step Replayer::apply(const Pitch& body) {
    int into = -1;
    STEP(find_vessel(body.vessel, into));
    m_cellar.cultures.push_back(CultureState{own_key(), body.culture, into, m_entry->at(), body.suspected});
    carry_culture(vessel(into).liquid.cultures,
                  {last_of(m_cellar.cultures), body.suspected ? Certainty::possible : Certainty::certain, m_entry->at(),
                   m_entry->at()});
    return {};
}

Step Replayer::look_at(const EntryKey& subject, Volume sample, const GearNames& gear) {
    int vessel_index = -1;
    int run_index = -1;
    STEP(find_subject(subject, vessel_index, run_index));
    if (vessel_index < 0) return {};
    touch(vessel_index, gear);
    if (sample == Volume{}) return {};
    STEP(take_out(vessel_index, sample, FlowKind::loss, LossCause::sample));
    leave_residue_if_empty(vessel(vessel_index));
    return {};
}

Step Replayer::apply(const Calibrate&) {
    m_cellar.calibrations.push_back(m_index);
    return {};
}

Step Replayer::mention(const EntryKey& subject) {
    if (subject.empty()) return {};
    int vessel_index = -1;
    int run_index = -1;
    return find_subject(subject, vessel_index, run_index);
}

tl::expected<void, ReplayFault> replay_on(Cellar& cellar, std::span<const Entry* const> next) {
    Replayer replayer{cellar};
    for (const Entry* entry : next) STEP(replayer.take(*entry));
    return {};
}

}  // namespace undercroft::ledger
