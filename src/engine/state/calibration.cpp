// What instruments are off by.
#include "chem/extract.hpp"
#include "chem/gas.hpp"
#include "engine/state/entering.hpp"
#include "engine/state/state.hpp"

namespace undercroft::engine {
namespace {

double as_sg(double value, const std::string& unit) {
    return unit == "SG" ? value : chem::gravity_of_plato(value);
}

}  // namespace

double calibrated(const ledger::Measured& measured, const ledger::Calibrate* calibration) {
    const double read = measured.value.value();
    if (calibration == nullptr) return read;
    const double offset = calibration->offset.value();
    if (calibration->unit == measured.unit) return read + offset;
    switch (measured.quantity) {
        case ledger::Quantity::gravity: {
            // An offset in SG moves a reading in extract by what it is there, and the other way.
            if (calibration->unit == "SG") return chem::plato_of_gravity(as_sg(read, measured.unit) + offset);
            const double plato = measured.unit == "SG" ? chem::plato_of_gravity(read) : read;
            return measured.unit == "SG" ? chem::gravity_of_plato(plato + offset) : plato + offset;
        }
        case ledger::Quantity::temperature:
            return measured.unit == "F" ? read + 1.8 * offset : read + offset / 1.8;
        case ledger::Quantity::dissolved_co2:
            return measured.unit == "vol" ? read + offset / chem::k_co2_g_per_volume
                                          : read + offset * chem::k_co2_g_per_volume;
        case ledger::Quantity::ph:
        case ledger::Quantity::ta:
        case ledger::Quantity::weight:
            break;  // one unit each
    }
    return read + offset;
}

double gravity_of_reading(const ledger::Measured& measured, const std::optional<Decimal>& read_at_c,
                          const ledger::Calibrate* calibration) {
    const double written = as_sg(calibrated(measured, calibration), measured.unit);
    if (!read_at_c) return written;
    const auto corrected =
        chem::gravity_at_20(written, Temperature::from_celsius(read_at_c->value()), Temperature::from_celsius(20.0));
    return corrected ? *corrected : written;  // drafting refuses a sample outside the correction's range
}

double sd_of_reading(const ledger::Measured& measured) {
    switch (measured.quantity) {
        case ledger::Quantity::gravity:
            // Three decimals of SG carry half a point, four a quarter.
            return measured.unit == "SG" && measured.value.places() >= 4 ? 0.00025 : 0.0005;
        case ledger::Quantity::ph:
            return k_ph_reading_sd;
        case ledger::Quantity::ta:
            return k_ta_reading_sd;
        case ledger::Quantity::temperature:
        case ledger::Quantity::dissolved_co2:
        case ledger::Quantity::weight:
            break;
    }
    return 0.0;
}

}  // namespace undercroft::engine
