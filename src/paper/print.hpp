// One way from a book to paper for every face: what is asked for, and the PDF with what a keeper is told about it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "app/book.hpp"
#include "base/result.hpp"

namespace undercroft::paper {

// Empty texts: as usual.
struct PrintRequest {
    std::string what;     // "labels", "necks", "crowns", "tags", "card", "recall", "letter", "pages", "tasting"
    std::string subject;  // a run for labels, necks, crowns; a run or vessel for a card; what to recall
    std::vector<std::string> vessels = {};  // for tags, empty: all; of a tasting
    std::vector<std::string> tasters = {};  // of a tasting
    std::vector<std::string> twice = {};    // likewise: what is poured twice
    std::string set = {};                   // likewise; empty: one is made
    bool full = false;                      // likewise: the whole sheet
    std::string name = {};                  // what the beer is called
    std::string grid = {};                  // of labels (grid.hpp); empty: as suits the shape
    std::string paper = {};                 // A4 or Letter, of all else
    std::string count = {};                 // of labels; empty: as many as are on hand
    std::string first = {};                 // label of the first sheet to begin with; empty: 1
    std::string year = {};                  // of a letter; empty: this one
    bool outlines = false;                  // cut marks round labels
    bool pages = true;                      // of a letter: the book behind it
    std::string picture = {};               // PNG bytes for labels
    std::string picture_entry = {};         // or the entry that holds them: "#12"
};

struct Printed {
    app::PrintedView view;  // without `file`
    std::string pdf;
};

// `exported`: the book as an export; asked for only where it is printed.
[[nodiscard]] Result<Printed> print(app::Book& book, const PrintRequest& request,
                                    const std::function<Result<std::string>()>& exported);

}  // namespace undercroft::paper
