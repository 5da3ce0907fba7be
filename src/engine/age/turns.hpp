// The turns a vessel has been through: when beer left it, and when the gap was refilled.
//
// Holds: beer leaves by a move, a package run, or served from it; samples, evaporation and spills begin no turn. A
// turn ends with a refill (reason refill); several pulls before one refill, or several refills after one pull, are one
// turn. The last turn may still wait for its refill.
#pragma once

#include <optional>
#include <vector>

#include "ledger/replay.hpp"

namespace undercroft::engine {

struct BookedTurn {
    int pull_entry = -1;    // index in Cellar::entries of the first pull; -1: refilled without one
    int refill_entry = -1;  // … of the last refill; -1: none yet
    Instant pulled;
    Instant refilled;
    Volume pulled_volume;
    Volume refilled_volume;
    Volume held;  // before the pull; without samples and losses in between
};

// In the order of the book.
[[nodiscard]] std::vector<BookedTurn> turns_of_vessel(const ledger::Cellar& cellar, int vessel);

// What a vessel is used to, by the middle one of its last turns.
struct UsualTurn {
    double share = 0.0;           // pulled of what was held
    double interval_years = 0.0;  // between refills
    Volume pull;                  // volume of a pull
    int counted = 0;              // turns it rests on
};
// Nothing before the second refill.
[[nodiscard]] std::optional<UsualTurn> usual_turn(const std::vector<BookedTurn>& turns);

}  // namespace undercroft::engine
