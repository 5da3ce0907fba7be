// A solera worked out without a book: a chain of vessels, a pull at every turn, the gap refilled.
//
// A turn: an interval passes and every stage loses its evaporation; the last stage is pulled; it is refilled to full
// from the stage before it, that one from the one before, and the first with new beer, all as they stood before the
// pull. Figures are given *before the pull* unless a name says otherwise: that is what is drawn.
// Holds: volumes are carried, never fractions, so unequal vessels, evaporation and smaller first pulls come out right.
// Mixing below 1 is a model of two zones: a vessel is a lower and an upper half; the refill lies in the upper one, what
// is pulled below sinks out of the lower one, and after each refill both halves move towards their common mean by the
// mixing quality (1: wholly mixed, 0: never). With `above` the pull comes from the half the refill lies in.
// Leaves out: what differs between the beers except their age. The closed forms are in solera_formulas.hpp.
#pragma once

#include <optional>
#include <vector>

#include "units/volume.hpp"

namespace undercroft::engine {

enum class DrawnFrom { below, above };

struct SoleraPlan {
    std::vector<Volume> stages;  // full; the first gets the new beer, the last is drawn from
    Volume pull;                 // at every turn, once `first_pulls` are over
    std::vector<Volume> first_pulls;
    double interval_years = 1.0;
    double age_in_years = 0.0;     // of the new beer when it enters
    double start_age_years = 0.0;  // of the first fill, in every stage
    double evaporation = 0.0;      // share of each stage that goes in an interval, 0 to below 1
    double mixing = 1.0;           // 0 to 1
    DrawnFrom drawn = DrawnFrom::below;

    [[nodiscard]] Volume pull_at(int turn) const;  // turn 1 is the first
    // Empty when the plan can be carried out, else what is wrong with it, in a sentence.
    [[nodiscard]] const char* trouble() const;
};

// The beer of one fill in a pull.
struct FillShare {
    int turn = 0;        // 0: the first fill, n: the refill of the n-th turn
    double years = 0.0;  // age before this pull
    double share = 0.0;
};

// One turn: what is drawn.
struct SoleraTurn {
    int turn = 1;
    double years = 0.0;  // since the first fill
    Volume pulled;
    Volume refilled;                   // new beer that went into the first stage
    double mean_years = 0.0;           // of the pull
    double sd_years = 0.0;             // between its fills
    std::vector<double> stage_years;   // mean of every stage before the pull
    double after_refill_years = 0.0;   // mean of the last stage after it
    double original_share = 0.0;       // of the first fill in the pull
    double original_share_left = 0.0;  // … in the last stage after pull and refill
    double effective_fills = 0.0;      // 1 / sum of squared shares
    std::vector<FillShare> fills;      // youngest first, those there are
    [[nodiscard]] double share_older_than(double at_least_years) const;
};

// `turns` of them, from the first.
[[nodiscard]] std::vector<SoleraTurn> turns_of(const SoleraPlan& plan, int turns);

// Mean age of the pull at turns 1 to `turns`; the same recursion over means alone, for long runs.
[[nodiscard]] std::vector<double> mean_ages_of(const SoleraPlan& plan, int turns);

// Where the means tend to, for any mixing and evaporation: the fixed point of one turn, solved, not run to. Nothing
// when there is none (a half that is never drawn from and never mixes).
struct SettledAges {
    double mean_years = 0.0;                // of the pull
    double after_refill_years = 0.0;        // of the last stage
    std::vector<double> stage_years;        // before the pull
    std::vector<double> zone_after_refill;  // lower and upper half of each stage, after the refill
};
[[nodiscard]] std::optional<SettledAges> settled_ages(const SoleraPlan& plan);

// Turns until the mean age of the pull stays within `tolerance` (a share: 0.01) of its limit for good: counted by
// running on until every half of every stage is that near to its own limit, since what is drawn later is a mean of
// those. Nothing when that takes more than `most` turns, or never.
[[nodiscard]] std::optional<int> turns_to_settle(const SoleraPlan& plan, double tolerance, int most = 100'000);

}  // namespace undercroft::engine
