// What a keeper's own before and after tastings say of an effect: the table's figure as prior, the tastings as data.
//
// Conjugate Bayesian regression through the origin: change = theta x factor + noise, where factor is the share of the
// whole effect that dose and days give (1 at the table's middle dose after full time), noise is normal with the spread
// of the two tastings, and theta is normal with the table's mean and spread. Two parts of the spread of the table are
// told apart: what differs from keeper to keeper, which tastings can teach, and what differs from lot to lot, which
// they cannot; half of the variance is taken as each (own choice).
#pragma once

#include <string>
#include <vector>

#include "engine/finish/effect.hpp"

namespace undercroft::engine::finish {

// One finished portion: an attribute before and after.
struct Observed {
    std::string technique;
    tables::FruitWay way = tables::FruitWay::none;
    std::string attribute;
    Dose dose;
    bool sour = true;  // which rows of the table it teaches
    Figure before;
    Figure after;
    Quantities beer;                 // before, for effects that depend on it
    std::optional<Figure> forecast;  // of after, as it was booked with the choice
    std::string when;                // ISO day of the tasting after
    std::string what;                // "Jar 23"
};

struct Learned {
    std::string technique;
    tables::FruitWay way = tables::FruitWay::none;
    std::string attribute;
    tables::AppliesTo applies_to = tables::AppliesTo::both;
    Figure prior;      // points at the middle dose after full time
    Figure data;       // what the tastings alone say; sd 0 without any that tells
    Figure posterior;  // of the keeper's own effect
    Figure next;       // of the next portion: with the lot's own spread
    int tastings = 0;
    double surprise = 0.0;  // mean of (came - forecast)/spread of it
    bool wrong = false;     // three or more, and the mean lies beyond 1.96 of its own spread
    std::string words;
};

inline constexpr double k_lot_share = 0.5;  // of the variance of the table

// Of every technique and attribute that was observed, in the order of the table. Observations whose factor is nothing
// teach nothing. Order does not matter.
[[nodiscard]] std::vector<Learned> learned_from(const tables::Tables& tables, const std::vector<Observed>& observed);
// The table's effects with what was learned in place of their figures: mean_total, sd_total, and what lies beyond
// chemistry by the same shift.
[[nodiscard]] std::vector<tables::Effect> effects_with(const std::vector<tables::Effect>& effects,
                                                       const std::vector<Learned>& learned);

}  // namespace undercroft::engine::finish
