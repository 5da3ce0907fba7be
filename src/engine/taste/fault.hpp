// Whether a fault still stands, from who named it and who tasted since, and what it asks for.
//
// Holds: a fault that time mends is over after two clear tastings at least 28 days apart, none of them naming it
// (common practice, no source); one that time does not mend stands for good, until its naming is corrected. A later
// tasting that names it begins the wait anew.
// Leaves out: who misses which fault; what is done to the beer meanwhile.
#pragma once

#include <optional>
#include <vector>

#include "tables/fault.hpp"

namespace undercroft::engine::taste {

inline constexpr int k_clear_days_apart = 28;

// Days are counted from any one day.
struct FaultLook {
    int day = 0;
    bool named = false;
};

enum class FaultAnswer {
    over,     // nothing more to do
    wait,     // time mends it
    treat,    // time does not; something else may
    isolate,  // nothing goes out of it into other beer
    dump,     // not safe to drink
};

struct FaultStanding {
    FaultAnswer answer = FaultAnswer::wait;
    int first_named = 0;  // of this spell
    int last_named = 0;
    int clear = 0;                   // tastings since that did not name it: counted at most one in 28 days
    std::optional<int> next_clear;   // day from which a clear tasting counts; where time mends it
    std::optional<int> likely_low;   // day by which it is usually gone at the earliest
    std::optional<int> likely_high;  // and at the latest
    [[nodiscard]] bool stands() const { return answer != FaultAnswer::over; }
};

// Nothing where nobody named it. `looks` in the order of their days.
[[nodiscard]] std::optional<FaultStanding> standing_of(const tables::Fault& fault, const std::vector<FaultLook>& looks);

}  // namespace undercroft::engine::taste
