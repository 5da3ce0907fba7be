// A make-up as bands side by side, oldest at the left: the older, the darker.
#pragma once

#include <vector>

#include "app/views.hpp"
#include "paper/canvas.hpp"

namespace undercroft::paper {

void draw_strata(Canvas& canvas, double x, double y, double width, double height,
                 const std::vector<app::Stratum>& strata);

}  // namespace undercroft::paper
