// One wrong cell in a table that ships is refused, and the error names line and column.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "tables/csv.hpp"
#include "tables/embedded.hpp"
#include "tables/tables.hpp"

namespace undercroft::tables {
namespace {

std::string quoted(const std::string& cell) {
    std::string result = "\"";
    for (const char c : cell) result.append(c == '"' ? "\"\"" : std::string(1, c));
    return result + "\"";
}

// The shipped file with one cell changed, written out again.
std::string with_cell(const std::string& file, const std::string& id, const std::string& column,
                      const std::string& value) {
    const auto table = CsvTable::parse(embedded(file), file);
    EXPECT_TRUE(table.has_value());
    if (!table) return {};
    std::string text;
    for (const std::string& name : table->columns()) text.append(text.empty() ? "" : ",").append(quoted(name));
    bool changed = false;
    for (std::size_t i = 0; i < table->size(); ++i) {
        std::string line;
        const bool here = *table->row(i).text("id") == id;
        for (const std::string& name : table->columns()) {
            const bool this_cell = here && name == column;
            changed = changed || this_cell;
            line.append(line.empty() ? "\n" : ",");
            line.append(quoted(this_cell ? value : *table->row(i).text_or_empty(name)));
        }
        text.append(line);
    }
    EXPECT_TRUE(changed) << file << " has no cell " << id << ", " << column;
    return text;
}

struct BadCell {
    const char* id;
    const char* column;
    const char* value;
};

// Every one is refused; the place is the file and the column where the rule stands.
template <class Parse>
void expect_all_refused(const std::string& file, Parse parse, const std::vector<BadCell>& cells) {
    for (const BadCell& cell : cells) {
        const auto result = parse(with_cell(file, cell.id, cell.column, cell.value), file);
        ASSERT_FALSE(result.has_value()) << file << ": " << cell.id << ", " << cell.column << " = " << cell.value;
        EXPECT_EQ(result.error().kind, ErrorKind::bad_input);
        EXPECT_EQ(result.error().where.rfind(file, 0), 0U) << result.error().where;
        EXPECT_NE(result.error().where.find("column"), std::string::npos) << result.error().where;
        EXPECT_NE(result.error().what.find("expected"), std::string::npos) << result.error().what;
    }
}

TEST(BadRow, WrittenOutAgainUnchangedEveryTableStillLoads) {
    EXPECT_TRUE(parse_fruits(with_cell("fruit.csv", "plum_fresh", "notes", ""), "fruit.csv").has_value());
    EXPECT_TRUE(parse_cultures(with_cell("cultures.csv", "pedio", "notes", ""), "cultures.csv").has_value());
    EXPECT_TRUE(parse_tasks(with_cell("tasks.csv", "pull", "cautions", ""), "tasks.csv").has_value());
}

TEST(BadRow, FruitIsRefused) {
    expect_all_refused("fruit.csv", parse_fruits,
                       {{"plum_fresh", "water_g_per_100g", "eighty"},
                        {"plum_fresh", "water_g_per_100g", "101"},
                        {"plum_fresh", "water_g_per_100g", "90"},   // with its sugars, acids and sorbitol above 100
                        {"plum_fresh", "glucose_g_per_100g", ""},   // a split with a hole
                        {"plum_fresh", "glucose_g_per_100g", "9"},  // more than the total
                        {"plum_fresh", "refuse_percent_of_purchased", "-1"},
                        {"plum_fresh", "juice_pH_low", "4.5"},  // above the high one
                        {"plum_fresh", "source", ""},
                        {"plum_fresh", "id", "pear_fresh"},  // twice
                        {"plum_fresh", "id", "Plum"},
                        {"prune_dried", "fresh_row", "plum"},                   // no such id
                        {"prune_dried", "fresh_row", "raisin_dried_seedless"},  // not fresh
                        {"strawberry_frozen_sweetened_sliced", "added_sugar_g_per_100g", "25"},
                        {"pear_fresh", "row_type", "average"}});
}

TEST(BadRow, FlavouringIsRefused) {
    expect_all_refused("flavourings.csv", parse_flavourings,
                       {{"clove", "dose_mid", "0.5"},  // above dose_high
                        {"clove", "dose_low", "0"},
                        {"clove", "dose_unit", "oz/gal"},
                        {"clove", "mark", "X"},
                        {"clove", "source_dose", ""},
                        {"nutmeg", "limit_unit", ""},
                        {"nutmeg", "source_hazard", ""}});
}

TEST(BadRow, CultureIsRefused) {
    expect_all_refused("cultures.csv", parse_cultures,
                       {{"ale_clean", "apparent_attenuation_high", "70"},    // below the typical one
                        {"ale_clean", "apparent_attenuation_high", "0.82"},  // a share, not per cent
                        {"ale_clean", "lowest_SG_from_1_048", "1.004"},      // not what 82 % leave
                        {"ale_clean", "lowest_SG_from_1_048", ""},           // makes gas, and nobody knows how far
                        {"ale_clean", "stable_days_required", ""},
                        {"ale_clean", "stable_readings_required", "1"},
                        {"ale_clean", "stable_days_if_below_15C", "2"},  // shorter in the cold
                        {"ale_clean", "temp_best_low_C", "35"},
                        {"ale_clean", "makes_gas", "perhaps"},
                        {"ale_clean", "shelf_danger", ""},
                        {"wine_killer_k2", "toxin_type", ""},
                        {"brett_slow", "alive_in_bottle_months_low", "200"},
                        {"brett_slow", "source", " "}});
}

TEST(BadRow, ContainerIsRefused) {
    expect_all_refused("containers.csv", parse_containers,
                       {{"bottle_330_light", "working_limit_bar_gauge_20C", "0"},   // made for pressure
                        {"bottle_330_light", "working_limit_bar_gauge_20C", "12"},  // the test figure is no limit
                        {"keg_steel_low", "working_limit_bar_gauge_20C", "2.8"},  // 2.32 bar at 30 C is above 0.8 of it
                        {"keg_steel_low", "limit_needed_bar_if_30C", "2.5"},
                        {"keg_steel_low", "head_space_assumed", ""},
                        {"keg_steel_low", "volume_mL", "50"},  // litres
                        {"keg_steel_low", "caution", ""}});
}

TEST(BadRow, TaskIsRefused) {
    expect_all_refused("tasks.csv", parse_tasks,
                       {{"pull", "duration_min", "2"},
                        {"pull", "unit", "w"},
                        {"pull", "prerequisites", "decide;dream"},
                        {"pull", "prerequisites", "refill"},  // which waits for the pull
                        {"pull", "lag_after_prerequisite_min_d", "22"},
                        {"pull", "id", "refill"}});
}

TEST(BadRow, AllergenIsRefused) {
    expect_all_refused("allergens.csv", parse_allergens,
                       {{"sulphite", "declare_from_mg_per_L", "ten"},
                        {"celery", "region", "Moon"},
                        {"celery", "id", "mustard"},  // twice in one region
                        {"celery", "source", ""}});
}

TEST(BadRow, ATableWithoutRowsIsRefused) {
    const auto result = parse_allergens("id,region,name\n", "allergens.csv");
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().where, "allergens.csv");
}

}  // namespace
}  // namespace undercroft::tables
