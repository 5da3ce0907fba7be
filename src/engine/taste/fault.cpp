#include "engine/taste/fault.hpp"

#include <cmath>

namespace undercroft::engine::taste {

std::optional<FaultStanding> standing_of(const tables::Fault& fault, const std::vector<FaultLook>& looks) {
    constexpr int k_clear_wanted = 2;
    std::optional<FaultStanding> found;
    int last_clear = 0;
    for (const FaultLook& look : looks) {
        if (look.named) {
            // Over once, and back: a new spell.
            const bool anew = !found || (fault.mends_with_time && found->clear >= k_clear_wanted);
            const int first = anew ? look.day : found->first_named;
            found = FaultStanding{};
            found->first_named = first;
            found->last_named = look.day;
        } else if (found && look.day > found->last_named && found->clear < k_clear_wanted &&
                   (found->clear == 0 || look.day - last_clear >= k_clear_days_apart)) {
            ++found->clear;
            last_clear = look.day;
        }
    }
    if (!found) return found;
    if (!fault.mends_with_time) {
        found->answer = fault.unsafe                                              ? FaultAnswer::dump
                        : fault.blocks_return_to_solera || fault.blocks_packaging ? FaultAnswer::isolate
                                                                                  : FaultAnswer::treat;
        return found;
    }
    if (found->clear >= k_clear_wanted) {
        found->answer = FaultAnswer::over;
        return found;
    }
    found->answer = fault.blocks_return_to_solera ? FaultAnswer::isolate : FaultAnswer::wait;
    found->next_clear = found->clear == 0 ? found->last_named + 1 : last_clear + k_clear_days_apart;
    constexpr double k_week = 7.0;
    found->likely_low = found->first_named + int(std::lround(fault.mend_low_weeks.value_or(0.0) * k_week));
    found->likely_high = found->first_named + int(std::lround(fault.mend_high_weeks.value_or(0.0) * k_week));
    return found;
}

}  // namespace undercroft::engine::taste
