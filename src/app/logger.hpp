// The file of a temperature logger: times and temperatures out of a CSV, thinned to what a book has to keep.
//
// Holds: which column is which is told by the headings unless a map says it. A time with an offset ("Z", "+01:00") is
// that instant, one without is the cellar's own. Of the rows left out none lies further from the straight line between
// the points beside it than `thinned_to`; the coldest and the warmest row stay. Rows may stand in any order.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "base/result.hpp"

namespace undercroft::app {

struct LoggedRow {
    Instant at;
    double celsius = 0.0;
};

struct Logged {
    std::vector<LoggedRow> rows;  // in order of time; at least one
    int decimals = 1;             // of the temperatures as written
};

// Errors, all bad_input: headings that tell no time or temperature, or several; a unit nobody said; and all rows that
// do not read, each with line, column and what was expected.
[[nodiscard]] Result<Logged> read_logger(const std::string& bytes, const std::string& file,
                                         const std::vector<std::string>& maps, const Zone& zone, Instant now);

struct Thinned {
    std::vector<LoggedRow> points;
    std::optional<double> thinned_to;  // kelvins; nothing when no row was left out
};
// At most `most` points (2 or more), by the least of 0.05, 0.1, 0.2, ... kelvins that comes to so few.
[[nodiscard]] Thinned thinned(const std::vector<LoggedRow>& rows, std::size_t most);

}  // namespace undercroft::app
