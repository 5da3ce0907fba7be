// The mark of a row: how well its main claim is founded (data/README.md).
#pragma once

#include "base/result.hpp"
#include "tables/csv.hpp"

namespace undercroft::tables {

// C confirmed in a published source, M from memory of one, P common practice, D derived.
[[nodiscard]] inline Result<char> read_mark(const CsvRow& row) {
    return row.word<char>("mark", {{"C", 'C'}, {"M", 'M'}, {"P", 'P'}, {"D", 'D'}});
}

}  // namespace undercroft::tables
