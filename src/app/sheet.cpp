#include "app/sheet.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/letters.hpp"
#include "base/nearest.hpp"
#include "tables/csv_scanner.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

struct FieldWord {
    std::string_view word;
    SheetField field;
    bool several;  // may be mapped more than once
    bool detail;   // may be followed by a unit, an attribute or an order of day and month
};

constexpr auto k_fields = std::to_array<FieldWord>({
    {"date", SheetField::date, false, true},
    {"time", SheetField::time, false, false},
    {"vessel", SheetField::vessel, false, false},
    {"gravity", SheetField::gravity, false, true},
    {"ph", SheetField::ph, false, false},
    {"ta", SheetField::ta, false, true},
    {"temperature", SheetField::temperature, false, true},
    {"co2", SheetField::co2, false, true},
    {"weight", SheetField::weight, false, true},
    {"read-at", SheetField::read_at, false, true},
    {"instrument", SheetField::instrument, false, false},
    {"sample", SheetField::sample, false, true},
    {"taster", SheetField::taster, false, false},
    {"words", SheetField::words, false, false},
    {"liking", SheetField::liking, false, false},
    {"fault", SheetField::fault, true, false},
    {"score", SheetField::score, true, true},
    {"note", SheetField::note, false, false},
});

constexpr std::array k_separators = {',', ';', '\t'};

// "SG=gravity", "Sour=score sour", "Temp=temperature C".
Result<SheetColumn> read_piece(const std::string& piece) {
    const auto equals = piece.rfind('=');
    SheetColumn column;
    if (equals != std::string::npos) column.name = trimmed(std::string_view(piece).substr(0, equals));
    if (column.name.empty())
        return fail(ErrorKind::bad_input, "map",
                    "\"" + piece + "\" maps no column. Write column=field, such as \"SG=gravity\".");
    const std::string meaning = trimmed(std::string_view(piece).substr(equals + 1));
    const auto blank = meaning.find(' ');
    const std::string word_text = meaning.substr(0, blank);
    if (blank != std::string::npos) column.detail = trimmed(std::string_view(meaning).substr(blank));
    const auto* found =
        std::find_if(k_fields.begin(), k_fields.end(), [&](const FieldWord& field) { return field.word == word_text; });
    if (found == k_fields.end()) {
        std::string all;
        for (const FieldWord& field : k_fields) all += (all.empty() ? "" : ", ") + std::string(field.word);
        return fail(ErrorKind::bad_input, "map", "\"" + word_text + "\" is no field of a sheet.",
                    {{"column", column.name}, {"fields", all}});
    }
    column.field = found->field;
    if (!column.detail.empty() && !found->detail)
        return fail(ErrorKind::bad_input, "map",
                    "\"" + column.detail + "\" says nothing about " + word_text + ". Write \"" + column.name + "=" +
                        word_text + "\".");
    if (column.field == SheetField::score && column.detail.empty())
        return fail(ErrorKind::bad_input, "map",
                    "A score of what? Write \"" + column.name + "=score sour\", with the attribute's name.");
    if (column.field == SheetField::date && !column.detail.empty() && column.detail != "dmy" && column.detail != "mdy")
        return fail(ErrorKind::bad_input, "map",
                    "\"" + column.detail + "\" is no order of day and month. Write \"" + column.name +
                        "=date dmy\" (the day first) or \"" + column.name + "=date mdy\".");
    return column;
}

Result<std::vector<SheetColumn>> read_maps(const std::vector<std::string>& maps) {
    std::vector<SheetColumn> columns;
    const std::string k_name = "--map";
    for (const std::string& map : maps) {
        tables::CsvScanner scanner(map, k_name);
        TRY(const std::vector<std::string> pieces, scanner.record());
        for (const std::string& piece : pieces) {
            TRY(SheetColumn column, read_piece(piece));
            const auto* kind = std::find_if(k_fields.begin(), k_fields.end(),
                                            [&](const FieldWord& field) { return field.field == column.field; });
            for (const SheetColumn& other : columns)
                if (other.field == column.field && (!kind->several || other.name == column.name))
                    return fail(ErrorKind::bad_input, "map",
                                "Two columns cannot both be " + std::string(kind->word) + ": " + other.name + " and " +
                                    column.name + ".");
            columns.push_back(std::move(column));
        }
    }
    if (columns.empty())
        return fail(ErrorKind::bad_input, "map",
                    "Which column is what? Write --map \"Date=date,Vessel=vessel,SG=gravity\".");
    if (std::none_of(columns.begin(), columns.end(),
                     [](const SheetColumn& column) { return column.field == SheetField::date; }))
        return fail(ErrorKind::bad_input, "map", "Which column holds the day? Map one to date, such as \"Date=date\".");
    return columns;
}

// True when the header has every column; else `missing` is the first it has not.
bool find_columns(const std::vector<std::string>& header, std::vector<SheetColumn>& columns, std::string& missing) {
    for (SheetColumn& column : columns) {
        std::size_t i = 0;
        while (i < header.size() && trimmed(header[i]) != column.name) ++i;
        if (i == header.size()) {
            missing = column.name;
            return false;
        }
        column.index = i;
    }
    return true;
}

Failure no_such_column(const std::string& file, const std::string& missing, const std::vector<std::string>& header) {
    std::vector<std::string> names;
    std::string all;
    for (const std::string& cell : header) {
        names.push_back(trimmed(cell));
        all += (all.empty() ? "" : ", ") + names.back();
    }
    std::vector<Fact> facts{{"columns there", all}};
    for (const std::string& near : nearest_names(missing, names, 3)) facts.push_back({"perhaps", near});
    return fail(ErrorKind::bad_input, file + " line 1", "There is no column \"" + missing + "\".", std::move(facts),
                "The first line names the columns; write them in --map as they stand there.");
}

}  // namespace

std::string_view word(SheetField field) {
    for (const FieldWord& one : k_fields)
        if (one.field == field) return one.word;
    return "?";
}

std::string with_unit(const std::string& cell, const std::string& unit) {
    return !unit.empty() && is_number_word(cell) ? cell + " " + unit : cell;
}

std::string in_order(const std::string& cell, const std::string& order) {
    if (order.empty()) return cell;
    std::vector<std::string> numbers(1);
    std::size_t i = 0;
    for (; i < cell.size() && cell[i] != ' '; ++i) {
        if (cell[i] == '/' || cell[i] == '.' || cell[i] == '-')
            numbers.emplace_back();
        else if (cell[i] >= '0' && cell[i] <= '9')
            numbers.back() += cell[i];
        else
            return cell;
    }
    if (numbers.size() != 3 || numbers[0].empty() || numbers[0].size() > 2 || numbers[1].empty() ||
        numbers[1].size() > 2 || numbers[2].size() != 4)
        return cell;
    const auto two = [](const std::string& digits) { return digits.size() == 1 ? "0" + digits : digits; };
    const bool day_first = order == "dmy";
    return numbers[2] + "-" + two(numbers[day_first ? 1 : 0]) + "-" + two(numbers[day_first ? 0 : 1]) + cell.substr(i);
}

std::string SheetRow::cell(const SheetColumn& column) const {
    return column.index < cells.size() ? trimmed(cells[column.index]) : std::string{};
}

const SheetColumn* Sheet::column(SheetField field) const {
    for (const SheetColumn& one : columns)
        if (one.field == field) return &one;
    return nullptr;
}

std::vector<std::string> headings_of(std::string_view bytes, const std::string& file) {
    bytes = tables::without_byte_order_mark(bytes);
    std::vector<std::string> widest;
    for (const char candidate : k_separators) {
        tables::CsvScanner header_only(bytes, file, candidate);
        const auto header = header_only.record();
        if (header && header->size() > widest.size()) widest = *header;
    }
    for (std::string& heading : widest) heading = trimmed(heading);
    return widest;
}

Result<Sheet> read_sheet(std::string_view bytes, const std::string& file, const std::vector<std::string>& maps) {
    bytes = tables::without_byte_order_mark(bytes);
    if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos)
        return fail(ErrorKind::bad_input, file, "The file is empty: expected a line that names the columns.");
    Sheet sheet;
    TRY(sheet.columns, read_maps(maps));
    // The separator is the one that parts the header into the columns of the map.
    char separator = '\0';
    std::string missing;
    std::vector<std::string> widest;
    for (const char candidate : k_separators) {
        tables::CsvScanner header_only(bytes, file, candidate);
        const auto header = header_only.record();
        if (!header) continue;
        if (find_columns(*header, sheet.columns, missing)) {
            separator = candidate;
            break;
        }
        if (header->size() > widest.size()) widest = *header;
    }
    if (separator == '\0') {
        static_cast<void>(find_columns(widest, sheet.columns, missing));
        return no_such_column(file, missing, widest);
    }
    tables::CsvScanner scanner(bytes, file, separator);
    TRY(const std::vector<std::string> header, scanner.record());
    sheet.width = header.size();
    while (!scanner.at_end()) {
        const int line = scanner.line();
        TRY(std::vector<std::string> cells, scanner.record());
        const bool blank =
            std::all_of(cells.begin(), cells.end(), [](const std::string& cell) { return trimmed(cell).empty(); });
        if (!blank) sheet.rows.push_back({line, std::move(cells)});
    }
    return sheet;
}

}  // namespace undercroft::app
