// Where a liquid comes from, and where a lot, an addition or a culture went.
//
// Holds: shares back sum to one; volumes forward (on hand and gone) sum to the lot's own volume. The way back is
// followed in time only backwards, so a loop is a vessel met twice and the way ends.
#pragma once

#include <string>
#include <vector>

#include "base/instant.hpp"
#include "ledger/replay.hpp"

namespace undercroft::engine {

// A vessel or a run, by index in the cellar; one of the two is -1.
struct HolderRef {
    int vessel = -1;
    int run = -1;
    friend auto operator<=>(const HolderRef&, const HolderRef&) = default;
};

struct PathStep {
    HolderRef through;
    Instant from;  // when liquid of it first flowed on towards the one asked about
    Instant to;    // … and last
};

struct BackTrace {
    std::vector<std::pair<int, double>> lots;  // index, share of the liquid; largest first
    std::vector<int> additions;                // indices
    std::vector<ledger::CultureHere> cultures;
    std::vector<PathStep> path;  // latest first; without the one asked about
};

[[nodiscard]] BackTrace trace_back(const ledger::Cellar& cellar, HolderRef of);

struct WentTo {
    HolderRef holder;
    double share_of_lot = 0.0;  // of the lot's volume
    double share_there = 0.0;   // of the liquid in the holder
    Volume volume;              // rounded to the microlitre
};

struct ForwardTrace {
    std::vector<WentTo> on_hand;                       // largest first
    std::vector<std::pair<std::string, Volume>> gone;  // "evaporation", "opened", …
};

// `lots` is a set of lot indices (several lots of one name are traced together).
[[nodiscard]] ForwardTrace trace_lots(const ledger::Cellar& cellar, const std::vector<int>& lots);

// Every holder the culture may live in, or whose liquid took from the addition; runs that are used up included.
struct CultureAt {
    HolderRef holder;
    ledger::CultureHere here;
};
[[nodiscard]] std::vector<CultureAt> trace_cultures(const ledger::Cellar& cellar, const std::vector<int>& cultures);
[[nodiscard]] std::vector<HolderRef> trace_additions(const ledger::Cellar& cellar, const std::vector<int>& additions);

}  // namespace undercroft::engine
