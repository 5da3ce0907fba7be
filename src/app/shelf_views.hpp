// What is answered about bottles: the shelf, a recall, and whether dregs are fit for use.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "app/views.hpp"

namespace undercroft::app {

// Where something is that is to be recalled: a vessel, or the bottles of a run.
struct RecallPlace {
    std::string kind;  // "vessel", "run"
    std::int64_t number = 0;
    std::string name;
    std::string location;                           // as the book has it; may be empty
    Volume holds;                                   // now; of a run, what is on hand
    std::optional<double> share;                    // of the liquid there; nullopt: what was asked for has no volume
    std::string certainty;                          // of a culture: word of Certainty; empty else
    std::string since;                              // of a culture: ISO day it came in; empty else
    std::string packaged;                           // of a run: ISO day
    int count = 0;                                  // of a run: containers filled
    int left = 0;                                   // on hand
    std::vector<Receiver> received;                 // given or sold, oldest first
    std::vector<std::pair<std::string, int>> gone;  // cause, containers, neither given nor sold
};

struct RecallView {
    BookLine book;
    std::string what;     // "lot", "addition", "culture"
    std::string subject;  // its name
    std::string on;
    std::vector<RecallPlace> vessels;  // largest share, or most certain, first
    std::vector<RecallPlace> runs;
    std::vector<std::string> gear;  // of a culture: what it may ride on
    int on_hand = 0;                // containers
    int with_others = 0;            // given or sold
    std::string words;              // one sentence
    std::vector<Caution> cautions;
};

struct DregsCulture {
    std::string name;
    std::string kind;       // name of the row
    std::string certainty;  // word of Certainty
    std::string since;      // ISO day it came into this liquid
    std::string alive;      // "likely alive", "may be alive", "hardly alive": by its time in the bottle
    std::string about;      // killer, diastatic: what somebody who takes it must know
};

// One use of dregs.
struct DregsUse {
    std::string use;     // "share", "pitch", or the solera they would go into
    std::string answer;  // "yes", "care", "no": care means as the words that follow say
    std::string why;
};

struct DregsView {
    BookLine book;
    std::string subject;
    std::string on;
    double years_in_container = 0.0;
    std::vector<DregsCulture> cultures;  // most certain first
    std::vector<std::string> displaced;  // what displaced what, from when; sentences
    DregsUse share;
    DregsUse pitch;
    std::vector<DregsUse> put_back;  // for each solera that is not empty
    std::vector<Caution> cautions;
};

struct ShelfTasting {
    std::string day;               // ISO
    double years = 0.0;            // since it was packaged
    std::optional<double> liking;  // 0 to 10
    std::string words;
};

// How liking moves with the time in the bottle, over all runs of one solera: a straight line by least squares.
struct ShelfTrend {
    std::string of;  // the solera, or the vessel it was packaged from
    int tastings = 0;
    double per_year = 0.0;
    double sd = 0.0;  // of it, one standard deviation
    std::string words;
};

struct ShelfRun {
    RunSummary run;
    std::string solera;                // that it was pulled from
    std::optional<DueLine> next;       // its next opening or check
    std::vector<ShelfTasting> opened;  // oldest first
    std::vector<Receiver> received;
};

struct ShelfPlace {
    std::string location;  // empty: not said
    int containers = 0;
    std::vector<ShelfRun> runs;  // oldest first
};

// Runs of one solera that could be opened side by side.
struct Vertical {
    std::string solera;
    std::vector<std::string> runs;  // oldest first
};

struct ShelfView {
    BookLine book;
    std::string on;
    std::vector<ShelfPlace> places;  // by name; what has no place comes last
    std::vector<DueLine> due;        // of runs on hand, most urgent first
    std::vector<Vertical> verticals;
    std::vector<ShelfTrend> trends;
};

}  // namespace undercroft::app
