// What every question of Book starts with; for its .cpp files.
#pragma once

#include "app/book.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

// What every question starts with: the book read, replayed, and looked at.
struct Book::Look {
    Instant when;
    std::shared_ptr<const Standing> standing;
    Telling telling;
    const tables::Tables& tables;
    [[nodiscard]] const ledger::Cellar& cellar() const { return standing->cellar; }
    [[nodiscard]] const engine::StateBook& states() const { return standing->states; }
    [[nodiscard]] Seen seen() const { return {cellar(), states(), telling, when, tables}; }
};

}  // namespace undercroft::app
