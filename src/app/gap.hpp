// How far a beer is from what it shall be: each figure found, with its spread, beside the band of its target, and where
// it drifts.
//
// Holds: tasted figures are those of the panel, all others those of the state; a figure nobody knows is said to be
// missing, with what would tell it. Nothing is booked here.
// Leaves out: that figures hang together; what to do about a gap.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/views_of.hpp"

namespace undercroft::app {

struct GapFigure {
    std::string figure;
    std::string unit;
    std::optional<double> low, high;
    double weight = 1.0;
    std::optional<double> mean;  // nullopt: nobody knows
    double sd = 0.0;
    double off = 0.0;     // from the nearer end of the band; 0 inside, below zero under it
    double chance = 0.0;  // that it lies inside, by a normal distribution
    // "inside", "perhaps outside" (nearer than twice its spread), "outside", "not known"
    std::string standing;
    std::optional<double> drift;  // a year; only where it is more than twice its own doubt
    double drift_sd = 0.0;
    std::string words;
};

struct GapView {
    BookLine book;
    std::string subject;
    std::string on;
    std::string set_on;              // day of the target; empty: there is none
    std::string target;              // its words
    std::vector<GapFigure> figures;  // largest weighted gap first
    std::string words;
    std::vector<Caution> cautions;
};

// Figures beside attributes that a target can name.
[[nodiscard]] const std::vector<std::string>& target_figures();

// Without `book`.
[[nodiscard]] Result<GapView> gap_view(const Seen& seen, engine::HolderRef holder);

}  // namespace undercroft::app
