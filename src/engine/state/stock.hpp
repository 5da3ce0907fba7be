// How well the book knows how much stands in each vessel, and what has likely evaporated unseen.
//
// Holds: a stock-take sets the spread; what is poured in or out since widens it, each amount by k_poured_sd of itself
// as if their errors were independent. Liquid that is moved whole takes its spread along. Likely evaporation is only
// told: no volume of the book rests on it.
// Leaves out: errors of amounts that cancel between two vessels of the same move.
#pragma once

#include <optional>
#include <vector>

#include "base/instant.hpp"
#include "ledger/replay.hpp"

namespace undercroft::engine {

// Of an amount that was poured, drawn or booked as lost: one standard deviation; common practice, no source.
inline constexpr double k_poured_sd = 0.02;

struct StockTake {
    Instant at;
    ledger::EntryKey entry;
    ledger::FoundBy found_by = ledger::FoundBy::volume;
    Volume found;
    Volume found_sd;
    Volume booked;  // in the vessel after it, by all entries there are now: another than `found` after late ones
    friend bool operator==(const StockTake&, const StockTake&) = default;
};

struct Stock {
    Volume volume;
    double sd_litres = 0.0;
    std::optional<Instant> reckoned;  // since when nothing that evaporated is in the book
    std::optional<StockTake> last;
    friend bool operator==(const Stock&, const Stock&) = default;
};

// Takes a flow of `cellar` into account; `stock` is by the indices of Cellar::vessels.
void follow(std::vector<Stock>& stock, const ledger::Cellar& cellar, const ledger::Flow& flow);
// After all flows of an entry: what it says of how much is there.
void follow(std::vector<Stock>& stock, const ledger::Cellar& cellar, const ledger::Entry& entry);

// What a vessel gives off through its walls and closure; usual shares of its contents a year by material, common
// practice, no source. Oak by 4 % a year of a barrel of 225 L, more for a smaller one as its surface is; half and
// double of the middle are as usual.
struct LikelyEvaporation {
    double litres = 0.0;
    double low = 0.0;
    double high = 0.0;
    double share_a_year = 0.0;
    Instant since;
};
// Nothing for an empty vessel or a material of no known habit.
[[nodiscard]] std::optional<LikelyEvaporation> likely_evaporation(const ledger::VesselJoins& vessel, const Stock& stock,
                                                                  Instant when);

}  // namespace undercroft::engine
