// A keeper's spreadsheet as text: rows of cells, and what its columns mean.
//
// Holds: RFC 4180 with commas, semicolons or tabs between the cells; which of them is told by the header, which must
// have every column that the map names. A cell keeps its line, so that whatever is wrong with it can be found.
// Leaves out: what the rows are booked as (transfer_sheet.cpp).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::app {

enum class SheetField {
    date,
    time,
    vessel,
    gravity,
    ph,
    ta,
    temperature,
    co2,
    weight,
    read_at,
    instrument,
    sample,
    taster,
    words,
    liking,
    fault,
    score,
    note,
};

struct SheetColumn {
    std::string name;  // as in the header
    std::size_t index = 0;
    SheetField field = SheetField::note;
    // Of a score the attribute; of an amount the unit of cells that are bare numbers; of a date "dmy" or "mdy".
    std::string detail;
};

struct SheetRow {
    int line = 0;  // of the file, on which it begins, from 1
    std::vector<std::string> cells;

    // Without blanks around it; empty where the row is short.
    [[nodiscard]] std::string cell(const SheetColumn& column) const;
};

struct Sheet {
    std::vector<SheetColumn> columns;
    std::size_t width = 0;  // cells of the header
    std::vector<SheetRow> rows;

    [[nodiscard]] const SheetColumn* column(SheetField field) const;
};

// Errors, all bad_input: a map that cannot be meant, a column that is not there (with those that are), a field said
// twice where it can be said once, a quote that never closes.
[[nodiscard]] Result<Sheet> read_sheet(std::string_view bytes, const std::string& file,
                                       const std::vector<std::string>& maps);

// What the first line names, parted by whichever separator gives most columns.
[[nodiscard]] std::vector<std::string> headings_of(std::string_view bytes, const std::string& file);

// An amount without a unit is of the unit its column is mapped with.
[[nodiscard]] std::string with_unit(const std::string& cell, const std::string& unit);
// "3/4/2026" as a map says it is meant, "dmy" or "mdy": days and months with a slash, point or dash between.
[[nodiscard]] std::string in_order(const std::string& cell, const std::string& order);

// The word of a field in a map: "date", "read-at", ...
[[nodiscard]] std::string_view word(SheetField field);

}  // namespace undercroft::app
