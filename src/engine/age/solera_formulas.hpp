// Closed forms of fractional blending: what the recursion of solera.hpp tends to, and what it gives in plain cases.
//
// Source: derived by hand (docs/models/age.md shows how); the quantities are those of Baker, Amerine & Roessler 1952,
// Hilgardia 21(14):383-409, doi 10.3733/hilg.v21n14p383, whose printed tables were not seen.
// Holds: f is the share pulled of a vessel before the pull, T the interval; ages are before the pull unless named.
// Wholly mixed vessels. Where nothing evaporates the mean of the pull holds for any mixing above 0, since the mean stay
// is volume over flow however beer moves inside; the spread does not.
#pragma once

#include <vector>

#include "engine/age/solera.hpp"

namespace undercroft::engine {

struct SteadySolera {
    std::vector<double> stage_years;  // mean before the pull, stage by stage
    double mean_years = 0.0;          // of the pull
    double after_refill_years = 0.0;  // of the last stage
    double time_average_years = 0.0;  // of the last stage, over an interval
    double sd_years = 0.0;            // of the pull, wholly mixed
    double youngest_years = 0.0;      // no beer in the pull is younger
    double yearly = 0.0;              // litres drawn in a year
    double yearly_new_beer = 0.0;     // litres of new beer in a year: the pull and what evaporates
};

// Every stage adds T V/in: its volume over what flows into it in a turn, its own evaporation included.
[[nodiscard]] SteadySolera steady_state(const SoleraPlan& plan);

// Share of the fill made k refills ago in the pull of one vessel: f (1-f)^(k-1), k = 1, 2, ...
[[nodiscard]] double share_made_ago(double f, int k);
// Share of the first fill in the n-th pull of one vessel: (1-f)^(n-1).
[[nodiscard]] double original_share_in_draw(double f, int n);
// Fewest pulls after which the vessel holds less than `p` of its first fill.
[[nodiscard]] int pulls_until_original_below(double f, double p);
// 1 / sum of squared shares of one settled vessel: (2-f)/f.
[[nodiscard]] double effective_vintages(double f);
// Chance that fewer than `stages` of `k` trials with chance f succeed: P(Bin(k, f) < N), the share of beer that has
// not come through a chain of equal stages in k turns.
[[nodiscard]] double not_yet_through(int stages, double f, int k);
// Share of the pull that is k intervals old in a settled chain of equal stages: C(k-1, N-1) f^N (1-f)^(k-N).
[[nodiscard]] double share_of_age(int stages, double f, int k);
// Mean age, in intervals, of the n-th pull of a chain of equal stages begun with new beer: sum over k < n of
// P(Bin(k, f) < N).
[[nodiscard]] double nth_draw_intervals(int stages, double f, int n);
// What does not evaporate gathers: concentration before the pull over that of what tops up, settled, with a share e
// evaporated and f pulled of the volume: (e+f)/f. After topping up it is that times (1-e).
[[nodiscard]] double concentration_factor(double e, double f);

}  // namespace undercroft::engine
