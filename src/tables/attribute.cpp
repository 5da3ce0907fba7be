#include "tables/attribute.hpp"

#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

Result<Attribute> read_attribute(const CsvRow& row) {
    constexpr Range k_points{0.0, 10.0};
    Attribute it;
    TRY(it.id, row.id("id"));
    TRY(it.name, row.text("name"));
    TRY(it.also, row.list("also", ';'));
    TRY(it.group,
        row.word<std::string>(
            "group", {{"taste", "taste"}, {"mouthfeel", "mouthfeel"}, {"aroma", "aroma"}, {"overall", "overall"}}));
    TRY(it.explanation, row.text("plain_explanation"));
    TRY(it.reference_for_3, row.text_or_empty("reference_for_3"));
    TRY(it.reference_for_7, row.text_or_empty("reference_for_7"));
    TRY(it.causes, row.text("main_causes"));
    TRY(it.raises, row.text_or_empty("raises"));
    TRY(it.lowers, row.text_or_empty("lowers"));
    TRY(it.usual_clean_low, row.number_or_empty("typical_clean_low", k_points));
    TRY(it.usual_clean_high, row.number_or_empty("typical_clean_high", k_points));
    TRY(it.usual_sour_low, row.number_or_empty("typical_sour_low", k_points));
    TRY(it.usual_sour_high, row.number_or_empty("typical_sour_high", k_points));
    if (it.usual_sour_low.value_or(0.0) > it.usual_sour_high.value_or(10.0))
        return row.refuse("typical_sour_low", "no more than typical_sour_high");
    if (it.usual_clean_low.value_or(0.0) > it.usual_clean_high.value_or(10.0))
        return row.refuse("typical_clean_low", "no more than typical_clean_high");
    TRY(it.chem_quantity, row.text_or_empty("chem_quantity"));
    TRY(it.chem_slope, row.number_or_empty("chem_slope_points_per_unit", {-1000.0, 1000.0}));
    TRY(it.chem_unit, row.text_or_empty("chem_unit"));
    TRY(it.chem_note, row.text_or_empty("chem_note"));
    TRY(it.mark, read_mark(row));
    TRY(it.source, row.text("source"));
    return it;
}

}  // namespace

Result<const Attribute*> find_attribute(const std::vector<Attribute>& all, std::string_view wanted) {
    return look_up_by_any_word(all, wanted, "attribute");
}

Result<std::vector<Attribute>> parse_attributes(std::string_view csv, std::string file) {
    TRY(std::vector<Attribute> all, read_rows<Attribute>(csv, file, read_attribute));
    TRY_VOID(require_words_of_one_row(all, file));
    return all;
}

}  // namespace undercroft::tables
