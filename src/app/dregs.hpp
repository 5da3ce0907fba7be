// Is what settled in these bottles, or lives in this vessel, fit to share, to pitch, or to put back into a solera?
//
// Holds: from the lineage in the book: what may live in it, how sure, from when, and what it would meet. A culture that
// is only possible never makes an answer of yes or no; it makes one of "care". What is not in the book is not known
// here.
#pragma once

#include "app/shelf_views.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

// Without `book`.
[[nodiscard]] DregsView dregs_of(const Seen& seen, engine::HolderRef holder);

}  // namespace undercroft::app
