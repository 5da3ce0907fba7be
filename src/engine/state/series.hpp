// Readings of one liquid's vessel or run, in their order, as figures that can be drawn.
//
// Holds: gravity is SG at 20 °C, calibrated and corrected as the state is; temperature is in °C; dissolved carbon
// dioxide in g/L. What was replaced or taken out of the book is not among them.
#pragma once

#include <string>
#include <vector>

#include "engine/state/state.hpp"

namespace undercroft::engine {

struct SeriesPoint {
    int entry = 0;  // index in Cellar::entries
    double value = 0.0;
    double sd = 0.0;  // one standard deviation of the reading; 0: nobody knows
};

struct Series {
    ledger::Quantity quantity = ledger::Quantity::gravity;
    std::string unit;
    int decimals = 2;  // worth showing
    std::vector<SeriesPoint> points;
};

// `entries`: indices of those that concern it, in order. One series for each quantity that was read.
[[nodiscard]] std::vector<Series> series_of(const ledger::Cellar& cellar, const std::vector<int>& entries);

}  // namespace undercroft::engine
