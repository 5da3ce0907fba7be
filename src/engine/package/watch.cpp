#include "engine/package/watch.hpp"

#include <algorithm>
#include <cmath>

#include "base/index.hpp"

namespace undercroft::engine::package {

namespace {

// Three months at 10 to 15 °C can stand for a watch; below that nothing can (common practice, no source).
constexpr double k_coldest_watch_c = 10.0;
constexpr double k_rounding_sg = 1e-9;

}  // namespace

EvidenceNeeded evidence_needed(const std::vector<const tables::CultureKind*>& cultures) {
    EvidenceNeeded need;
    double coldest = 0.0;
    for (const tables::CultureKind* kind : cultures) {
        if (!kind->makes_gas()) continue;
        need.days = std::max(need.days, kind->stable_days.value_or(0.0));
        need.days_below_15_c = std::max({need.days_below_15_c, kind->stable_days_below_15_c.value_or(0.0), need.days});
        need.readings = std::max(need.readings, static_cast<int>(std::lround(kind->stable_readings.value_or(0.0))));
        need.resolution_sg = std::min(need.resolution_sg, kind->stable_resolution_sg.value_or(need.resolution_sg));
        coldest = std::max(coldest, std::min(kind->temperature_min_c.value_or(k_coldest_watch_c), k_coldest_watch_c));
    }
    need.nothing_below = Temperature::from_celsius(coldest);
    return need;
}

std::size_t plateau_begin(const std::vector<engine::GravityReading>& watch, double resolution_sg) {
    std::size_t begin = watch.size();
    double low = 0.0;
    double high = 0.0;
    while (begin > 0) {
        const double gravity = watch[begin - 1].gravity;
        low = begin == watch.size() ? gravity : std::min(low, gravity);
        high = begin == watch.size() ? gravity : std::max(high, gravity);
        if (high - low > resolution_sg + k_rounding_sg) break;
        --begin;
    }
    return begin;
}

bool forced_test_counts(const tables::CultureKind& kind) {
    return kind.is_saccharomyces() && kind.diastatic == tables::DiastaticType::no;
}

double days_to_wake(const std::vector<const tables::CultureKind*>& cultures) {
    double days = 0.0;
    for (const tables::CultureKind* kind : cultures)
        if (kind->makes_gas()) days = std::max(days, kind->days_to_stable_high.value_or(0.0));
    return days;
}

bool past_the_false_plateau(const Evidence& seen, const std::vector<const tables::CultureKind*>& cultures) {
    const EvidenceNeeded need = evidence_needed(cultures);
    if (!seen.coolest || *seen.coolest < need.nothing_below || !(seen.days > 0.0)) return false;
    const double days = *seen.coolest >= k_watch_warm ? need.days : need.days_below_15_c;
    return seen.readings >= std::max(need.readings, 2) && seen.days >= days && seen.change_sg <= need.resolution_sg &&
           seen.days_undisturbed.value_or(seen.days) >= days_to_wake(cultures);
}

}  // namespace undercroft::engine::package
