#include "tables/fruit.hpp"

#include <algorithm>
#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"

namespace undercroft::tables {

namespace {

// Molar mass of two hexoses over one disaccharide: 2 x 180.156 / 342.297 (one water is taken up).
constexpr double k_hexose_per_disaccharide = 360.312 / 342.297;

// A published total may lie this far below the sum of its own sugars: each of five figures is rounded to 0.01
// to 0.1 g, and some tables round the total alone.
constexpr double k_rounding_g = 0.1;

FruitForm form_of(std::string_view text) {
    const std::vector<std::string> words = words_of(text);
    const auto says = [&](std::string_view word) { return std::find(words.begin(), words.end(), word) != words.end(); };
    if (says("dried") || says("dry")) return FruitForm::dried;
    if (says("frozen")) return FruitForm::frozen;
    if (says("canned")) return FruitForm::canned;
    if (says("juice")) return FruitForm::juice;
    return FruitForm::fresh;
}

Result<void> check_sums(const CsvRow& row, const Fruit& fruit) {
    const bool whole_split = fruit.glucose && fruit.fructose && fruit.sucrose;
    const bool no_split = !fruit.glucose && !fruit.fructose && !fruit.sucrose && !fruit.maltose;
    if (!whole_split && !no_split) {
        return row.refuse("glucose_g_per_100g", "glucose, fructose and sucrose together, or none of them");
    }
    if (whole_split) {
        const double split = *fruit.glucose + *fruit.fructose + *fruit.sucrose + fruit.maltose.value_or(0.0);
        if (!fruit.total_sugars || split > *fruit.total_sugars + k_rounding_g) {
            return row.refuse("total_sugars_g_per_100g", "at least the sum of the single sugars");
        }
    }
    if (fruit.added_sugar > fruit.total_sugars.value_or(0.0)) {
        return row.refuse("added_sugar_g_per_100g", "no more than the total sugars");
    }
    const double sum = fruit.water.value_or(0.0) + fruit.total_sugars.value_or(0.0) + fruit.sorbitol.value_or(0.0) +
                       fruit.citric.value_or(0.0) + fruit.malic.value_or(0.0) + fruit.tartaric.value_or(0.0);
    if (sum > 100.0) {
        return row.refuse("water_g_per_100g", "water, sugars, acids and sorbitol to sum to at most 100");
    }
    if (fruit.juice_pH_low.has_value() != fruit.juice_pH_high.has_value() ||
        fruit.juice_pH_low.value_or(0.0) > fruit.juice_pH_high.value_or(0.0)) {
        return row.refuse("juice_pH_low", "two pH values, the lower first, or none");
    }
    return {};
}

Result<Fruit> read_fruit(const CsvRow& row) {
    constexpr Range k_pH_range{1.5, 8.0};
    Fruit fruit;
    TRY(fruit.id, row.id("id"));
    TRY(fruit.name, row.text("fruit"));
    TRY(fruit.form_text, row.text("form"));
    fruit.form = form_of(fruit.form_text);
    TRY(fruit.row_type,
        row.word<RowType>("row_type", {{"composite", RowType::composite}, {"single_record", RowType::single_record}}));
    TRY(fruit.fresh_row, row.text_or_empty("fresh_row"));
    TRY(const std::optional<double> refuse_percent, row.number_or_empty("refuse_percent_of_purchased", {0.0, 90.0}));
    if (refuse_percent) fruit.edible_share = 1.0 - *refuse_percent / 100.0;
    TRY(fruit.refuse, row.text_or_empty("refuse_what"));
    TRY(fruit.water, row.number_or_empty("water_g_per_100g", k_percent_range));
    TRY(fruit.total_sugars, row.number_or_empty("total_sugars_g_per_100g", k_percent_range));
    TRY(fruit.glucose, row.number_or_empty("glucose_g_per_100g", k_percent_range));
    TRY(fruit.fructose, row.number_or_empty("fructose_g_per_100g", k_percent_range));
    TRY(fruit.sucrose, row.number_or_empty("sucrose_g_per_100g", k_percent_range));
    TRY(fruit.maltose, row.number_or_empty("maltose_g_per_100g", k_percent_range));
    TRY(const std::optional<double> added, row.number_or_empty("added_sugar_g_per_100g", k_percent_range));
    fruit.added_sugar = added.value_or(0.0);
    TRY(fruit.sorbitol, row.number_or_empty("sorbitol_g_per_100g_NOT_yeast_fermentable", k_percent_range));
    TRY(fruit.citric, row.number_or_empty("citric_g_per_100g", k_percent_range));
    TRY(fruit.malic, row.number_or_empty("malic_g_per_100g", k_percent_range));
    TRY(fruit.tartaric, row.number_or_empty("tartaric_g_per_100g", k_percent_range));
    TRY(fruit.pectin, row.number_or_empty("pectin_g_per_100g_as_Ca_pectate", k_percent_range));
    TRY(const std::optional<double> potassium_mg, row.number_or_empty("potassium_mg_per_100g", {0.0, 3000.0}));
    if (potassium_mg) fruit.potassium = *potassium_mg / 1000.0;
    TRY(fruit.juice_pH_low, row.number_or_empty("juice_pH_low", k_pH_range));
    TRY(fruit.juice_pH_high, row.number_or_empty("juice_pH_high", k_pH_range));
    TRY(fruit.juice_brix, row.number_or_empty("juice_brix_degBx", {0.0, 40.0}));
    TRY(fruit.notes, row.text_or_empty("notes"));
    TRY(fruit.source, row.text("source"));
    TRY_VOID(check_sums(row, fruit));
    return fruit;
}

Result<void> check_fresh_rows(const std::vector<Fruit>& fruits, const std::string& file) {
    for (const Fruit& fruit : fruits) {
        if (fruit.fresh_row.empty()) continue;
        const auto found =
            std::find_if(fruits.begin(), fruits.end(), [&](const Fruit& other) { return other.id == fruit.fresh_row; });
        if (found == fruits.end() || found->row_type != RowType::composite || found->form != FruitForm::fresh) {
            return fail(ErrorKind::bad_input, file + ", column fresh_row of \"" + fruit.id + "\"",
                        "\"" + fruit.fresh_row + "\": expected the id of a composite row of fresh fruit.");
        }
    }
    return {};
}

// Dry matter without the packer's sugar, g per 100 g; nullopt when the water is not known.
std::optional<double> own_dry_matter(const Fruit& fruit) {
    if (!fruit.water) return std::nullopt;
    return 100.0 - *fruit.water - fruit.added_sugar;
}

Estimated estimate(const std::optional<double>& own, const std::optional<double>& fresh, std::optional<double> ratio) {
    if (own) return {own, Estimated::Basis::own_row};
    if (fresh && ratio) return {*fresh * *ratio, Estimated::Basis::fresh_row_scaled};
    return {};
}

}  // namespace

double FruitSugars::hexose_equivalent() const {
    return glucose + fructose + (sucrose + maltose + unassigned) * k_hexose_per_disaccharide;
}

std::optional<FruitSugars> sugars_of(const Fruit& fruit, const Fruit* fresh) {
    if (!fruit.total_sugars) return std::nullopt;
    FruitSugars sugars;
    if (fruit.glucose && fruit.fructose && fruit.sucrose) {
        sugars = {*fruit.glucose,
                  *fruit.fructose,
                  *fruit.sucrose,
                  fruit.maltose.value_or(0.0),
                  0.0,
                  FruitSugars::Split::own_row};
        const double split = sugars.glucose + sugars.fructose + sugars.sucrose + sugars.maltose;
        sugars.unassigned = std::max(0.0, *fruit.total_sugars - split);
        return sugars;
    }
    const double natural = *fruit.total_sugars - fruit.added_sugar;
    if (fresh != nullptr && fresh->glucose && fresh->fructose && fresh->sucrose) {
        const double fresh_maltose = fresh->maltose.value_or(0.0);
        const double sum = *fresh->glucose + *fresh->fructose + *fresh->sucrose + fresh_maltose;
        if (sum > 0.0) {
            const double scale = natural / sum;
            return FruitSugars{*fresh->glucose * scale,
                               *fresh->fructose * scale,
                               *fresh->sucrose * scale + fruit.added_sugar,
                               fresh_maltose * scale,
                               0.0,
                               FruitSugars::Split::fresh_row_ratio};
        }
    }
    sugars.unassigned = natural;
    sugars.sucrose = fruit.added_sugar;
    return sugars;
}

FruitComposition composition_of(const Fruit& fruit, const Fruit* fresh) {
    FruitComposition result;
    result.water = fruit.water;
    result.sugars = sugars_of(fruit, fresh);
    static const Fruit k_nothing_known;
    const Fruit& model = fresh != nullptr ? *fresh : k_nothing_known;
    std::optional<double> ratio;
    const std::optional<double> dry = own_dry_matter(fruit);
    const std::optional<double> fresh_dry = own_dry_matter(model);
    if (dry && fresh_dry && *fresh_dry > 0.0) ratio = *dry / *fresh_dry;
    result.sorbitol = estimate(fruit.sorbitol, model.sorbitol, ratio);
    result.citric = estimate(fruit.citric, model.citric, ratio);
    result.malic = estimate(fruit.malic, model.malic, ratio);
    result.tartaric = estimate(fruit.tartaric, model.tartaric, ratio);
    result.pectin = estimate(fruit.pectin, model.pectin, ratio);
    result.potassium = estimate(fruit.potassium, model.potassium, ratio);
    return result;
}

Result<const Fruit*> find_fruit(const std::vector<Fruit>& fruits, std::string_view wanted) {
    std::vector<Candidate> candidates;
    candidates.reserve(fruits.size());
    for (const Fruit& fruit : fruits) {
        candidates.push_back({fruit.id, fruit.name, fruit.form_text, fruit.form == FruitForm::fresh,
                              fruit.row_type == RowType::composite});
    }
    TRY(const std::size_t index, look_up(candidates, wanted, "fruit"));
    return &fruits[index];
}

const Fruit* fresh_row_of(const std::vector<Fruit>& fruits, const Fruit& fruit) {
    const bool is_fresh = fruit.row_type == RowType::composite && fruit.form == FruitForm::fresh;
    const std::string& id = is_fresh ? fruit.id : fruit.fresh_row;
    const auto found = std::find_if(fruits.begin(), fruits.end(), [&](const Fruit& other) { return other.id == id; });
    return found == fruits.end() ? nullptr : &*found;
}

Result<std::vector<Fruit>> parse_fruits(std::string_view csv, std::string file) {
    TRY(std::vector<Fruit> fruits, read_rows<Fruit>(csv, file, read_fruit));
    TRY_VOID(require_unique(fruits, file, [](const Fruit& fruit) { return fruit.id; }));
    TRY_VOID(check_fresh_rows(fruits, file));
    return fruits;
}

}  // namespace undercroft::tables
