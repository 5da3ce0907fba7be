// The gas check as a distribution: what could come in this very package, drawn ten thousand times.
//
// Holds: the same question gives the same figures, to the bit. More sugar, less evidence, a longer horizon or, but for
// dry hops, more cultures never lower one of them: every draw takes the same numbers whatever is asked. A culture that
// is possible counts in full, by its reach from the lowest to the highest attenuation of its row. What is left is the
// smaller of the fermentables and, once the watch is done and past the false plateau, the fastest fall the watch could
// have missed times the life of the bottle. CO2 is no ideal gas, and each bottle is filled a little differently. Leaves
// out: gas lost through closures; cells that come in at filling; the verdict (gas_check.hpp).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/package/canary.hpp"
#include "engine/package/gas_draw.hpp"
#include "engine/package/gas_question.hpp"

namespace undercroft::engine::package {

struct GasCause {
    std::string name;  // as in GasBound::terms
    Band volumes;
    double share = 0.0;  // of the mean of all causes
};

struct PressureBand {
    Temperature at = Temperature::from_celsius(20.0);
    Band bar;  // total gauge
};

struct GasSpread {
    int draws = 0;
    std::vector<GasCause> causes;
    Band volumes;                          // CO2, all that will be in it
    std::vector<PressureBand> pressure;    // 0 to 50 °C by 5, where it can be worked out
    std::optional<PressureBand> at_store;  // at the warmest store; nullopt: too little head space for it
    double over_limit = 1.0;               // chance of passing the limit itself at the warmest store; 1 when unrated
    // Up to where 95 of 100 bottles stay within 0.8 of the limit, in whole degrees; nullopt: nowhere, or unrated.
    std::optional<Temperature> warmest_safe_store;
    // When all the gas is there: the slowest culture's way, fast and slow, in days at its liking; nullopt: nothing
    // alive, or nothing to come.
    std::optional<double> carbonated_from_days;
    std::optional<double> carbonated_until_days;
    bool plateau_counts = false;  // the watch bounds what can still come
    CanaryVerdict canary = CanaryVerdict::none;
    std::vector<int> canary_days;  // canary.hpp
};

// Fails as gas_check does; bad_input for a number of draws outside 100 to 1,000,000.
[[nodiscard]] Result<GasSpread> gas_spread(const GasQuestion& question, const tables::Tables& tables,
                                           std::uint64_t seed = 1, int draws = k_gas_draws);
// What the verdict rests on, in a tenth of the time.
struct DrawnAtStore {
    std::optional<PressureBand> band;  // as GasSpread::at_store
    CanaryVerdict canary = CanaryVerdict::none;
};
[[nodiscard]] Result<DrawnAtStore> drawn_at_store(const GasQuestion& question, const tables::Tables& tables);
// Total gauge at the warmest store that not one of the usual draws passes, from a single bottle; nullopt as above. No
// canary counts in it.
[[nodiscard]] Result<std::optional<GaugePressure>> no_draw_above(const GasQuestion& question,
                                                                 const tables::Tables& tables);

}  // namespace undercroft::engine::package
