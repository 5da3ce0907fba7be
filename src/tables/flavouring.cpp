#include "tables/flavouring.hpp"

#include <numbers>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

Result<Flavouring> read_flavouring(const CsvRow& row) {
    constexpr Range k_dose_range{0.001, 1000.0};
    Flavouring item;
    TRY(item.id, row.id("id"));
    TRY(item.name, row.text("name"));
    TRY(item.form, row.text("form"));
    TRY(item.dose_unit,
        row.word<DoseUnit>("dose_unit", {{"g/L", DoseUnit::g_per_l}, {"mL per kg fruit", DoseUnit::ml_per_kg_fruit}}));
    TRY(item.dose_low, row.number("dose_low", k_dose_range));
    TRY(item.dose_mid, row.number("dose_mid", k_dose_range));
    TRY(item.dose_high, row.number("dose_high", k_dose_range));
    if (item.dose_low > item.dose_mid || item.dose_mid > item.dose_high) {
        return row.refuse("dose_mid", "a dose between dose_low and dose_high");
    }
    TRY(item.days_to_90_percent, row.number("contact_days_to_about_90pct_at_12_to_20C", {0.1, 1000.0}));
    TRY(item.hazard, row.text_or_empty("hazard"));
    TRY(item.limit, row.number_or_empty("limit_value", {0.0, 1000.0}));
    TRY(item.limit_unit, row.text_or_empty("limit_unit"));
    if (item.limit.has_value() == item.limit_unit.empty()) {
        return row.refuse("limit_unit", "a limit with its unit, or neither");
    }
    TRY(item.notes, row.text_or_empty("notes"));
    TRY(item.mark, read_mark(row));
    TRY(item.source, row.text("source_dose"));
    TRY(item.hazard_source, row.text_or_empty("source_hazard"));
    if (item.limit && item.hazard_source.empty()) return row.refuse("source_hazard", "the source of the limit");
    return item;
}

}  // namespace

double Flavouring::rate_per_day() const {
    return std::numbers::ln10 / days_to_90_percent;
}

Result<const Flavouring*> find_flavouring(const std::vector<Flavouring>& all, std::string_view wanted) {
    std::vector<Candidate> candidates;
    candidates.reserve(all.size());
    for (const Flavouring& item : all) candidates.push_back({item.id, item.name, item.form, true, true});
    TRY(const std::size_t index, look_up(candidates, wanted, "flavouring"));
    return &all[index];
}

Result<std::vector<Flavouring>> parse_flavourings(std::string_view csv, std::string file) {
    TRY(std::vector<Flavouring> all, read_rows<Flavouring>(csv, file, read_flavouring));
    TRY_VOID(require_unique(all, file, [](const Flavouring& item) { return item.id; }));
    return all;
}

}  // namespace undercroft::tables
