#include "tables/fault.hpp"

#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

Result<bool> yes_or_no(const CsvRow& row, std::string_view column) {
    return row.word<bool>(column, {{"yes", true}, {"no", false}});
}

Result<Fault> read_fault(const CsvRow& row) {
    constexpr Range k_weeks{0.0, 520.0};
    Fault it;
    TRY(it.id, row.id("id"));
    TRY(it.name, row.text("name"));
    TRY(it.also, row.list("also", ';'));
    TRY(it.smells_like, row.text("smells_or_tastes_like"));
    TRY(it.cause, row.text("cause"));
    TRY(it.confirm_how, row.text("confirm_how"));
    TRY(it.mends_with_time, row.word<bool>("mends_with_time", {{"months", true}, {"weeks", true}, {"no", false}}));
    TRY(it.mend_low_weeks, row.number_or_empty("mend_low_weeks", k_weeks));
    TRY(it.mend_high_weeks, row.number_or_empty("mend_high_weeks", k_weeks));
    if (it.mends_with_time != it.mend_low_weeks.has_value() || it.mends_with_time != it.mend_high_weeks.has_value())
        return row.refuse("mend_low_weeks", "a span of weeks exactly where time mends the fault");
    if (it.mend_low_weeks.value_or(0.0) > it.mend_high_weeks.value_or(0.0))
        return row.refuse("mend_low_weeks", "no more than mend_high_weeks");
    TRY(it.blocks_pull, yes_or_no(row, "blocks_pull"));
    TRY(it.blocks_packaging, yes_or_no(row, "blocks_packaging"));
    TRY(it.blocks_refilling, yes_or_no(row, "blocks_refilling"));
    TRY(it.blocks_return_to_solera, yes_or_no(row, "blocks_return_to_solera"));
    TRY(it.unsafe, yes_or_no(row, "unsafe"));
    if (it.unsafe && !it.blocks_packaging) return row.refuse("blocks_packaging", "yes, since the fault is unsafe");
    TRY(it.action, row.text("action"));
    TRY(it.caution, row.text_or_empty("caution"));
    TRY(it.mark, read_mark(row));
    TRY(it.source, row.text("source"));
    return it;
}

}  // namespace

Result<const Fault*> find_fault(const std::vector<Fault>& all, std::string_view wanted) {
    return look_up_by_any_word(all, wanted, "fault");
}

Result<std::vector<Fault>> parse_faults(std::string_view csv, std::string file) {
    TRY(std::vector<Fault> all, read_rows<Fault>(csv, file, read_fault));
    TRY_VOID(require_words_of_one_row(all, file));
    return all;
}

}  // namespace undercroft::tables
