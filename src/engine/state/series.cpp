#include "engine/state/series.hpp"

#include <algorithm>

#include "chem/gas.hpp"

namespace undercroft::engine {
namespace {

Series begun(ledger::Quantity quantity) {
    switch (quantity) {
        case ledger::Quantity::gravity:
            return {quantity, "SG", 4, {}};
        case ledger::Quantity::ph:
            return {quantity, "pH", 2, {}};
        case ledger::Quantity::ta:
            return {quantity, "g/L", 1, {}};
        case ledger::Quantity::temperature:
            return {quantity, "C", 1, {}};
        case ledger::Quantity::dissolved_co2:
            return {quantity, "g/L", 2, {}};
        case ledger::Quantity::weight:
            return {quantity, "g", 0, {}};
    }
    return {};
}

double value_of(const ledger::Measured& one, const ledger::Reading& reading, const ledger::Calibrate* off_by) {
    const double written = calibrated(one, off_by);
    switch (one.quantity) {
        case ledger::Quantity::gravity:
            return gravity_of_reading(one, reading.read_at_c, off_by);
        case ledger::Quantity::temperature:
            return one.unit == "F" ? (written - 32.0) / 1.8 : written;
        case ledger::Quantity::dissolved_co2:
            return one.unit == "vol" ? written * chem::k_co2_g_per_volume : written;
        case ledger::Quantity::ph:
        case ledger::Quantity::ta:
        case ledger::Quantity::weight:
            break;
    }
    return written;
}

}  // namespace

std::vector<Series> series_of(const ledger::Cellar& cellar, const std::vector<int>& entries) {
    std::vector<Series> all;
    for (const int index : entries) {
        const auto* reading = std::get_if<ledger::Reading>(&cellar.entries[static_cast<std::size_t>(index)]->body);
        if (reading == nullptr) continue;
        for (const ledger::Measured& one : reading->values) {
            auto series = std::find_if(all.begin(), all.end(),
                                       [&](const Series& known) { return known.quantity == one.quantity; });
            if (series == all.end()) series = all.insert(all.end(), begun(one.quantity));
            const auto* off_by = cellar.calibration_at(index, reading->instrument, one.quantity);
            series->points.push_back({index, value_of(one, *reading, off_by), sd_of_reading(one)});
        }
    }
    return all;
}

}  // namespace undercroft::engine
