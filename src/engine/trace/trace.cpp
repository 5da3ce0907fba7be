#include "engine/trace/trace.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/index.hpp"

namespace undercroft::engine {
namespace {

const ledger::Liquid& liquid_of(const ledger::Cellar& cellar, HolderRef of) {
    return of.run >= 0 ? cellar.runs[at(of.run)].liquid : cellar.vessels[at(of.vessel)].liquid;
}

// For every flow: did it leave its source vessel empty?
std::vector<bool> emptied_by(const ledger::Cellar& cellar) {
    std::vector<Volume> volume(cellar.vessels.size());
    std::vector<bool> empty(cellar.flows.size(), false);
    for (std::size_t i = 0; i < cellar.flows.size(); ++i) {
        const ledger::Flow& flow = cellar.flows[i];
        if (flow.from_vessel >= 0) {
            volume[at(flow.from_vessel)] -= flow.volume;
            empty[i] = volume[at(flow.from_vessel)] == Volume{};
        }
        if (flow.to_vessel >= 0) volume[at(flow.to_vessel)] += flow.volume;
    }
    return empty;
}

std::vector<PathStep> path_to(const ledger::Cellar& cellar, HolderRef of) {
    const std::vector<bool> empty = emptied_by(cellar);
    std::set<HolderRef> leads_here{of};
    std::vector<PathStep> path;
    const auto note = [&path](HolderRef through, Instant when) {
        const auto known =
            std::find_if(path.begin(), path.end(), [&](const PathStep& step) { return step.through == through; });
        if (known == path.end())
            path.push_back({through, when, when});
        else
            known->from = when;
    };
    for (std::size_t i = cellar.flows.size(); i-- > 0;) {
        const ledger::Flow& flow = cellar.flows[i];
        const HolderRef from{flow.from_vessel, flow.from_run};
        const HolderRef to{flow.to_vessel, flow.to_run};
        const bool wanted = (to.vessel >= 0 || to.run >= 0) && leads_here.contains(to);
        // What the vessel held after it was emptied is another liquid.
        if (empty[i] && flow.from_vessel >= 0) leads_here.erase(from);
        if (!wanted || (from.vessel < 0 && from.run < 0)) continue;
        leads_here.insert(from);
        note(from, cellar.entries[at(flow.entry)]->at());
    }
    return path;
}

}  // namespace

BackTrace trace_back(const ledger::Cellar& cellar, HolderRef of) {
    BackTrace trace;
    const ledger::Liquid& liquid = liquid_of(cellar, of);
    const std::vector<double> shares = cellar.shares(liquid);
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (shares[i] > 0.0) trace.lots.emplace_back(static_cast<int>(i), shares[i]);
    std::stable_sort(trace.lots.begin(), trace.lots.end(),
                     [](const auto& a, const auto& b) { return a.second > b.second; });
    trace.additions = liquid.additions;
    trace.cultures = liquid.cultures;
    trace.path = path_to(cellar, of);
    return trace;
}

ForwardTrace trace_lots(const ledger::Cellar& cellar, const std::vector<int>& lots) {
    std::vector<double> is_one(cellar.lots.size(), 0.0);
    double entered_ul = 0.0;
    for (const int lot : lots) {
        is_one[at(lot)] = 1.0;
        entered_ul += static_cast<double>(cellar.lots[at(lot)].volume.ul());
    }
    const std::vector<double> share_of_node = cellar.graph.sweep(is_one);
    ForwardTrace trace;
    const auto add = [&](HolderRef holder, ledger::NodeId node, Volume volume) {
        if (node == ledger::k_no_node) return;
        const double there = share_of_node[at(node)];
        const double ul = there * static_cast<double>(volume.ul());
        if (ul > 0.0) trace.on_hand.push_back({holder, ul / entered_ul, there, Volume::from_ul(std::llround(ul))});
    };
    for (std::size_t i = 0; i < cellar.vessels.size(); ++i)
        add({static_cast<int>(i), -1}, cellar.vessels[i].liquid.node, cellar.vessels[i].liquid.volume);
    for (std::size_t i = 0; i < cellar.runs.size(); ++i)
        add({-1, static_cast<int>(i)}, cellar.runs[i].liquid.node, cellar.runs[i].liquid.volume);
    std::stable_sort(trace.on_hand.begin(), trace.on_hand.end(),
                     [](const WentTo& a, const WentTo& b) { return a.share_of_lot > b.share_of_lot; });
    std::map<std::string, double> gone;
    for (const ledger::Flow& flow : cellar.flows) {
        if (flow.kind != ledger::FlowKind::loss && flow.kind != ledger::FlowKind::taken) continue;
        const double ul = share_of_node[at(flow.node)] * static_cast<double>(flow.volume.ul());
        if (ul <= 0.0) continue;
        const auto* take = std::get_if<ledger::Take>(&cellar.entries[at(flow.entry)]->body);
        gone[take != nullptr ? ledger::word(take->cause) : ledger::word(flow.cause)] += ul;
    }
    for (const auto& [cause, ul] : gone) trace.gone.emplace_back(cause, Volume::from_ul(std::llround(ul)));
    return trace;
}

std::vector<CultureAt> trace_cultures(const ledger::Cellar& cellar, const std::vector<int>& cultures) {
    std::vector<CultureAt> found;
    const auto look = [&](HolderRef holder, const ledger::Liquid& liquid) {
        for (const ledger::CultureHere& here : liquid.cultures)
            if (std::find(cultures.begin(), cultures.end(), here.culture) != cultures.end())
                found.push_back({holder, here});
    };
    for (std::size_t i = 0; i < cellar.vessels.size(); ++i) look({static_cast<int>(i), -1}, cellar.vessels[i].liquid);
    for (std::size_t i = 0; i < cellar.runs.size(); ++i) look({-1, static_cast<int>(i)}, cellar.runs[i].liquid);
    std::stable_sort(found.begin(), found.end(),
                     [](const CultureAt& a, const CultureAt& b) { return a.here.certainty > b.here.certainty; });
    return found;
}

std::vector<HolderRef> trace_additions(const ledger::Cellar& cellar, const std::vector<int>& additions) {
    std::vector<HolderRef> found;
    const auto took = [&](const ledger::Liquid& liquid) {
        return std::any_of(liquid.additions.begin(), liquid.additions.end(), [&](int one) {
            return std::find(additions.begin(), additions.end(), one) != additions.end();
        });
    };
    for (std::size_t i = 0; i < cellar.vessels.size(); ++i)
        if (took(cellar.vessels[i].liquid)) found.push_back({static_cast<int>(i), -1});
    for (std::size_t i = 0; i < cellar.runs.size(); ++i)
        if (took(cellar.runs[i].liquid)) found.push_back({-1, static_cast<int>(i)});
    return found;
}

}  // namespace undercroft::engine
