// From which concentration something in beer is noticed (data/thresholds.csv).
//
// Leaves out: that one taster's threshold is another's tenfold; that is for whoever uses it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

struct Threshold {
    std::string id;
    std::string name;
    std::vector<std::string> also;
    std::string flavour;  // class within which amounts add up: "vinegar", "caprylic"
    double low = 0.0;     // mg/L, of published values
    double high = 0.0;
    std::string matrix;      // in what it was tasted: "beer", "wine", "water"
    std::string descriptor;  // what it is like
    std::string origin;
    char mark = 'M';
    std::string source;
};

// Id, name or another word for it; not_found names the nearest.
[[nodiscard]] Result<const Threshold*> find_threshold(const std::vector<Threshold>& all, std::string_view wanted);
[[nodiscard]] Result<std::vector<Threshold>> parse_thresholds(std::string_view csv, std::string file);
// Those compiled in. Holds: they are valid, since a bad row fails the build's tests.
[[nodiscard]] const std::vector<Threshold>& shipped_thresholds();

}  // namespace undercroft::tables
