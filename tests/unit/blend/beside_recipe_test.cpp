// What stands beside a recipe: its chance, what still ferments, the bench sheet.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "engine/blend/chance.hpp"
#include "engine/blend/refermentation.hpp"
#include "engine/blend/trials.hpp"
#include "tests/unit/blend/stocks.hpp"

namespace undercroft::engine::blend {
namespace {

Problem two_stocks() {
    Problem problem;
    problem.stocks = {stock("Sure", 100, {{"ta", {6.0, 0.1}}}), stock("Doubtful", 100, {{"ta", {6.0, 2.0}}})};
    Blend blend;
    blend.litres = 10.0;
    blend.wishes = {must("ta", 5.5, 6.5)};
    problem.blends = {blend};
    return problem;
}

TEST(Chance, IsThatOfTheNormalDistribution) {
    const Problem problem = two_stocks();
    // One standard deviation to either side holds 68.27 %, two 95.45 % (any table of the normal distribution).
    const auto inside = [&](double sure, double doubtful, double sd) {
        const Chance chance = chance_of(problem, problem.blends[0], {sure, doubtful}, 1, 100'000).value();
        EXPECT_NEAR(chance.sd.at("ta"), sd, 1e-9);
        return chance.inside;
    };
    EXPECT_NEAR(inside(7.5, 2.5, std::hypot(0.075, 0.5)), 0.6774, 0.006);  // 0.989 standard deviations
    EXPECT_NEAR(inside(8.75, 1.25, std::hypot(0.0875, 0.25)), 0.9409, 0.004);
    EXPECT_DOUBLE_EQ(inside(10.0, 0.0, 0.1), 1.0);
}

TEST(Chance, TheSurestRecipeLeavesTheDoubtfulStockOut) {
    const Problem problem = two_stocks();
    const Surest surest = surest_from(problem, {2.0, 8.0}).value();
    EXPECT_GT(surest.inside, chance_of(problem, problem.blends[0], {2.0, 8.0}).value().inside + 0.5);
    EXPECT_NEAR(surest.made.litres, 10.0, 1e-9);
    EXPECT_LT(litres_of(surest.made, 1), 1.5);
}

TEST(Refermentation, TheCultureOfOneReachesWhatTheOtherLeft) {
    const auto& tables = testing::reference_tables();
    Stock sour_one = stock("Sour", 50, {});
    sour_one.gravity = 1.002;
    sour_one.original_gravity = 1.048;
    sour_one.cultures = {tables.find_culture("mixed_sour").value()};
    Stock sweet = stock("Sweet", 50, {});
    sweet.gravity = 1.016;
    sweet.original_gravity = 1.048;
    sweet.cultures = {tables.find_culture("ale_clean").value()};
    Made made;
    made.litres = 20.0;
    made.parts = {{0, 10.0}, {1, 10.0}};
    const Refermentation together = refermentation_of({sour_one, sweet}, made);
    EXPECT_EQ(together.culture, tables.find_culture("mixed_sour").value()->name);
    EXPECT_GT(together.points, 8.0);
    EXPECT_NEAR(together.volumes, 0.58 * together.points, 1e-9);
    EXPECT_TRUE(together.until_days.has_value());
    made.parts = {{1, 20.0}};
    EXPECT_LT(refermentation_of({sour_one, sweet}, made).points, together.points + 8.0);
    sweet.gravity.reset();
    EXPECT_FALSE(refermentation_of({sour_one, sweet}, made).known);
}

TEST(TrialSheet, PoursWholeGlassesOfTheRecipeAndItsNeighboursUnderCodesThatTellNothing) {
    const std::vector<Stock> stocks = {stock("A", 50, {}), stock("B", 50, {}), stock("C", 50, {})};
    Made made;
    made.litres = 20.0;
    made.parts = {{0, 11.0}, {1, 6.0}, {2, 3.0}};
    TrialWish wish;
    const TrialSheet sheet = trial_sheet(stocks, {made}, wish).value();
    EXPECT_EQ(sheet.glasses.size(), 7U);
    std::set<std::string> codes;
    bool recipe = false;
    for (const Glass& glass : sheet.glasses) {
        double ml = 0.0;
        for (const Pour& pour : glass.pours) {
            ml += pour.ml;
            EXPECT_NEAR(pour.ml, std::round(pour.ml), 1e-9);
        }
        EXPECT_NEAR(ml, 100.0, 1e-9) << glass.what;
        EXPECT_EQ(glass.code.size(), 3U);
        EXPECT_TRUE(codes.insert(glass.code).second);
        if (glass.what == "the recipe") {
            recipe = true;
            EXPECT_NEAR(glass.pours[0].ml, 55.0, 1e-9);
        }
    }
    EXPECT_TRUE(recipe);
    // Neither order nor codes follow the recipe: over seeds the recipe stands anywhere.
    std::set<std::size_t> places;
    for (std::uint64_t seed = 1; seed < 60; ++seed) {
        wish.seed = seed;
        const TrialSheet other = trial_sheet(stocks, {made}, wish).value();
        for (std::size_t i = 0; i < other.glasses.size(); ++i)
            if (other.glasses[i].what == "the recipe") places.insert(i);
    }
    EXPECT_EQ(places.size(), 7U);
}

TEST(TrialSheet, RefusesGlassesThatCannotBePoured) {
    const std::vector<Stock> stocks = {stock("A", 50, {})};
    Made made;
    made.litres = 1.0;
    made.parts = {{0, 1.0}};
    EXPECT_EQ(trial_sheet(stocks, {made}, {.glass_ml = 5.0}).error().where, "glass");
    EXPECT_EQ(trial_sheet(stocks, {made}, {.step = 0.0}).error().where, "neighbours");
    EXPECT_EQ(trial_sheet(stocks, {made}, {.ml_step = 50.0}).error().where, "measure");
    EXPECT_EQ(trial_sheet(stocks, {}, {}).error().where, "recipe");
}

}  // namespace
}  // namespace undercroft::engine::blend
