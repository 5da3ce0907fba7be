#include "engine/state/alive.hpp"

#include <algorithm>

namespace undercroft::engine {
namespace {

constexpr double k_resolution_sg = 0.0005;  // of a hydrometer that shows three decimals

// As far as a gravity shows it.
double attenuation(double original, double gravity) {
    return original > 1.0 ? 1.0 - (gravity - k_resolution_sg - 1.0) / (original - 1.0) : 0.0;
}

}  // namespace

std::optional<LiquidState::Starved> starving(const LiquidState& state, Instant until) {
    if (!state.acid_since || state.fruit_sugar_g_per_l > 0.0) return std::nullopt;
    std::optional<LiquidState::Starved> longest;
    double highest = 0.0;  // of this reading and those after it
    for (auto reading = state.watch.rbegin(); reading != state.watch.rend(); ++reading) {
        highest = std::max(highest, reading->gravity);
        const Instant from = std::max(reading->at, *state.acid_since);
        if (years_between(from, until) < k_years_to_fall) continue;
        if (!longest || attenuation(state.original_gravity, highest) >= longest->attenuation)
            longest = {from, until, attenuation(state.original_gravity, highest)};
    }
    return longest;
}

ledger::Certainty certainty_at(const ledger::CultureHere& here, const LiquidState& state,
                               const tables::CultureKind* kind, Instant when) {
    if (kind == nullptr || !kind->is_saccharomyces()) return here.certainty;
    const auto ended_by = [&](const LiquidState::Starved& time) {
        return kind->attenuation_high <= time.attenuation &&
               years_between(std::max(time.from, here.brought), time.to) >= k_years_to_fall;
    };
    const auto now = starving(state, when);
    const bool fallen = (now && ended_by(*now)) || std::any_of(state.starved.begin(), state.starved.end(), ended_by);
    return fallen ? ledger::Certainty::possible : here.certainty;
}

}  // namespace undercroft::engine
