#include "engine/package/closed.hpp"

#include <algorithm>

#include "units/amount.hpp"

namespace undercroft::engine::package {

namespace {

constexpr Temperature k_warm = Temperature::from_celsius(35.0);

}  // namespace

bool head_space_refused(double share, Temperature temperature) {
    return share < (temperature > k_warm ? k_least_head_space_warm : k_least_head_space);
}

Result<Closed> closed_of(const GasQuestion& question) {
    if (question.makers_limit &&
        !(question.makers_limit->in_bar() >= 0.0 && question.makers_limit->in_bar() <= 100.0)) {
        return fail(ErrorKind::bad_input, "limit",
                    text_of(*question.makers_limit) + " is no container's limit; it is 0 to 100 bar.");
    }
    if (question.head_space && !(*question.head_space >= 0.0 && *question.head_space < 1.0)) {
        return fail(ErrorKind::bad_input, "head space",
                    percent_text(*question.head_space, 1) + " is no share of a container; it is between 0 and 100 %.");
    }
    Closed vessel;
    vessel.name = question.container_name.empty() ? "container" : question.container_name;
    vessel.limit = question.makers_limit;
    vessel.head_space = question.head_space.value_or(k_least_head_space_warm);
    vessel.air = question.air.value_or(chem::AirInHeadSpace::trapped);
    if (question.container == nullptr) return vessel;

    const tables::ContainerKind& row = *question.container;
    vessel.name = row.name;
    vessel.made_for_pressure = row.pressure_container;
    vessel.refermentation = row.refermentation;
    if (row.working_limit_bar) {
        const GaugePressure of_row = GaugePressure::from_bar(*row.working_limit_bar);
        vessel.limit = vessel.limit ? std::min(*vessel.limit, of_row) : of_row;
    }
    // A closure's figure weakens a limit; alone it does not make one.
    if (vessel.limit && row.closure_limit_bar) {
        vessel.limit = std::min(*vessel.limit, GaugePressure::from_bar(*row.closure_limit_bar));
    }
    if (!row.pressure_container) vessel.limit = GaugePressure::from_bar(0.0);
    if (!question.head_space) vessel.head_space = std::max(row.head_space_percent / 100.0, k_least_head_space_warm);
    if (!question.air && row.head_space_gas == tables::HeadSpaceGas::purged) vessel.air = chem::AirInHeadSpace::purged;
    return vessel;
}

Result<Temperature> warmest_of(const GasQuestion& question) {
    Temperature warmest = std::max(question.store, question.filled_at);
    if (question.destination == Destination::given_away) warmest = std::max(warmest, k_given_away_store);
    if (!(question.store.in_celsius() >= 0.0 && warmest.in_celsius() <= 50.0)) {
        return fail(ErrorKind::outside_model, "store",
                    text_of(question.store) + " is outside 0 to 50 °C, where the pressure can be worked out.");
    }
    return warmest;
}

}  // namespace undercroft::engine::package
