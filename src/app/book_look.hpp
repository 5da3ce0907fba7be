// What every question of Book starts with; for its .cpp files.
#pragma once

#include "app/book.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

// What every question starts with: the book read, replayed, and looked at.
struct Book::Look {
    Instant when;
    ledger::Cellar cellar;
    engine::StateBook states;
    Telling telling;
    [[nodiscard]] Seen seen() const { return {cellar, states, telling, when}; }
};

}  // namespace undercroft::app
