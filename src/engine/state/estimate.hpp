// A number about a liquid that nobody is sure of: mean, spread, and where it came from.
#pragma once

#include <optional>
#include <string>

#include "base/instant.hpp"

namespace undercroft::engine {

enum class Provenance {
    read,      // measured in this vessel, nothing poured in since
    mixed,     // worked out from what was poured together
    computed,  // worked out from other numbers of the same liquid (alcohol from a fall of gravity)
    stated,    // given when the lot entered
    assumed,   // nobody said: a usual value with a wide spread
};
[[nodiscard]] const char* word(Provenance value);

struct Estimate {
    double mean = 0.0;
    double sd = 0.0;  // one standard deviation; 0 only for what is exact
    Provenance provenance = Provenance::assumed;
    std::optional<Instant> read_at;  // of the reading it rests on
    std::string why;                 // one line for the keeper: "read 1.0080 on 2026-03-01, then 18 L poured in"
    friend bool operator==(const Estimate&, const Estimate&) = default;
};

}  // namespace undercroft::engine
