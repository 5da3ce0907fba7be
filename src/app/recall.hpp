// A recall: where a lot, an addition or a culture is and went, to be read out to everybody concerned.
#pragma once

#include "app/names.hpp"
#include "app/shelf_views.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

// Without `book`, which the asker fills in.
[[nodiscard]] RecallView recall_of(const Seen& seen, const Origin& origin);

// Who was given or sold bottles of each run, oldest first; by the index of the run.
[[nodiscard]] std::vector<std::vector<Receiver>> receivers_of(const Seen& seen);

}  // namespace undercroft::app
