#include "engine/age/turns.hpp"

#include <algorithm>
#include <cstddef>

namespace undercroft::engine {
namespace {

using namespace ledger;

// A solera that becomes two is not pulled.
bool is_split(const Entry& entry) {
    const auto* move = std::get_if<Move>(&entry.body);
    return move != nullptr && move->reason == Reason::split;
}

bool takes_beer(const Flow& flow) {
    return flow.kind == FlowKind::move || flow.kind == FlowKind::package ||
           (flow.kind == FlowKind::loss && flow.cause == LossCause::served);
}

bool is_refill(const Entry& entry) {
    if (const auto* lot = std::get_if<LotEnters>(&entry.body)) return lot->reason == Reason::refill;
    if (const auto* move = std::get_if<Move>(&entry.body)) return move->reason == Reason::refill;
    return false;
}

double middle(std::vector<double> values) {
    const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), half, values.end());
    return *half;
}

}  // namespace

std::vector<BookedTurn> turns_of_vessel(const Cellar& cellar, int vessel) {
    std::vector<BookedTurn> turns;
    bool open = false;       // pulled and not yet refilled
    bool refilling = false;  // the turn may get more refills
    for (const Flow& flow : cellar.flows) {
        const Entry& entry = *cellar.entries[static_cast<std::size_t>(flow.entry)];
        if (flow.from_vessel == vessel && takes_beer(flow) && !is_split(entry)) {
            if (!open) {
                turns.emplace_back();
                turns.back().pull_entry = flow.entry;
                turns.back().pulled = entry.at();
            }
            open = true;
            refilling = false;
            turns.back().pulled_volume += flow.volume;
        } else if (flow.to_vessel == vessel && is_refill(entry) &&
                   (flow.kind == FlowKind::lot || flow.kind == FlowKind::move)) {
            if (!open && !refilling) turns.emplace_back();
            if (!refilling) turns.back().held = flow.present + turns.back().pulled_volume;
            open = false;
            refilling = true;
            turns.back().refill_entry = flow.entry;
            turns.back().refilled = entry.at();
            turns.back().refilled_volume += flow.volume;
        }
    }
    return turns;
}

std::optional<UsualTurn> usual_turn(const std::vector<BookedTurn>& turns) {
    constexpr std::size_t k_last = 5;
    std::vector<double> shares;
    std::vector<double> intervals;
    std::vector<double> pulls;  // litres
    const BookedTurn* later = nullptr;
    for (auto turn = turns.rbegin(); turn != turns.rend() && intervals.size() < k_last; ++turn) {
        if (turn->refill_entry < 0) continue;
        if (turn->held > Volume{} && turn->pulled_volume > Volume{}) {
            shares.push_back(turn->pulled_volume.in_litres() / turn->held.in_litres());
            pulls.push_back(turn->pulled_volume.in_litres());
        }
        if (later != nullptr) intervals.push_back(years_between(turn->refilled, later->refilled));
        later = &*turn;
    }
    if (shares.empty() || intervals.empty()) return std::nullopt;
    return UsualTurn{middle(shares), middle(intervals), Volume::from_litres(middle(pulls)),
                     static_cast<int>(intervals.size()) + 1};
}

}  // namespace undercroft::engine
