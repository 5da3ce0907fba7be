// What went through one vessel or run, and where it is now.
//
// Holds: what came in = what is there + what is in other vessels + what went into bottles + what left the cellar, to
// the microlitre of rounding. What left and came back (dregs, a blend racked back) counts once. A share of a mixture is
// carried on by volume, wholly mixed, so after a pour nobody can tell the parts apart.
#pragma once

#include <string>
#include <vector>

#include "engine/trace/trace.hpp"

namespace undercroft::engine {

struct PassedLot {
    int lot = -1;    // index in Cellar::lots
    Volume entered;  // of it, into the holding
};

struct PassedInto {
    HolderRef holder;
    Volume volume;
};

struct PassedOut {
    std::string cause;  // word of LossCause or TakeCause
    Volume volume;
};

struct Passage {
    std::vector<PassedLot> lots;      // largest first
    Volume here;                      // still there
    std::vector<PassedInto> vessels;  // on hand in other vessels, largest first
    std::vector<PassedInto> runs;     // that was filled into bottles, whether they are still there or not; likewise
    std::vector<PassedOut> out;       // left the cellar, not in bottles; of a run: the bottles that left; largest first
};

[[nodiscard]] Passage passage_of(const ledger::Cellar& cellar, HolderRef of);

}  // namespace undercroft::engine
