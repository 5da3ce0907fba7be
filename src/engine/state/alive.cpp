#include "engine/state/alive.hpp"

#include <algorithm>
#include <cmath>

namespace undercroft::engine {
namespace {

constexpr double k_years_to_fall = 1.0;
constexpr double k_resolution_sg = 0.0005;  // of a hydrometer that shows three decimals

}  // namespace

std::optional<Instant> starving_since(const LiquidState& state, const tables::CultureKind& kind) {
    if (!state.acid_since || state.fruit_sugar_g_per_l > 0.0) return std::nullopt;
    const double reach = 1.0 + (state.original_gravity - 1.0) * (1.0 - kind.attenuation_high);
    std::optional<Instant> since;
    for (const GravityReading& reading : state.watch) {
        if (reading.gravity > reach + k_resolution_sg)
            since.reset();
        else if (!since)
            since = reading.at;
    }
    if (!since) return std::nullopt;
    return std::max(*since, *state.acid_since);
}

ledger::Certainty certainty_at(ledger::Certainty in_ledger, const LiquidState& state, const tables::CultureKind* kind,
                               Instant when) {
    if (in_ledger == ledger::Certainty::possible || kind == nullptr || !kind->is_saccharomyces()) return in_ledger;
    const auto since = starving_since(state, *kind);
    const bool fallen = since && years_between(*since, when) >= k_years_to_fall;
    return fallen ? ledger::Certainty::possible : in_ledger;
}

}  // namespace undercroft::engine
