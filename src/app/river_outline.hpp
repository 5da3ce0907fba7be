// A river in fewer strokes: of a vessel of many years there is more to tell than a drawing can show.
#pragma once

#include <cstddef>

#include "app/over_time.hpp"

namespace undercroft::app {

// Lots brewed one after the other count as one, "Hay to Snow", until there are at most about `most_lots` of them (each
// kind apart); of the entries that changed it, `most_steps` / 2 are kept, evenly chosen, the first and the last
// among them. 0: all. Holds: at every step kept the parts sum to the volume.
[[nodiscard]] RiverView outline_of(RiverView river, std::size_t most_lots, std::size_t most_steps);

}  // namespace undercroft::app
