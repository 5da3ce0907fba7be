// What a book knows of a pull that is to be finished, and what came of those that were.
//
// Holds: the beer as it is estimated now; tasted figures by the panel, or by what was tasted of the vessel it came from
// before it was moved; the newest target of its own vessel, else of the one it came from.
#pragma once

#include <string>
#include <vector>

#include "app/finish.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

[[nodiscard]] Result<FinishBasis> finish_basis(const Seen& seen, engine::HolderRef holder, const FinishRequest& request,
                                               Gallons gallons);

// What was forecast, and what came.
struct CameFigure {
    std::string figure;
    double before = 0.0;
    double forecast = 0.0, forecast_sd = 0.0;
    double came = 0.0, came_sd = 0.0;
    bool within = false;  // of 1.645 spreads: nine of ten should be
};

struct FinishedPortion {
    std::int64_t number = 0;  // of the entry that decided it
    std::string day;          // decided
    std::string subject;
    std::string how;  // "sour cherry, straight onto the beer, 160 g/L"
    std::string technique, way;
    double inside = 0.0;     // chance it was given
    std::string tasted;      // ISO day of the tasting after; empty: none yet
    std::string tasted_in;   // vessel or run
    std::string taste_from;  // ISO day from which a tasting tells
    std::vector<CameFigure> figures;
};

struct LearnedView {
    BookLine book;
    std::string on;
    std::string words;
    std::vector<FinishedPortion> portions;  // newest first
    std::vector<engine::finish::Learned> effects;
    std::vector<Caution> cautions;
};

[[nodiscard]] std::vector<engine::finish::Observed> observed_in(const Seen& seen,
                                                                std::vector<FinishedPortion>& portions);
// Without `book`.
[[nodiscard]] LearnedView learned_view(const Seen& seen);

}  // namespace undercroft::app
