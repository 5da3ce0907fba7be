#include "engine/taste/noticing.hpp"

#include <cmath>

namespace undercroft::engine::taste {

Noticed noticed(const std::vector<AmountOver>& parts) {
    Noticed it;
    for (const AmountOver& part : parts) it.units += part.amount / std::sqrt(part.low * part.high);
    it.units_low = it.units / k_taster_factor;
    it.units_high = it.units * k_taster_factor;
    constexpr double k_tenth = 1.2815515655446004;  // of a normal variable, nine of ten lie below
    const double sd = std::log(k_taster_factor) / k_tenth;
    it.share = it.units > 0.0 ? 0.5 * std::erfc(-std::log(it.units) / (sd * std::sqrt(2.0))) : 0.0;
    return it;
}

Weight weight_of(double units) {
    return units < 0.1 ? Weight::none : units < 0.5 ? Weight::slight : units < 2.0 ? Weight::second : Weight::main;
}

}  // namespace undercroft::engine::taste
