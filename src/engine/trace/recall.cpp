#include "engine/trace/recall.hpp"

#include <algorithm>

#include "base/index.hpp"

namespace undercroft::engine {

std::vector<HeldIn> holders_of(const ledger::Cellar& cellar, const std::vector<int>& lots) {
    std::vector<double> is_one(cellar.lots.size(), 0.0);
    for (const int lot : lots) is_one[at(lot)] = 1.0;
    const std::vector<double> share_of_node = cellar.graph.sweep(is_one);
    std::vector<HeldIn> held;
    const auto add = [&](HolderRef holder, ledger::NodeId node) {
        if (node == ledger::k_no_node || share_of_node[at(node)] <= 0.0) return;
        held.push_back({holder, share_of_node[at(node)]});
    };
    for (std::size_t i = 0; i < cellar.vessels.size(); ++i)
        if (cellar.vessels[i].liquid.volume > Volume{}) add({static_cast<int>(i), -1}, cellar.vessels[i].liquid.node);
    for (std::size_t i = 0; i < cellar.runs.size(); ++i) add({-1, static_cast<int>(i)}, cellar.runs[i].liquid.node);
    std::stable_sort(held.begin(), held.end(), [](const HeldIn& a, const HeldIn& b) { return a.share > b.share; });
    return held;
}

}  // namespace undercroft::engine
