// What the tasters of a book found in a vessel or run, put together, and how each of them tastes.
#pragma once

#include <string>
#include <vector>

#include "app/faults.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

struct TastedFigure {
    std::string attribute;
    std::string day;    // ISO
    double mean = 0.0;  // of 10, on the panel's common scale
    double sd = 0.0;
    int tasters = 0;
    int scores = 0;
    std::string why;  // one sentence
};

struct NamedFault {
    std::string fault;
    std::string day;  // newest
    int times = 0;    // in how many tastings of this day
    int of = 0;       // tastings that day
    std::vector<std::string> by;
};

struct TasterLine {
    std::string taster;
    double offset = 0.0;   // points above the others, over all attributes by how much was scored
    double repeats = 0.0;  // sd of a glass tasted twice; 0: never
    int duplicates = 0;
    int scores = 0;
    std::vector<std::string> blind;  // "misses funk: gave 1.0 where others found 5.0, 3 times"
};

struct PanelView {
    BookLine book;
    std::string subject;
    std::string on;
    std::string words;
    std::vector<TastedFigure> now;       // newest day of each attribute
    std::vector<TastedFigure> course;    // all days, by attribute and day
    std::vector<NamedFault> faults;      // newest first
    std::vector<FaultMeaning> standing;  // what those that stand mean now, also of beer that came from elsewhere
    std::vector<TasterLine> tasters;     // who scored it
    std::vector<Caution> cautions;
};

// Without `book`.
[[nodiscard]] Result<PanelView> panel_view(const Seen& seen, engine::HolderRef holder);

}  // namespace undercroft::app
