// The two books that replays are compared on: movements of liquid and nothing else.
//
// Random book: 500 vessels of 2,000 L. 12 % a new lot into a random vessel, 20 to 80 % of its free room; 78 % a
// transfer between two random vessels, a quarter of them everything, else 1 to 31 % of the source, cut to the free
// room; 10 % a removal of up to 2 %, one in ten everything. A move from a source under 0.1 % full is drawn again.
// Solera book: 500 vessels of 600 L in 5 ranks of 100. Each year twelve monthly passes where 30 % of the vessels lose
// up to 0.5 %; the oldest rank gives a quarter; then, oldest first, each vessel takes three times a quarter of a
// random vessel of the rank before, at most half its own room; the youngest rank is filled from 8 new lots, by way of
// a tank.
#pragma once

#include <cstdint>
#include <vector>

#include "ledger/entry.hpp"

namespace undercroft::bench {

enum class MovementKind { lot, transfer, removal };

struct Movement {
    MovementKind kind = MovementKind::lot;
    int from = 0;
    int to = 0;
    Volume volume;
};

struct Movements {
    std::vector<Movement> list;
    int vessels = 0;
    int lots = 0;
    Volume capacity;  // of the largest
};

[[nodiscard]] Movements random_book(std::size_t movements);
[[nodiscard]] Movements solera_book(std::size_t movements);

// The same as entries of a book: the vessels join, then one entry for each movement, a minute apart.
[[nodiscard]] std::vector<ledger::Entry> entries_of(const Movements& movements);

}  // namespace undercroft::bench
