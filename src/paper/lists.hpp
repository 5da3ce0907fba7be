// A card for somebody who takes dregs, and the list of a recall to be read out and ticked off.
#pragma once

#include <string>

#include "app/blind.hpp"
#include "app/shelf_views.hpp"
#include "base/result.hpp"
#include "paper/grid.hpp"

namespace undercroft::paper {

// One page of 105 by 148 mm: four of them print on an A4.
[[nodiscard]] Result<std::string> culture_card(const app::DregsView& dregs);
[[nodiscard]] Result<std::string> recall_list(const app::RecallView& recall, const PageSize& page);

// A page for each taster, with their order and no beer named, and the key on a page of its own at the end.
[[nodiscard]] Result<std::string> tasting_sheets(const app::BlindView& set, const PageSize& page,
                                                 const std::string& today);

}  // namespace undercroft::paper
