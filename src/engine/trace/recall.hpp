// Every vessel that holds something, and every run that was ever filled with it, on hand or not: what a recall needs.
//
// Holds: shares are those of the liquid there (of a run as it was filled); a run that is used up is listed all the
// same, since its bottles may stand with somebody.
#pragma once

#include <vector>

#include "engine/trace/trace.hpp"

namespace undercroft::engine {

struct HeldIn {
    HolderRef holder;
    double share = 0.0;  // of the liquid there, 0 to 1
    friend bool operator==(const HeldIn&, const HeldIn&) = default;
};

// Of these lots together (indices); largest share first. A vessel that stands empty holds none.
[[nodiscard]] std::vector<HeldIn> holders_of(const ledger::Cellar& cellar, const std::vector<int>& lots);

}  // namespace undercroft::engine
