// What one vessel or run was made of, all along its time.
//
// Holds: at every step the parts are whole microlitres that sum to the volume (largest remainder); the last step is
// what the cellar holds. Two steps for each entry that changed the volume: right before it and right after.
#pragma once

#include <utility>
#include <vector>

#include "engine/trace/trace.hpp"

namespace undercroft::engine {

struct RiverStep {
    int entry = 0;  // index in Cellar::entries
    bool after = false;
    Volume volume;
    std::vector<std::pair<int, Volume>> parts;  // index in Cellar::lots, in the order of River::lots
};

struct River {
    std::vector<int> lots;  // indices, in the order in which they first came
    std::vector<RiverStep> steps;
};

[[nodiscard]] River river_of(const ledger::Cellar& cellar, HolderRef of);

}  // namespace undercroft::engine
