// The container of a gas question, the keeper's figures laid over the row's, and the warmest place it will stand in.
#pragma once

#include <optional>
#include <string>

#include "engine/package/gas_question.hpp"

namespace undercroft::engine::package {

inline constexpr double k_least_head_space = 0.02;
inline constexpr double k_least_head_space_warm = 0.03;  // where it may pass 35 °C

struct Closed {
    std::string name;
    bool made_for_pressure = true;
    std::optional<GaugePressure> limit;  // of the weakest part; nullopt: unrated
    tables::Refermentation refermentation = tables::Refermentation::yes;
    double head_space = 0.0;  // share of the inside
    chem::AirInHeadSpace air = chem::AirInHeadSpace::trapped;
};

// Fails: bad_input for a limit or a head space that cannot be.
[[nodiscard]] Result<Closed> closed_of(const GasQuestion& question);
// Fails: outside_model outside 0 to 50 °C.
[[nodiscard]] Result<Temperature> warmest_of(const GasQuestion& question);
// Beer grows as it warms: with so little above it, it would press on the wall itself.
[[nodiscard]] bool head_space_refused(double share, Temperature temperature);

}  // namespace undercroft::engine::package
