// What a replayed cellar says of itself.
#include "ledger/replay.hpp"

namespace undercroft::ledger {
namespace {

int index_of(const std::unordered_map<int, int>& by_first, int first) {
    const auto found = by_first.find(first);
    return found == by_first.end() ? -1 : found->second;
}

}  // namespace

Totals Cellar::totals() const {
    Totals totals;
    for (const Flow& flow : flows) {
        switch (flow.kind) {
            case FlowKind::lot:
            case FlowKind::found:
            case FlowKind::addition:
            case FlowKind::priming:
                totals.in += flow.volume;
                break;
            case FlowKind::loss:
            case FlowKind::taken:
                totals.out += flow.volume;
                break;
            case FlowKind::move:
            case FlowKind::package:
            case FlowKind::returned:
                break;
        }
    }
    for (const VesselState& vessel : vessels) totals.on_hand += vessel.liquid.volume;
    for (const RunState& run : runs) totals.on_hand += run.as.fill * run.left;
    return totals;
}

int Cellar::vessel_of(const EntryKey& key) const {
    return index_of(vessel_by_first, chains->first_of(key));
}

int Cellar::run_of(const EntryKey& key) const {
    return index_of(run_by_first, chains->first_of(key));
}

int Cellar::addition_of(const EntryKey& key) const {
    return index_of(addition_by_first, chains->first_of(key));
}

}  // namespace undercroft::ledger
