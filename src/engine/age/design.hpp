// Founding a solera: which vessels, how many stages, how much and how often, for a demand and an age.
//
// Holds: the grid is searched whole: every vessel size, number of stages, share and interval. Stages are alike (one or
// more equal vessels side by side), begun with new beer, pulled at every interval; ages are before the pull, from entry
// plus the age of the new beer, wholly mixed and without evaporation. Equal wishes give equal answers in equal order.
// Hours of work and the life of a vessel are common practice, no source; both are stated in the answer.
// Leaves out: what the beer is like; taste, acid and culture come in with engine/refill.
#pragma once

#include <optional>
#include <vector>

#include "base/patience.hpp"
#include "engine/age/solera.hpp"

namespace undercroft::engine {

struct VesselOffer {
    Volume full;
    double price = 0.0;  // of one, in the keeper's money
    Volume ullage = {};  // left empty when full
};

struct OlderWish {
    double years = 0.0;
    double share = 0.0;  // of the pull, at least so old
};

struct DesignWish {
    double demand_litres = 0.0;        // a year, at least
    std::optional<double> mean_years;  // of the pull, at least
    std::vector<OlderWish> older;
    double wait_years = 5.0;    // by then, counted from the first fill
    double age_in_years = 0.0;  // of the new beer
    std::vector<VesselOffer> vessels;
    std::vector<double> shares;     // of a stage, pulled at a turn
    std::vector<double> intervals;  // years
    int fewest_stages = 1;
    int most_stages = 8;
    int most_abreast = 4;     // equal vessels side by side in a stage
    double day_worth = 50.0;  // what a day of work is worth, in the same money
};

// The grid that is searched when the keeper does not say: shares from 2 to 50 % (never above the hard stop of 60 %),
// intervals from a month to two years.
[[nodiscard]] std::vector<double> usual_shares();
[[nodiscard]] std::vector<double> usual_intervals();
[[nodiscard]] std::vector<Volume> usual_vessels();

inline constexpr double k_share_hard_stop = 0.6;     // common practice: acid, age and culture lag behind above it
inline constexpr double k_vessel_life_years = 10.0;  // common practice, no source
inline constexpr double k_days_per_turn = 0.5;       // common practice, no source: tasting, deciding, brewing for it
inline constexpr double k_days_per_vessel = 0.25;    // common practice, no source: moving and cleaning, each vessel

struct Design {
    int stages = 1;
    int abreast = 1;  // vessels in each stage
    Volume vessel;    // full
    Volume ullage;    // of each vessel, left empty when full
    double price_each = 0.0;
    double interval_years = 1.0;
    double share = 0.0;
    Volume pull;  // at a turn, from all vessels of the last stage
    double yearly_litres = 0.0;
    double age_at_wait = 0.0;           // mean of the last pull within the wait; 0 when there is none
    std::vector<double> older_at_wait;  // for each OlderWish
    double settled_years = 0.0;
    double fit = 0.0;            // 1: the wish is met in time; else the worst part of it that is reached
    double hands_on_days = 0.0;  // a year
    double price = 0.0;          // of all vessels
    double burden = 0.0;         // a year: price over the life of a vessel, and the work

    [[nodiscard]] bool reached() const { return fit >= 1.0 - 1e-9; }
};

// What is wrong with the wish, or nothing.
[[nodiscard]] const char* trouble_of(const DesignWish& wish);

// Best first: those that meet the wish in time by their burden, then the others by how near they come, to a percent,
// and by their burden. At most one for each number of stages and vessel size. Empty when no vessel yields the demand,
// or when nobody waits for it any more.
[[nodiscard]] std::vector<Design> designs_of(const DesignWish& wish, std::size_t most, const Patience& patience = {});

// The design as a solera to be worked out turn by turn.
[[nodiscard]] SoleraPlan plan_of(const Design& design, const DesignWish& wish);

// A way to begin, against the plain one.
enum class Start { plain, aged_half, aged_full, half_pulls, no_pulls };
struct FastStart {
    Start start = Start::plain;
    SoleraPlan plan;
    std::optional<int> turn_reached;  // first pull that meets the wish; nothing: not within 100 years
    double years_reached = 0.0;
    double litres_before = 0.0;  // pulled until then
    double mean_at_wait = 0.0;
};
[[nodiscard]] const char* word(Start value);
// `plain` first. With aged beer: half as old as the wish wants, and as old.
[[nodiscard]] std::vector<FastStart> starts_of(const Design& design, const DesignWish& wish);

}  // namespace undercroft::engine
