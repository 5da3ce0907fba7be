#include "engine/trace/river.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>

#include "base/index.hpp"

namespace undercroft::engine {
namespace {

// Whole microlitres that sum to `volume`, nearest to the shares.
std::vector<std::int64_t> whole_parts(std::span<const double> shares, Volume volume) {
    std::vector<std::int64_t> parts(shares.size());
    std::vector<std::pair<double, std::size_t>> remainders;
    std::int64_t left = volume.ul();
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const double exact = shares[i] * static_cast<double>(volume.ul());
        parts[i] = static_cast<std::int64_t>(std::floor(exact));
        left -= parts[i];
        if (shares[i] > 0.0) remainders.emplace_back(exact - std::floor(exact), i);
    }
    std::sort(remainders.begin(), remainders.end(), [](const auto& a, const auto& b) {
        return a.first > b.first || (a.first == b.first && a.second < b.second);
    });
    for (std::size_t i = 0; left > 0 && !remainders.empty(); ++i, --left)
        ++parts[remainders[i % remainders.size()].second];
    // Shares that sum to a hair more than one: taken from the largest.
    if (left < 0) *std::max_element(parts.begin(), parts.end()) += left;
    return parts;
}

struct Moment {
    int entry;
    bool after;
    Volume volume;
    ledger::NodeId node;
};

}  // namespace

River river_of(const ledger::Cellar& cellar, HolderRef of) {
    // What came in is mixed once more, since the cellar keeps only what is there in the end.
    ledger::MixGraph graph = cellar.graph;
    std::vector<Moment> moments;
    Volume volume;
    ledger::NodeId node = ledger::k_no_node;
    for (const ledger::Flow& flow : cellar.flows) {
        const bool in = of.run >= 0 ? flow.to_run == of.run : flow.to_vessel == of.vessel;
        const bool out = of.run >= 0 ? flow.from_run == of.run : flow.from_vessel == of.vessel;
        if (!in && !out) continue;
        // One entry can be several streams: before the first of them, after the last.
        if (moments.empty() || moments.back().entry != flow.entry) {
            moments.push_back({flow.entry, false, volume, node});
            moments.push_back({flow.entry, true, volume, node});
        }
        if (in) {
            node = graph.mix(node, volume, flow.node, flow.volume);
            volume += flow.volume;
        } else {
            volume -= flow.volume;
        }
        if (volume == Volume{}) node = ledger::k_no_node;
        moments.back().volume = volume;
        moments.back().node = node;
    }

    std::vector<ledger::NodeId> nodes;
    for (const Moment& moment : moments) nodes.push_back(moment.node);
    const std::size_t lots = cellar.lots.size();
    const std::vector<double> rows = graph.share_rows(nodes, lots);
    River river;
    std::vector<bool> seen(lots, false);
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const std::span<const double> shares = std::span(rows).subspan(i * lots, lots);
        for (std::size_t lot = 0; lot < lots; ++lot) {
            if (shares[lot] <= 0.0 || seen[lot]) continue;
            seen[lot] = true;
            river.lots.push_back(static_cast<int>(lot));
        }
        RiverStep step{moments[i].entry, moments[i].after, moments[i].volume, {}};
        if (step.volume > Volume{}) {
            const std::vector<std::int64_t> parts = whole_parts(shares, step.volume);
            for (const int lot : river.lots)
                if (parts[at(lot)] > 0) step.parts.emplace_back(lot, Volume::from_ul(parts[at(lot)]));
        }
        river.steps.push_back(std::move(step));
    }
    return river;
}

}  // namespace undercroft::engine
