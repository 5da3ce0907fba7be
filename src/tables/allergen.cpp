#include "tables/allergen.hpp"

#include <algorithm>
#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

Result<Allergen> read_allergen(const CsvRow& row) {
    Allergen allergen;
    TRY(allergen.id, row.id("id"));
    TRY(allergen.region, row.word<Region>("region", {{"EU", Region::eu}, {"US", Region::us}}));
    TRY(allergen.name, row.text("name"));
    TRY(allergen.declare_from_mg_per_l, row.number_or_empty("declare_from_mg_per_L", {0.0, 1000.0}));
    TRY(allergen.relevance_to_beer, row.text_or_empty("relevance_to_beer"));
    TRY(allergen.mark, read_mark(row));
    TRY(allergen.source, row.text("source"));
    return allergen;
}

}  // namespace

Result<const Allergen*> find_allergen(const std::vector<Allergen>& all, std::string_view wanted) {
    std::vector<Candidate> candidates;
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < all.size(); ++i) {
        // "milk" stands in two regions and is one thing: the first row speaks for its namesakes.
        const auto same = [&](const Candidate& held) { return held.name == all[i].name; };
        if (std::any_of(candidates.begin(), candidates.end(), same)) continue;
        candidates.push_back({all[i].id, all[i].name, {}, true, true});
        rows.push_back(i);
    }
    TRY(const std::size_t index, look_up(candidates, wanted, "allergen"));
    return &all[rows[index]];
}

const Allergen* allergen_in(const std::vector<Allergen>& all, std::string_view id, Region region) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Allergen& allergen) {
        return allergen.id == id && allergen.region == region;
    });
    return found == all.end() ? nullptr : &*found;
}

Result<std::vector<Allergen>> parse_allergens(std::string_view csv, std::string file) {
    TRY(std::vector<Allergen> all, read_rows<Allergen>(csv, file, read_allergen));
    TRY_VOID(require_unique(all, file, [](const Allergen& allergen) {
        return allergen.id + (allergen.region == Region::eu ? " (EU)" : " (US)");
    }));
    return all;
}

}  // namespace undercroft::tables
