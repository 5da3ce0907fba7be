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
        liquid.node = k_no_node;
        liquid.additions = state.additions_inside;
        // Residue: what lived there may live on until the vessel is cleaned, and leaves traces of allergens.
        liquid.cultures = only_possible(std::move(liquid.cultures));
        liquid.allergens = traces_of(std::move(liquid.allergens));
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
        // What air takes leaves its allergens behind.
        if (cause == LossCause::evaporation && amount < source.liquid.volume)
            concentrate_allergens(source.liquid.allergens, source.liquid.volume, source.liquid.volume - amount);
        source.liquid.volume -= amount;
        return {};
    }

    // --- gear --------------------------------------------------------------------------------
    void touch(int index, const GearNames& names) {
        for (const std::string& name : names) {
            const int gear = gear_named(m_cellar.gear, name);
            if (suspect(vessel(index).liquid, m_cellar.gear, gear, m_entry->at()))
                m_cellar.arrivals.push_back({m_index, index, -1});
            pick_up(m_cellar.gear[at(gear)], vessel(index).liquid, index, m_entry->at());
        }
    }
    void touch_bottles(int index, const GearNames& names) {
        for (const std::string& name : names)
            if (suspect(run_at(index).liquid, m_cellar.gear, gear_named(m_cellar.gear, name), m_entry->at()))
                m_cellar.arrivals.push_back({m_index, -1, index});
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
        blend_into(target.liquid, coming, amount);
        return {};
    }

    void blend_into(Liquid& there, const Liquid& coming, Volume amount) {
        there.node = m_cellar.graph.mix(there.node, there.volume, coming.node, amount);
        for (const CultureHere& here : coming.cultures)
            carry_culture(there.cultures, {here.culture, std::min(here.certainty, Certainty::likely), m_entry->at(),
                                           there.volume == Volume{} ? here.brought : m_entry->at()});
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
            carry_culture(liquid.cultures,
                          {last_of(m_cellar.cultures), Certainty::certain, m_entry->at(), m_entry->at()});
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
        if (settlement.found > Volume{}) {
            LotState lot;
            lot.name = "found in " + vessel(into).as.name;
            lot.kind = LotKind::unknown;
            lot.volume = settlement.found;
            lot.like = vessel(into).liquid.node;
            lot.vessel = into;
            Flow flow;
            flow.kind = FlowKind::found;
            flow.lot = new_lot(std::move(lot));
            Liquid found;
            found.node = m_cellar.graph.leaf(flow.lot);
            // As the vessel's own beer: its allergens stay what they are.
            found.allergens = vessel(into).liquid.allergens;
            STEP(pour(into, found, settlement.found, flow));
        }
        return {};
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
        touch(into, body.gear);
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
            // How much that will be in a litre of what comes onto it later, nobody knows.
            if (target.liquid.volume == Volume{})
                for (AllergenHere& one : coming.allergens) one.mg_per_litre.reset();
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
        carry_culture(vessel(into).liquid.cultures,
                      {last_of(m_cellar.cultures), body.suspected ? Certainty::possible : Certainty::certain,
                       m_entry->at(), m_entry->at()});
        return {};
    }

    Step apply(const Reading& body) { return look_at(body.subject, body.sample, body.gear); }
    Step apply(const Tasting& body) { return look_at(body.subject, body.sample, body.gear); }

    Step look_at(const EntryKey& subject, Volume sample, const GearNames& gear) {
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
        touch(from, body.gear);
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
        touch_bottles(run_index, body.gear);
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
        if (body.vessel.empty() && body.gear.empty()) return fault(FaultKind::absurd, "care");
        int index = -1;
        if (!body.vessel.empty()) {
            STEP(find_vessel(body.vessel, index));
            VesselState& state = vessel(index);
            if (state.liquid.volume > Volume{})
                return fault(FaultKind::not_empty, state.as.name, {}, state.liquid.volume);
            for (const int addition : state.additions_inside) m_cellar.additions[at(addition)].until = m_entry->at();
            state.additions_inside.clear();
            Liquid left;
            if (!body.kills() || body.in_pores) left.cultures = only_possible(std::move(state.liquid.cultures));
            const bool residue = body.method == CareMethod::emptied || body.method == CareMethod::rinsed;
            if (residue) left.allergens = traces_of(std::move(state.liquid.allergens));
            state.liquid = std::move(left);
        }
        for (const std::string& name : body.gear) {
            if (body.kills())
                m_cellar.gear[at(gear_named(m_cellar.gear, name))].cultures.clear();
            else if (index >= 0)
                touch(index, {name});
        }
        return {};
    }

    Step apply(const Treat& body) {
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

    static Fate fate_of(const Treat& body, const Culture& culture) {
        const auto among = [&culture](const std::vector<std::string>& kinds) {
            return std::find(kinds.begin(), kinds.end(), culture.kind) != kinds.end();
        };
        if (among(body.gone)) return Fate::dead;
        if (among(body.gone_unless_diastatic))
            return culture.diastatic == Diastatic::yes ? Fate::perhaps_dead : Fate::dead;
        return among(body.perhaps) ? Fate::perhaps_dead : Fate::alive;
    }

    Step apply(const Confirm& body) {
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

namespace {

tl::expected<Cellar, ReplayFault> replay_in_order(tl::expected<OrderedBook, ReplayFault> book) {
    if (!book) return tl::unexpected(book.error());
    Cellar cellar;
    cellar.chains = std::move(book->chains);
    if (auto whole = replay_on(cellar, book->live); !whole) return tl::unexpected(whole.error());
    return cellar;
}

}  // namespace

tl::expected<Cellar, ReplayFault> replay(std::span<const Entry> entries, const Scope& scope) {
    return replay_in_order(in_order(entries, scope));
}

tl::expected<Cellar, ReplayFault> replay(std::span<const Entry* const> entries, const Scope& scope) {
    return replay_in_order(in_order(entries, scope));
}

}  // namespace undercroft::ledger
