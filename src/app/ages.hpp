// Questions about ages and about soleras as a whole, as asked: amounts and spans of time still as text.
//
// Holds: a face only fills these in; what is left empty is said in the answer.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/ages_views.hpp"
#include "base/patience.hpp"
#include "base/result.hpp"
#include "units/amount.hpp"

namespace undercroft::app {

// How old a vessel, a portion or a run of bottles is.
struct AgeRequest {
    std::string name;
    std::string on, known_on;             // days, as in Moment
    std::string from;                     // "brew day" (default) or "entry"
    std::string state;                    // "now" (default), "before" the last pull, "after" the last refill
    std::vector<std::string> older_than;  // spans; empty: 1, 2, 3 and 5 years
};

// A solera worked out without a book.
struct SoleraRequest {
    std::vector<std::string> vessels;  // full, the first gets the new beer, the last is drawn from
    std::string pull;                  // volume, or share of the last vessel; empty with neither: refused
    std::string every;                 // span between two pulls
    std::vector<std::string> first_pulls;
    std::string turns;                    // shown; empty: 10
    std::string new_beer_age;             // when it enters; empty: nothing
    std::string start_age;                // of the first fill; empty: new beer
    std::string evaporation;              // share of each vessel in an interval; empty: none
    std::string mixing;                   // 0 to 1; empty: 1
    std::string drawn;                    // "below" (default) or "above"
    std::string within;                   // settled when this near to the limit; empty: 1 %
    std::vector<std::string> older_than;  // spans; empty: 1 and 3 years
};

[[nodiscard]] Result<SoleraView> solera_sum(const SoleraRequest& request, Gallons gallons);

// What a keeper remembers of a solera that is older than the book; five answers and what may be known beside them.
struct RememberRequest {
    std::string vessel;
    std::string founded;  // day or range: "2014", "2012..2015"
    std::string share;    // usual: "a third"; may be left out when `refill` is given
    std::string every;    // usual interval: "8 months"
    std::string refill;   // usual refill, a volume; may be left out when `share` is given
    std::string original_gravity, gravity, alcohol, ibu, colour, ph, ta;  // last known reading of the whole
    std::string holds;                                                    // what is in it; empty: full
    std::string last_refill;  // day or range; empty: some time within the last interval
    std::string original;     // share of the first fill believed to be left
    std::string known;        // a later find: "2019 = half", a brew and its share; supersedes
    std::string seen;         // day the find was true on
    std::string when, by;     // of the sitting
    bool keep = false;        // book it; else a what-if
};

// A solera to be founded.
struct DesignRequest {
    std::string demand;                     // volume a year
    std::string age;                        // mean of the pull, at least: "3 years"
    std::vector<std::string> older;         // "3 years=50 %"
    std::vector<std::string> vessels;       // brimful, "30 L", or with a price: "30 L=40"; empty: ten usual sizes
    std::string ullage;                     // share of a vessel left empty when full, or "none"; empty: 5 %
    std::string wait;                       // empty: 5 years
    std::string new_beer_age;               // empty: nothing
    std::string stages;                     // "3" or "2..4"; empty: 1..8
    std::string every;                      // only this interval; empty: a month to two years
    std::string day_worth;                  // what a day of work is worth; empty: 50
    std::string show;                       // designs shown; empty: 5
    std::string draft;                      // number of the design to book; empty: none
    std::string name;                       // of its vessels; empty: "Solera"
    std::string original_gravity, gravity;  // of the first fill
    std::string by;
    bool keep = false;  // book it; else a what-if
};

[[nodiscard]] Result<DesignView> design_sum(const DesignRequest& request, Gallons gallons,
                                            const Patience& patience = {});

// A running solera under another share, interval or with another stage.
struct ChangeRequest {
    std::string vessel;
    std::string share;                     // new; empty: as it is
    std::string every;                     // new; empty: as it is
    std::vector<std::string> add_stages;   // volumes, each above the last
    std::string usual_share, usual_every;  // where the book does not know them
    std::string turns;                     // empty: 10
};

// --- shared readings of this folder's ages_*.cpp -----------------------------------------------

[[nodiscard]] Result<std::vector<double>> spans_from(const std::vector<std::string>& texts,
                                                     std::vector<double> otherwise);
// "a third" of `whole`, or a volume.
[[nodiscard]] Result<Volume> share_or_volume(std::string_view field, const std::string& text, Volume whole,
                                             Gallons gallons);

}  // namespace undercroft::app
