// What several tasters found of one attribute, put together: each taster's own offset and scale told apart from the
// beer.
//
// score = offset of the taster + scale of the taster x (what is in it - middle) + middle + what cannot be repeated.
// Offsets and scales are drawn towards the common one (0 and 1) by how much tasters differ, which is learned from all
// their scores, and held to what panels usually show where there are few (own choice, in the trade's order of size).
// Holds: the same scores give the same answer, whatever their order; one taster gives a wide spread, not a refusal;
// more tasters never widen it for the same differences among them. Leaves out: that a taster changes over the years;
// that the third sample tastes otherwise than the first.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace undercroft::engine::taste {

struct Score {
    std::string taster;
    std::string sample;  // what was in the glass: equal for all who tasted it then
    double value = 0.0;  // 0 to 10
};

struct PanelFigure {
    double mean = 0.0;  // on the common scale, 0 to 10
    double sd = 0.0;    // one standard deviation
    int tasters = 0;
    int scores = 0;
};

struct TasterHabits {
    double offset = 0.0;  // points above the others
    double scale = 1.0;   // how far this taster spreads scores, beside the others
    int scores = 0;
    double repeats = 0.0;  // sd of scores of one sample in one sitting; 0: never tasted one twice
    int duplicates = 0;    // pairs that this rests on
};

struct Panel {
    std::map<std::string, PanelFigure> samples;
    std::map<std::string, TasterHabits> tasters;
    double unrepeatable_sd = 0.0;  // of one score
    double offset_sd = 0.0;        // between tasters
};

// Fails: bad_input without a score, without a taster's name, and for a score off the scale.
[[nodiscard]] Result<Panel> panel_of(const std::vector<Score>& scores);

}  // namespace undercroft::engine::taste
