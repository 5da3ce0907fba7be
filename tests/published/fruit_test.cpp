// Fruit into beer against published composition, a worked addition, and what the trade does.
#include "engine/fruit/fruit.hpp"

#include <gtest/gtest.h>

#include <string>

#include "chem/sugar.hpp"
#include "engine/fruit/plan.hpp"
#include "tests/support/reference_tables.hpp"

namespace undercroft::engine::fruit {
namespace {

using testing::reference_tables;

constexpr Day k_pull{std::chrono::year{2026}, std::chrono::month{3}, std::chrono::day{14}};

FruitAddition bought(const char* fruit, double kilograms, const FruitOptions& options = {}) {
    return resolve(reference_tables(), *reference_tables().find_fruit(fruit).value(),
                   Mass::from_grams(kilograms * 1000.0), options)
        .value();
}

Beer beer(double litres, double abv) {
    return {Volume::from_litres(litres), 1.008, abv, {reference_tables().find_culture("mixed_sour").value()}};
}

TEST(PublishedFruit, HundredGramsOfItBringTheSugarsUsdaPrints) {
    // USDA National Nutrient Database SR26, NDB 09063, 09070, 09302, 09236, 09021, 09279: glucose, fructose, sucrose.
    struct Row {
        const char* fruit;
        double edible, glucose, fructose, sucrose;
    };
    constexpr Row rows[] = {
        {"sour_cherry_fresh", 0.90, 4.18, 3.51, 0.80}, {"sweet_cherry_fresh", 0.92, 6.59, 5.37, 0.15},
        {"raspberry_fresh", 0.96, 1.86, 2.35, 0.20},   {"peach_fresh", 0.96, 1.95, 1.53, 4.76},
        {"apricot_fresh", 0.93, 2.37, 0.94, 5.87},     {"plum_fresh", 0.94, 5.07, 3.07, 1.57}};
    for (const Row& row : rows) {
        const FruitContents contents = bought(row.fruit, 0.1 / row.edible).contents;
        // The mass bought is rounded to whole milligrams: 1e-5 of 100 g.
        EXPECT_NEAR(contents.glucose, row.glucose, 1e-4) << row.fruit;
        EXPECT_NEAR(contents.fructose, row.fructose, 1e-4) << row.fruit;
        EXPECT_NEAR(contents.sucrose, row.sucrose, 1e-4) << row.fruit;
    }
}

TEST(PublishedFruit, TwoKilogramsOfSourCherryHoldWhatTheWorkedSumSays) {
    // Worked by hand from USDA 09063 (10 % refuse) and molar masses: 1.8 kg edible. Each to the last digit given.
    const FruitAddition cherry = bought("sour_cherry_fresh", 2.0);
    EXPECT_EQ(cherry.edible, Mass::from_grams(1800.0));
    EXPECT_NEAR(cherry.contents.hexose, 153.6, 0.05);
    EXPECT_NEAR(cherry.contents.water, 1550.0, 0.5);
    EXPECT_NEAR(cherry.contents.water / 998.2, 1.553, 0.0005);
    EXPECT_NEAR(cherry.contents.malic.value(), 32.4, 0.05);
    // 32.4 g / 134.087 g/mol x 2 = 483.3 meq, and 2.8 meq of citric acid with it.
    EXPECT_NEAR(cherry.acid_meq, 483.3 + 2.8, 0.1);
    // 173 mg per 100 g (USDA SR, from memory).
    EXPECT_NEAR(cherry.contents.potassium.value(), 3.114, 0.0005);
}

TEST(PublishedFruit, TenLitresOnTwoKilogramsOfSourCherryEndAsTheWorkedSumSays) {
    const FruitAddition cherry = bought("sour_cherry_fresh", 2.0);
    const FruitPlan onto = plan(reference_tables(), cherry, beer(10.0, 6.0), Way::onto_beer, k_pull).value();
    EXPECT_NEAR(onto.ethanol_from_fruit_g, 78.5, 0.06);  // 153.6 x 0.5114 is 78.55
    // The sum counts 1.17 mL per gram of ethanol (0.092 L), the book 0.62 mL per gram of sugar (0.095 L): 3 mL apart.
    EXPECT_NEAR(onto.mixed_volume.in_litres(), 11.65, 0.005);
    EXPECT_NEAR(onto.final_abv, 6.01, 0.006);
    EXPECT_NEAR(onto.gas_if_closed_volumes, 3.26, 0.005);
    // Malic acid, all to lactic by bacteria: another 0.46 volumes; all of it at worst twice that.
    const double malolactic = 32.4 * chem::k_co2_per_malic_by_bacteria / 11.648 / 1.9768;
    EXPECT_NEAR(malolactic, 0.46, 0.005);
    EXPECT_GT(onto.gas_worst_volumes, onto.gas_if_closed_volumes + 2.0 * 0.46);
    // Room: 1.9 L of fruit in 10 L, 80 % full.
    EXPECT_NEAR(onto.least_vessel.in_litres(), 11.9 / 0.80, 1e-6);
}

TEST(PublishedFruit, CarbonDioxideFillsARoomAsTheSafetyFigureSays) {
    // Derived, ideal gas at 20 °C: 1 kg of CO2 in 100 m3 is 5500 ppm, so 11 ppm per gram in 50 m3 (printed to 100 ppm).
    const FruitPlan p =
        plan(reference_tables(), bought("sour_cherry_fresh", 2.0), beer(10.0, 6.0), Way::pre_fermented, k_pull).value();
    EXPECT_NEAR(p.co2_ppm / p.co2_g, 11.0, 0.1);
    EXPECT_NEAR(p.co2_g, 75.0, 0.1);
}

TEST(PublishedFruit, SulphuredApricotsReachTheLimitOfBeerAtTenGramsALitre) {
    // 2000 mg SO2 per kg (additive rule quoted in a Codex note): 10 g/L bring 20 mg/L.
    const FruitAddition apricot = bought("apricot_dried_sulfured", 0.1);
    EXPECT_NEAR(apricot.sulphite_at_most.value().in_grams() * 1000.0 / 10.0, 20.0, 0.01);
    ASSERT_EQ(apricot.allergens.size(), 1u);
    EXPECT_EQ(apricot.allergens[0].group, "sulphite");
    EXPECT_TRUE(apricot.allergens[0].mg_per_litre.has_value());
}

TEST(PublishedFruit, ApplesGiveUnder200MilligramsOfMethanolALitre) {
    // Derived from Belitz Table 18.3 (pectin 0.6 g per 100 g): 200 g/L of edible apple, every unit methylated.
    const FruitPlan p =
        plan(reference_tables(), bought("apple_fresh_with_skin", 2.0 / 0.9), beer(10.0, 6.0), Way::onto_beer, k_pull)
            .value();
    for (const Term& term : p.terms) {
        if (term.name != "methanol from pectin, at most") continue;
        EXPECT_LT(term.value, 200.0);
        EXPECT_GT(term.value, 150.0);
        return;
    }
    FAIL() << "no methanol term";
}

// --- common practice, no source ----------------------------------------------------------------

TEST(CommonPracticeInFruit, AHundredAndSixtyGramsOfStoneFruitALitreAreAMediumDose) {
    // common practice, no source
    const tables::Flavouring* medium = reference_tables().find_flavouring("fruit_medium").value();
    EXPECT_LE(medium->dose_low, 160.0);
    EXPECT_GE(medium->dose_high, 160.0);
    // At that dose the fruit neither waters the beer down nor makes it stronger by more than half a percent.
    for (const char* fruit : {"sour_cherry_fresh", "plum_fresh", "apricot_fresh", "peach_fresh"}) {
        const FruitPlan p =
            plan(reference_tables(), bought(fruit, 1.6), beer(10.0, 6.0), Way::onto_beer, k_pull).value();
        EXPECT_NEAR(p.final_abv, 6.0, 0.5) << fruit;
    }
}

TEST(CommonPracticeInFruit, EightHoursAWeekAndTwoMonthsComeOutOfTheDates) {
    // common practice, no source: pectinase for eight hours, a week of fermentation, two months on the fruit.
    const FruitPlan p =
        plan(reference_tables(), bought("sour_cherry_fresh", 2.0), beer(10.0, 6.0), Way::pre_fermented, k_pull).value();
    const auto find = [&](const std::string& id) -> const PlannedTask& {
        for (const PlannedTask& task : p.dates) {
            if (task.task == id) return task;
        }
        ADD_FAILURE() << id;
        return p.dates.front();
    };
    EXPECT_EQ(find("enzyme").lasts, "8 h");
    EXPECT_EQ(find("enzyme").day, find("pitch_fruit_yeast").day);
    EXPECT_EQ(days_between(find("fruit_ferment").day, find("fruit_check").day), 7);
    EXPECT_EQ(find("pull").day, k_pull);
    EXPECT_EQ(find("rack_onto_fruit").day, k_pull);
    EXPECT_EQ(days_between(k_pull, find("rack_off_fruit").day), 60);
}

}  // namespace
}  // namespace undercroft::engine::fruit
