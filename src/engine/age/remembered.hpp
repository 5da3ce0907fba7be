// A solera that is older than its book, drawn from what its keeper remembers: geometric lots with their spread.
//
// Holds: with a share f pulled every T, the beer of k refills ago makes up f (1-f)^k of the vessel after a refill, and
// the first fill (1-f)^n after n of them. Share and interval are remembered, so both are taken to be right within 15 %
// only; both stretch ages alike, so a lot's age is given a fifth of it either way on top of when the last refill was.
// The 15 % are this program's own assumption, common practice, no source.
// What contradicts itself is refused with the numbers, never bent until it fits.
#pragma once

#include <optional>
#include <vector>

#include "base/result.hpp"
#include "units/volume.hpp"

namespace undercroft::engine {

inline constexpr double k_memory_slack = 0.15;      // of a remembered share or interval
inline constexpr double k_remembered_spread = 0.2;  // of a lot's age: both together, by squares

struct YearsAgo {
    double least = 0.0;
    double most = 0.0;
    [[nodiscard]] double middle() const { return (least + most) / 2.0; }
};

struct SoleraMemory {
    YearsAgo founded;
    double share = 0.0;                    // usual, of the full vessel
    double interval_years = 0.0;           // usual
    std::optional<YearsAgo> last_refill;   // nothing: somewhere within the last interval
    std::optional<double> original_share;  // what is believed to be left of the first fill
};

struct RememberedLot {
    int from_refill = 0;      // 1: the last refill; 0: the first fill is in it
    int to_refill = 0;        // several small old ones are one lot
    bool first_fill = false;  // the first fill is part of it
    double share = 0.0;
    YearsAgo brewed;
};

struct RememberedSolera {
    std::vector<RememberedLot> lots;  // youngest first; shares sum to one
    double share = 0.0;               // as used: fitted to what is left of the first fill, when that was said
    int refills = 0;                  // since it was founded
    int least_refills = 0;
    int most_refills = 0;
    double original_share = 0.0;
    double mean_years = 0.0;
};

// impossible: the answers contradict each other; the facts say how far they are apart and what would fit.
[[nodiscard]] Result<RememberedSolera> remembered_solera(const SoleraMemory& memory);

// --- a later find ------------------------------------------------------------------------------

struct DatedVolume {
    YearsAgo brewed;  // before the day the solera was remembered on
    Volume volume;
};

// "The brew of 2019 was still half of it in 2021."
struct Find {
    YearsAgo brewed;
    double seen_years_ago = 0.0;
    double share = 0.0;  // of what the vessel held then
};

struct NarrowedLots {
    std::size_t found = 0;          // index of the lot that is now the find
    std::vector<DatedVolume> lots;  // the same number, in the same order
    // When nothing but the lot of the find is remembered from that day, the lot is parted: this is the other part of
    // it.
    std::optional<DatedVolume> rest;  // with `lots` the same sum as before
};

// Beer that came after the day of the find stays as it was; of the rest the find gets its share, and the others keep
// their proportions. impossible: no lot can be the find.
[[nodiscard]] Result<NarrowedLots> narrowed(const std::vector<DatedVolume>& lots, const Find& find);

// Whole microlitres in the proportion of `shares` that sum to `total` exactly.
[[nodiscard]] std::vector<Volume> shared_out(Volume total, const std::vector<double>& shares);

}  // namespace undercroft::engine
