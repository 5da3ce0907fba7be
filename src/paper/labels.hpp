// Labels of a run on sheets: for the belly of a bottle, its neck, or its crown.
//
// Holds: a label says all of its facts or is refused; nothing is cut off. The code on it holds the run's code in its
// first line and the essentials after it, readable with no network. What a label must say where it is sold or given is
// for local rules: nothing here knows them.
#pragma once

#include <string>

#include "app/views.hpp"
#include "base/result.hpp"
#include "paper/grid.hpp"

namespace undercroft::paper {

enum class LabelShape { belly, neck, crown };

struct LabelJob {
    LabelShape shape = LabelShape::belly;
    Grid grid;
    int count = 1;
    int first_cell = 1;     // of the first sheet, when some are used up
    bool outlines = false;  // cut marks, for paper that is not cut yet
    std::string picture;    // PNG for the belly; empty: none
};

struct LabelSheet {
    std::string pdf;
    int pages = 0;
    double points = 0.0;       // size of its letters
    double x_height_mm = 0.0;  // height of a small letter: what rules on labels measure
};

inline constexpr int k_most_labels = 2000;

// `made_on`: ISO day. Fails: bad_input for a count, a cell, letters or a picture that cannot be, and for a grid too
// small to say it all.
[[nodiscard]] Result<LabelSheet> label_sheet(const app::LabelView& label, const LabelJob& job,
                                             const std::string& made_on);
// What its code says.
[[nodiscard]] std::string label_code(const app::LabelView& label);

}  // namespace undercroft::paper
