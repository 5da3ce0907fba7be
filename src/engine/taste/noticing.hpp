// Whether an amount of something is noticed in the glass, and by how many tasters.
//
// Holds: amounts of one flavour class add up as flavour units (amount over threshold); different classes never do
// (Meilgaard 1982, J. Agric. Food Chem. 30:1009). Tasters' own thresholds are taken as log-normal round the published
// one: the least sensitive tenth needs 20 times what the most sensitive tenth needs (same), so a factor of 4.5 to
// either side holds eight of ten (derived). Leaves out: masking by what else is in the glass, and a pH that shifts it.
#pragma once

#include <vector>

namespace undercroft::engine::taste {

inline constexpr double k_taster_factor = 4.4721359549995794;  // square root of 20

struct Noticed {
    double units = 0.0;       // flavour units, by the middle of the published thresholds
    double units_low = 0.0;   // for the least sensitive tenth of tasters
    double units_high = 0.0;  // for the most sensitive
    double share = 0.0;       // of tasters who notice it, 0 to 1
};

enum class Weight { none, slight, second, main };  // FU below 0.1, 0.5, 2, above: Meilgaard 1975, from memory

struct AmountOver {
    double amount = 0.0;  // mg/L, 0 or more
    double low = 1.0;     // published thresholds, mg/L, above 0
    double high = 1.0;
};

// Of what belongs to one flavour class.
[[nodiscard]] Noticed noticed(const std::vector<AmountOver>& parts);
[[nodiscard]] Weight weight_of(double units);

}  // namespace undercroft::engine::taste
