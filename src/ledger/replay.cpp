#include "ledger/replay.hpp"

#include <algorithm>
#include <utility>

#include "ledger/liquid.hpp"

namespace undercroft::ledger {
namespace {

using Step = tl::expected<void, ReplayFault>;

#define STEP(expression)                                                       \
    do {                                                                       \
        if (Step step_result = (expression); !step_result) return step_result; \
    } while (false)

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

template <class T>
int last_of(const std::vector<T>& list) {
    return static_cast<int>(list.size()) - 1;
}

class Replayer {
public:
    explicit Replayer(Cellar& cellar) : m_cellar(cellar) {}

    Step take(const Entry& entry) {
        m_index = static_cast<int>(m_cellar.entries.size());
        m_entry = &entry;
        m_cellar.entries.push_back(&entry);
        return std::visit([this](const auto& body) { return apply(body); }, entry.body);
    }

private:
    // --- helpers -----------------------------------------------------------------------------
    [[nodiscard]] Step fault(FaultKind kind, std::string what, Volume wanted = {}, Volume held = {}, int count = 0,
                             int held_count = 0) const {
        return tl::unexpected(ReplayFault{kind, m_entry->key, std::move(what), wanted, held, count, held_count});
    }

    // First of the chain that the entry at hand belongs to.
    [[nodiscard]] int own_first() const { return m_cellar.chains->first_of(m_entry->key); }
    [[nodiscard]] EntryKey own_key() const { return m_cellar.chains->entry(own_first()).key; }
    [[nodiscard]] Step not_found(const EntryKey& key) const {
        // The key may be that of a vessel which joins later in the book's order.
        const bool known = m_cellar.chains->number_of(key) != Chains::k_none;
        return fault(known ? FaultKind::not_there_yet : FaultKind::unknown_reference, key.text());
    }

    VesselState& vessel(int index) { return m_cellar.vessels[at(index)]; }
    RunState& run_at(int index) { return m_cellar.runs[at(index)]; }

    // The vessel an entry names: there, joined and not retired.
    Step find_vessel(const EntryKey& key, int& index) {
        index = m_cellar.vessel_of(key);
        if (index < 0) return not_found(key);
        if (vessel(index).retired) return fault(FaultKind::not_there_yet, vessel(index).as.name);
        touch_vessel(index);
        return {};
    }

    Step find_run(const EntryKey& key, int& index) {
        index = m_cellar.run_of(key);
        if (index < 0) return not_found(key);
        touch_run(index);
        return {};
    }

    Step find_subject(const EntryKey& key, int& vessel_index, int& run_index) {
        run_index = m_cellar.run_of(key);
        vessel_index = -1;
        if (run_index >= 0) return find_run(key, run_index);
        return find_vessel(key, vessel_index);
    }

    void touch_vessel(int index) {
        auto& list = vessel(index).entries;
        if (list.empty() || list.back() != m_index) list.push_back(m_index);
    }
    void touch_run(int index) {
        auto& list = run_at(index).entries;
        if (list.empty() || list.back() != m_index) list.push_back(m_index);
    }

    void leave_residue_if_empty(VesselState& state) {
        Liquid& liquid = state.liquid;
        if (liquid.volume != Volume{}) return;
        if (liquid.node != k_no_node) state.held_last = liquid.node;
        liquid.node = k_no_node;
        liquid.additions = state.additions_inside;
        // Residue: what lived there may live on until the vessel is cleaned, and leaves traces of allergens.
        for (CultureHere& here : liquid.cultures) here.certainty = Certainty::possible;
        for (AllergenHere& here : liquid.allergens) here.mg_per_litre.reset();
    }

    Step take_out(int from, Volume amount, FlowKind kind, LossCause cause = LossCause::unknown) {
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
        source.liquid.volume -= amount;
        return {};
    }

    // Pours `coming` (volume `amount`) into a vessel; `flow` says where it came from.
    Step pour(int into, const Liquid& coming, Volume amount, Flow flow) {
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

    void blend_into(Liquid& there, const Liquid& coming, Volume amount) {
        there.node = m_cellar.graph.mix(there.node, there.volume, coming.node, amount);
        for (const CultureHere& here : coming.cultures)
            carry_culture(there.cultures, {here.culture, std::min(here.certainty, Certainty::likely), m_entry->at()});
        carry_allergens(there.allergens, there.volume, coming.allergens, amount);
        if (!coming.additions.empty()) {
            std::vector<int> both;
            std::set_union(there.additions.begin(), there.additions.end(), coming.additions.begin(),
                           coming.additions.end(), std::back_inserter(both));
            there.additions = std::move(both);
        }
        there.volume += amount;
    }

    [[nodiscard]] Volume solids_in(const VesselState& state) const {
        Volume sum;
        for (const int index : state.additions_inside) sum += m_cellar.additions[at(index)].as.solids;
        return sum;
    }

    int new_lot(LotState lot) {
        lot.key = own_key();
        lot.entered = m_entry->at();
        m_cellar.lots.push_back(std::move(lot));
        return last_of(m_cellar.lots);
    }

    void bring_cultures(int into, const std::vector<Culture>& cultures, Liquid& liquid) {
        for (const Culture& one : cultures) {
            m_cellar.cultures.push_back(CultureState{own_key(), one, into, m_entry->at(), false});
            carry_culture(liquid.cultures, {last_of(m_cellar.cultures), Certainty::certain, m_entry->at()});
        }
    }

    // Before a filling "to full": what had evaporated unseen, or what was found too much.
    Step settle_before(int into, const FullSettlement& settlement) {
        if (settlement.evaporation < Volume{} || settlement.found < Volume{})
            return fault(FaultKind::absurd, vessel(into).as.name, std::min(settlement.evaporation, settlement.found));
        if (settlement.evaporation > Volume{}) {
            STEP(take_out(into, settlement.evaporation, FlowKind::loss, LossCause::evaporation));
            leave_residue_if_empty(vessel(into));
        }
        return find_more(into, settlement.found);
    }

    // Liquid that turned out to be there, as the vessel's own beer.
    Step find_more(int into, Volume amount) {
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

    // --- entries -----------------------------------------------------------------------------
    Step apply(const VesselJoins& body) {
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

    Step apply(const VesselLeaves& body) {
        int index = -1;
        STEP(find_vessel(body.vessel, index));
        if (vessel(index).liquid.volume > Volume{})
            return fault(FaultKind::not_empty, vessel(index).as.name, {}, vessel(index).liquid.volume);
        // What was left inside leaves with it.
        for (const int addition : vessel(index).additions_inside)
            m_cellar.additions[at(addition)].until = m_entry->at();
        vessel(index).additions_inside.clear();
        vessel(index).retired = true;
        return {};
    }

    Step apply(const LotEnters& body) {
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
        return {};
    }

    Step apply(const Move& body) {
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
        }
        STEP(take_out(from, body.loss, FlowKind::loss, LossCause::lees));
        leave_residue_if_empty(vessel(from));
        return {};
    }

    Step apply(const Loss& body) {
        int from = -1;
        STEP(find_vessel(body.vessel, from));
        if (body.volume <= Volume{}) return fault(FaultKind::absurd, vessel(from).as.name, body.volume);
        STEP(take_out(from, body.volume, FlowKind::loss, body.cause));
        leave_residue_if_empty(vessel(from));
        return {};
    }

    Step apply(const Addition& body) {
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
            add_allergens(target.liquid.allergens, coming.allergens);
        }
        target.liquid.additions.push_back(addition);  // indices grow, so the list stays sorted
        bring_cultures(into, body.cultures, target.liquid);
        return {};
    }

    Step apply(const Lift& body) {
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

    Step apply(const Pitch& body) {
        int into = -1;
        STEP(find_vessel(body.vessel, into));
        m_cellar.cultures.push_back(CultureState{own_key(), body.culture, into, m_entry->at(), body.suspected});
        carry_culture(
            vessel(into).liquid.cultures,
            {last_of(m_cellar.cultures), body.suspected ? Certainty::possible : Certainty::certain, m_entry->at()});
        return {};
    }

    Step apply(const Reading& body) { return look_at(body.subject, body.sample); }
    Step apply(const Tasting& body) { return look_at(body.subject, body.sample); }

    Step look_at(const EntryKey& subject, Volume sample) {
        int vessel_index = -1;
        int run_index = -1;
        STEP(find_subject(subject, vessel_index, run_index));
        if (vessel_index < 0) return {};
        STEP(take_out(vessel_index, sample, FlowKind::loss, LossCause::sample));
        leave_residue_if_empty(vessel(vessel_index));
        return {};
    }

    Step apply(const Settle& body) {
        int vessel_index = -1;
        int run_index = -1;
        STEP(find_subject(body.subject, vessel_index, run_index));
        return run_index >= 0 ? count_run(run_index, body) : settle_vessel(vessel_index, body);
    }

    Step settle_vessel(int index, const Settle& body) {
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

    // What is poured is written down within a twentieth (common practice, no source).
    static Volume most_ever_in(const VesselState& state) {
        return state.came_in + Volume::from_ul(state.came_in.ul() / 20);
    }

    Step count_run(int index, const Settle& body) {
        RunState& run = run_at(index);
        if (body.missing_count < 0 || body.surplus_count < 0 || body.count < 0 ||
            (body.missing_count > 0 && body.surplus_count > 0) || body.missing != Volume{} || body.surplus != Volume{})
            return fault(FaultKind::absurd, run.as.run);
        if (body.missing_count > run.left)
            return fault(FaultKind::bottles_short, run.as.run, {}, {}, body.missing_count, run.left);
        if (run.left + body.surplus_count > run.as.count)
            return fault(FaultKind::never_there, run.as.run, {}, {}, run.left + body.surplus_count, run.as.count);
        Flow flow;
        flow.entry = m_index;
        flow.node = run.liquid.node;
        run.left += body.surplus_count - body.missing_count;
        run.missing += body.missing_count;
        run.found += body.surplus_count;
        if (body.missing_count > 0) {
            flow.kind = FlowKind::taken;
            flow.from_run = index;
            flow.volume = run.as.fill * body.missing_count;
            run.liquid.volume -= flow.volume;
            m_cellar.flows.push_back(flow);
        }
        if (body.surplus_count > 0) {
            LotState lot;
            lot.name = "found of " + run.as.run;
            lot.kind = LotKind::unknown;
            lot.volume = run.as.fill * body.surplus_count;
            lot.like = run.liquid.node;
            lot.vessel = run.source;
            flow.kind = FlowKind::found;
            flow.to_run = index;
            flow.volume = lot.volume;
            flow.present = run.liquid.volume;
            flow.lot = new_lot(std::move(lot));
            Liquid found;
            found.node = m_cellar.graph.leaf(flow.lot);
            found.allergens = run.liquid.allergens;
            flow.node = found.node;
            m_cellar.flows.push_back(flow);
            blend_into(run.liquid, found, flow.volume);
        }
        return {};
    }

    Step apply(const Calibrate&) {
        m_cellar.calibrations.push_back(m_index);
        return {};
    }

    Step apply(const LoggerFile& body) { return mention(body.subject); }

    Step apply(const Package& body) {
        int from = -1;
        STEP(find_vessel(body.from, from));
        if (body.count <= 0 || body.fill <= Volume{} || body.priming_volume < Volume{})
            return fault(FaultKind::absurd, body.run, body.fill);
        if (m_cellar.run_codes.contains(body.run)) return fault(FaultKind::name_taken, body.run);
        const Volume filled = body.fill * body.count;
        const Volume beer = filled - body.priming_volume;
        if (beer <= Volume{}) return fault(FaultKind::absurd, body.run, beer);
        if (beer + body.loss > vessel(from).liquid.volume)
            return fault(FaultKind::more_than_held, vessel(from).as.name, beer + body.loss, vessel(from).liquid.volume);
        const Liquid leaving = vessel(from).liquid;
        RunState state;
        state.key = own_key();
        state.as = body;
        state.packaged = m_entry->at();
        state.source = from;
        state.left = body.count;
        m_cellar.runs.push_back(std::move(state));
        const int run_index = last_of(m_cellar.runs);
        m_cellar.run_by_first.emplace(own_first(), run_index);
        m_cellar.run_codes.insert(body.run);
        touch_run(run_index);

        STEP(take_out(from, beer, FlowKind::package));
        Flow flow;
        flow.entry = m_index;
        flow.kind = FlowKind::package;
        flow.from_vessel = from;
        flow.to_run = run_index;
        flow.volume = beer;
        flow.node = leaving.node;
        m_cellar.flows.push_back(flow);
        blend_into(run_at(run_index).liquid, leaving, beer);
        if (body.priming_volume > Volume{}) {
            LotState lot;
            lot.name = "priming sugar";
            lot.kind = LotKind::syrup;
            lot.volume = body.priming_volume;
            lot.vessel = from;
            lot.priming = true;
            Flow priming;
            priming.entry = m_index;
            priming.kind = FlowKind::priming;
            priming.to_run = run_index;
            priming.lot = new_lot(std::move(lot));
            priming.volume = body.priming_volume;
            priming.present = beer;
            Liquid syrup;
            syrup.node = m_cellar.graph.leaf(priming.lot);
            priming.node = syrup.node;
            m_cellar.flows.push_back(priming);
            blend_into(run_at(run_index).liquid, syrup, body.priming_volume);
        }
        STEP(take_out(from, body.loss, FlowKind::loss, LossCause::spill));
        leave_residue_if_empty(vessel(from));
        return {};
    }

    Step apply(const Take& body) {
        int run_index = -1;
        STEP(find_run(body.run, run_index));
        RunState& run = run_at(run_index);
        if (body.count <= 0) return fault(FaultKind::absurd, run.as.run);
        if (body.count > run.left) return fault(FaultKind::bottles_short, run.as.run, {}, {}, body.count, run.left);
        const Volume amount = run.as.fill * body.count;
        run.left -= body.count;
        run.taken[body.cause] += body.count;
        run.liquid.volume -= amount;
        if (body.cause == TakeCause::returned) {
            int into = -1;
            STEP(find_vessel(body.vessel, into));
            Flow flow;
            flow.kind = FlowKind::returned;
            flow.from_run = run_index;
            return pour(into, run_at(run_index).liquid, amount, flow);
        }
        Flow flow;
        flow.entry = m_index;
        flow.kind = FlowKind::taken;
        flow.from_run = run_index;
        flow.volume = amount;
        flow.node = run.liquid.node;
        m_cellar.flows.push_back(flow);
        return {};
    }

    Step apply(const Care& body) {
        int index = -1;
        STEP(find_vessel(body.vessel, index));
        VesselState& state = vessel(index);
        if (state.liquid.volume > Volume{}) return fault(FaultKind::not_empty, state.as.name, {}, state.liquid.volume);
        for (const int addition : state.additions_inside) m_cellar.additions[at(addition)].until = m_entry->at();
        state.additions_inside.clear();
        state.liquid = Liquid{};
        state.held_last = k_no_node;
        state.came_in = Volume{};
        return {};
    }

    Step apply(const Note& body) { return mention(body.subject); }
    Step apply(const Snapshot& body) { return mention(body.subject); }
    Step apply(const Acknowledge& body) { return mention(body.subject); }
    Step apply(const Interval& body) { return mention(body.subject); }

    Step mention(const EntryKey& subject) {
        if (subject.empty()) return {};
        int vessel_index = -1;
        int run_index = -1;
        return find_subject(subject, vessel_index, run_index);
    }

    Step apply(const Void&) { return {}; }     // never live
    Step apply(const Unknown&) { return {}; }  // the book is read-only; it answers as far as it knows

    Cellar& m_cellar;
    const Entry* m_entry = nullptr;
    int m_index = 0;
};

}  // namespace

tl::expected<void, ReplayFault> replay_on(Cellar& cellar, std::span<const Entry* const> next) {
    Replayer replayer{cellar};
    for (const Entry* entry : next) STEP(replayer.take(*entry));
    return {};
}

}  // namespace undercroft::ledger
