// Published tables speak in degrees Celsius.
#pragma once

#include "units/temperature.hpp"

namespace undercroft::testing {

inline Temperature celsius(double t) {
    return Temperature::from_celsius(t);
}

}  // namespace undercroft::testing
