// The plain text of a label, and the facts it was computed from.
#pragma once

#include "app/views_of.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// `beer_name`: what the beer is called; empty: the vessel it was packaged from.
[[nodiscard]] LabelView label_of(const Seen& seen, const tables::Tables& tables, int run, const std::string& beer_name);

}  // namespace undercroft::app
