// Runs: packaged, counted, taken.
#include <algorithm>
#include <utility>

#include "ledger/liquid.hpp"
#include "ledger/replayer.hpp"

namespace undercroft::ledger {

Step Replayer::count_run(int index, const Settle& body) {
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

Step Replayer::apply(const Package& body) {
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

Step Replayer::apply(const Take& body) {
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

}  // namespace undercroft::ledger
