// From a measured glass to the batch: what was stirred into it, what that is in the portion, and how well that is
// known.
//
// Holds: the batch is the glass times the ratio of volumes; a pipette's error goes with it, and is no smaller in the
// batch. Leaves out: that a tincture in spirit takes more out of a spice than beer does.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/finish/portion.hpp"

namespace undercroft::engine::finish {

struct GlassTrial {
    double glass_ml = 100.0;        // of beer
    double added_ml = 0.0;          // by pipette or syringe
    double pipette_sd_ml = 0.02;    // of one measure; 1 mL syringe about 0.02 (common practice, no source)
    double strength_g_per_l = 0.0;  // of what was added: spice steeped in a litre of tincture, acid, sugar, wood
    double alcohol_percent = 0.0;   // of a tincture
    double glass_sd_ml = 1.0;
};

struct Batch {
    Figure g_per_l;               // dose in beer, of spice, acid, sugar or wood
    Figure grams;                 // for the portion
    Figure ml;                    // of the same tincture, for the portion
    double alcohol_change = 0.0;  // % vol, of a tincture
    double relative_sd = 0.0;
};

// Fails: bad_input for a glass, an amount or a strength that is not above 0, or a glass of which the addition is more
// than a quarter.
[[nodiscard]] Result<Batch> batch_of(const GlassTrial& trial, double litres);

// Glasses so far: dose in g/L and how it was liked, 0 to 10. The next: where a parabola through them peaks, kept inside
// the doses tried and half a step beyond; with two, beyond the better; with one, double or half by its liking.
struct LikedDose {
    double g_per_l = 0.0;
    double liking = 0.0;
};
struct NextDose {
    double g_per_l = 0.0;
    std::string why;
    bool enough = false;  // the next differs from the best tried by less than a tenth
};
[[nodiscard]] Result<NextDose> next_dose(const std::vector<LikedDose>& tried);

}  // namespace undercroft::engine::finish
