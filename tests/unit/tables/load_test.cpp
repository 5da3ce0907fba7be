// The tables that ship: every row has an id and a source, and its sums come out.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>
#include <string>

#include "tables/csv.hpp"
#include "tables/embedded.hpp"
#include "tables/tables.hpp"
#include "tests/support/reference_tables.hpp"

namespace undercroft::tables {
namespace {

using testing::reference_tables;

std::string text_of(const Error& error) {
    return error.where + ": " + error.what;
}

CsvTable raw(const std::string& name) {
    auto table = CsvTable::parse(embedded(name), name);
    EXPECT_TRUE(table.has_value()) << (table ? std::string() : text_of(table.error()));
    return table ? std::move(*table) : CsvTable();
}

TEST(ShippedTables, LoadWholeAndValid) {
    const Result<Tables> tables = load();
    ASSERT_TRUE(tables.has_value()) << text_of(tables.error());
    EXPECT_EQ(tables->fruits.size(), 53U);
    EXPECT_EQ(tables->flavourings.size(), 33U);
    EXPECT_EQ(tables->cultures.size(), 17U);
    EXPECT_EQ(tables->containers.size(), 25U);
    EXPECT_EQ(tables->tasks.size(), 56U);
    EXPECT_EQ(tables->allergens.size(), 24U);
}

template <class T>
void expect_ids_and_sources(const std::vector<T>& rows) {
    ASSERT_FALSE(rows.empty());
    for (const T& row : rows) {
        EXPECT_FALSE(row.id.empty());
        EXPECT_FALSE(row.name.empty()) << row.id;
        EXPECT_FALSE(row.source.empty()) << row.id;
    }
}

TEST(ShippedTables, EveryRowSaysWhereItComesFrom) {
    expect_ids_and_sources(reference_tables().fruits);
    expect_ids_and_sources(reference_tables().flavourings);
    expect_ids_and_sources(reference_tables().cultures);
    expect_ids_and_sources(reference_tables().containers);
    expect_ids_and_sources(reference_tables().tasks);
    expect_ids_and_sources(reference_tables().allergens);
}

TEST(ShippedTables, EveryFilledGroupOfFruitFiguresNamesItsSource) {
    const CsvTable table = raw("fruit.csv");
    const std::pair<const char*, const char*> k_pairs[] = {{"total_sugars_g_per_100g", "source_sugars"},
                                                           {"citric_g_per_100g", "source_acids"},
                                                           {"juice_pH_low", "source_pH"},
                                                           {"juice_brix_degBx", "source_brix"},
                                                           {"potassium_mg_per_100g", "source_potassium"}};
    for (std::size_t i = 0; i < table.size(); ++i) {
        for (const auto& [figure, source] : k_pairs) {
            if (table.row(i).text_or_empty(figure)->empty()) continue;
            EXPECT_TRUE(table.row(i).text(source).has_value()) << "line " << table.row(i).line() << ": " << source;
        }
    }
}

TEST(ShippedTables, TheHexoseColumnIsTheSumOfTheSplitSugars) {
    // Disaccharides take up one water: x 360.312/342.297 (molar masses).
    const CsvTable table = raw("fruit.csv");
    const Range any{0.0, 100.0};
    int checked = 0;
    for (std::size_t i = 0; i < table.size(); ++i) {
        const CsvRow row = table.row(i);
        const auto printed = *row.number_or_empty("hexose_equivalent_g_per_100g_calc", any);
        const auto glucose = *row.number_or_empty("glucose_g_per_100g", any);
        EXPECT_EQ(printed.has_value(), glucose.has_value()) << "line " << row.line();
        if (!printed || !glucose) continue;
        const double own =
            *glucose + *row.number("fructose_g_per_100g", any) +
            (*row.number("sucrose_g_per_100g", any) + row.number_or_empty("maltose_g_per_100g", any)->value_or(0.0)) *
                360.312 / 342.297;
        EXPECT_NEAR(*printed, own, 0.001) << "line " << row.line();  // printed to three decimals
        ++checked;
    }
    EXPECT_GE(checked, 40);
}

TEST(ShippedTables, TheSpecificGravityOfJuiceIsThatOfItsBrix) {
    // SG 20/20 = 1 + B / (258.6 - 227.1 B / 258.2): the common short form of the sucrose tables.
    const CsvTable table = raw("fruit.csv");
    int checked = 0;
    for (std::size_t i = 0; i < table.size(); ++i) {
        const auto brix = *table.row(i).number_or_empty("juice_brix_degBx", {0.0, 40.0});
        const auto gravity = *table.row(i).number_or_empty("juice_SG_20_20_calc", {1.0, 1.2});
        EXPECT_EQ(brix.has_value(), gravity.has_value());
        if (!brix || !gravity) continue;
        EXPECT_NEAR(*gravity, 1.0 + *brix / (258.6 - 227.1 * *brix / 258.2), 0.00006);  // printed to four decimals
        ++checked;
    }
    EXPECT_GE(checked, 30);
}

TEST(ShippedTables, TheRateOfASpiceIsThatOfItsDaysToNinetyPercent) {
    const CsvTable table = raw("flavourings.csv");
    ASSERT_EQ(table.size(), reference_tables().flavourings.size());
    for (std::size_t i = 0; i < table.size(); ++i) {
        const double printed = *table.row(i).number("first_order_k_per_day_calc", {0.0, 10.0});
        // Printed to four decimals.
        EXPECT_NEAR(printed, reference_tables().flavourings[i].rate_per_day(), 0.0001)
            << reference_tables().flavourings[i].id;
    }
}

TEST(ShippedTables, ACompositeRowOfFreshFruitIsMostlyWaterAndNeverLacksItsSugars) {
    for (const Fruit& fruit : reference_tables().fruits) {
        if (fruit.form != FruitForm::fresh || fruit.row_type != RowType::composite) continue;
        ASSERT_TRUE(fruit.water.has_value()) << fruit.id;
        EXPECT_GT(*fruit.water, 70.0) << fruit.id;
        // The one fresh row nobody analysed for sugar.
        EXPECT_EQ(fruit.total_sugars.has_value(), fruit.id != "hibiscus_roselle_fresh_calyx") << fruit.id;
    }
}

TEST(ShippedTables, NoContainerMadeForPressureHasALimitOfZeroAndNoOtherHasOneAboveZero) {
    for (const ContainerKind& container : reference_tables().containers) {
        if (container.pressure_container) {
            EXPECT_NE(container.working_limit_bar, 0.0) << container.id;
        } else {
            EXPECT_LE(container.working_limit_bar.value_or(0.0), 0.0) << container.id;
        }
    }
}

TEST(ShippedTables, OnlyLimitsThatAStandardOrAReliefValveStandsForAreKnown) {
    std::set<std::string> known;
    for (const ContainerKind& container : reference_tables().containers) {
        if (container.working_limit_bar.value_or(0.0) > 0.0) known.insert(container.id);
    }
    // British Glass TEC 7; DIN 6647-1, -2, -4; the relief band of a plastic barrel.
    EXPECT_EQ(known, (std::set<std::string>{"bottle_750_1000_multitrip", "keg_one_way", "keg_steel_high",
                                            "keg_steel_low", "pressure_barrel"}));
}

TEST(ShippedTables, TheWildCultureIsAtLeastAsBadAsEveryOther) {
    const auto wild = reference_tables().find_culture("wild_unknown");
    ASSERT_TRUE(wild.has_value());
    for (const CultureKind& culture : reference_tables().cultures) {
        EXPECT_LE(*(*wild)->lowest_gravity_from_1_048, culture.lowest_gravity_from_1_048.value_or(2.0)) << culture.id;
        EXPECT_GE(*(*wild)->stable_days, culture.stable_days.value_or(0.0)) << culture.id;
        EXPECT_GE((*wild)->alive_in_bottle_months_high, culture.alive_in_bottle_months_high) << culture.id;
    }
}

TEST(ShippedTables, TheTwoTaskPathsToPackagingBothStartWithATasting) {
    const auto pull = reference_tables().find_task("pull");
    ASSERT_TRUE(pull.has_value());
    EXPECT_EQ((*pull)->prerequisites, (std::vector<std::vector<std::string>>{{"decide"}, {"clean_sanitise"}}));
    const auto refill = reference_tables().find_task("refill");
    ASSERT_TRUE(refill.has_value());
    EXPECT_EQ((*refill)->prerequisites, (std::vector<std::vector<std::string>>{{"pull"}, {"cool_young", "chill"}}));
}

TEST(ShippedTables, EuropeNamesFourteenAllergensAndTheStatesNineAndSulphite) {
    // Reg. (EU) 1169/2011 Annex II; FALCPA 2004 and FASTER Act 2021 (nine); sulphites 27 CFR 7.63 (from memory).
    int eu = 0;
    int us = 0;
    for (const Allergen& allergen : reference_tables().allergens) ++(allergen.region == Region::eu ? eu : us);
    EXPECT_EQ(eu, 14);
    EXPECT_EQ(us, 9 + 1);
    for (const Region region : {Region::eu, Region::us}) {
        const Allergen* sulphite = allergen_in(reference_tables().allergens, "sulphite", region);
        ASSERT_NE(sulphite, nullptr);
        EXPECT_EQ(sulphite->declare_from_mg_per_l, 10.0);
    }
    EXPECT_EQ(allergen_in(reference_tables().allergens, "gluten", Region::us), nullptr);
}

}  // namespace
}  // namespace undercroft::tables
