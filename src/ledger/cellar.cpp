// What a replayed cellar says of itself, and replays of whole books.
#include <utility>

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

const Calibrate* Cellar::calibration_at(int entry, const std::string& instrument, Quantity quantity) const {
    if (instrument.empty()) return nullptr;
    for (auto index = calibrations.rbegin(); index != calibrations.rend(); ++index) {
        if (*index >= entry) continue;
        const auto& one = std::get<Calibrate>(entries[static_cast<std::size_t>(*index)]->body);
        if (one.quantity == quantity && one.instrument == instrument) return &one;
    }
    return nullptr;
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
