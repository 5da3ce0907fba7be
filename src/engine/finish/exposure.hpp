// What one glass would carry of something that a dose of a flavouring or fruit brings, beside what is held harmful.
//
// Holds: all of it is taken as extracted. These are usual cautions, no medical advice: local rules and licensed
// practice come first. Leaves out: who should take none at all (children, pregnancy, some medicines).
#pragma once

#include <optional>
#include <string>

#include "engine/finish/effect.hpp"
#include "tables/technique.hpp"

namespace undercroft::engine::finish {

inline constexpr double k_glass_litres = 0.33;

struct Exposure {
    std::string of;           // "coumarin"
    double per_glass_mg = 0;  // in a glass of 0.33 L
    double limit_mg = 0;      // for an adult of 60 kg; of nutmeg the dose that poisoned
    double glasses = 0;       // that reach it
    bool beyond = false;      // fewer than ten glasses reach it: more than caution allows
    std::string words;
    std::string source;
};

// Nothing for what is not known to hurt at the doses of the table. `litres_per_dose`: beer that the dose goes into
// before it grows; the dose is g/L of it.
[[nodiscard]] std::optional<Exposure> exposure_of(const tables::Technique& technique, double g_per_l);

}  // namespace undercroft::engine::finish
