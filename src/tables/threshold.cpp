#include "tables/threshold.hpp"

#include <utility>

#include "tables/csv.hpp"
#include "tables/embedded.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

constexpr const char* k_threshold_file = "thresholds.csv";

Result<Threshold> read_threshold(const CsvRow& row) {
    constexpr Range k_milligrams{1e-7, 10'000.0};
    Threshold it;
    TRY(it.id, row.id("id"));
    TRY(it.name, row.text("name"));
    TRY(it.also, row.list("also", ';'));
    TRY(it.flavour, row.text("class"));
    TRY(it.low, row.number("threshold_low_mg_per_L", k_milligrams));
    TRY(it.high, row.number("threshold_high_mg_per_L", k_milligrams));
    if (it.low > it.high) return row.refuse("threshold_low_mg_per_L", "no more than threshold_high_mg_per_L");
    TRY(it.matrix, row.text("matrix"));
    TRY(it.descriptor, row.text("descriptor"));
    TRY(it.origin, row.text("typical_origin"));
    TRY(it.mark, read_mark(row));
    TRY(it.source, row.text("source"));
    return it;
}

}  // namespace

Result<const Threshold*> find_threshold(const std::vector<Threshold>& all, std::string_view wanted) {
    return look_up_by_any_word(all, wanted, "compound");
}

Result<std::vector<Threshold>> parse_thresholds(std::string_view csv, std::string file) {
    TRY(std::vector<Threshold> all, read_rows<Threshold>(csv, file, read_threshold));
    TRY_VOID(require_words_of_one_row(all, file));
    return all;
}

const std::vector<Threshold>& shipped_thresholds() {
    static const std::vector<Threshold> k_all = parse_thresholds(embedded(k_threshold_file), k_threshold_file).value();
    return k_all;
}

}  // namespace undercroft::tables
