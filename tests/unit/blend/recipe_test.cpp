// Blends that are known by other means, and what must hold of all of them.
#include "engine/blend/recipe.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>

#include "engine/blend/conflict.hpp"
#include "tests/unit/blend/stocks.hpp"

namespace undercroft::engine::blend {
namespace {

Problem of(std::vector<Stock> stocks, double litres, std::vector<Wish> wishes) {
    Problem problem;
    problem.stocks = std::move(stocks);
    Blend blend;
    blend.litres = litres;
    blend.wishes = std::move(wishes);
    problem.blends = {std::move(blend)};
    return problem;
}

Found found(const Problem& problem, const Asking& asking = {}) {
    auto result = find_blend(problem, asking);
    EXPECT_TRUE(result) << result.error().what;
    return result ? std::move(*result) : Found{};
}

// The square of the trade, common practice: for 6 % of 9 % and 5 %, 1 part and 3 parts.
TEST(Recipe, IsThePearsonSquareForTwoStocksAndOneFigure) {
    const Found best =
        found(of({stock("Strong", 100, {{"alcohol", {9.0, 0.0}}}), stock("Weak", 100, {{"alcohol", {5.0, 0.0}}})}, 20.0,
                 {want("alcohol", 6.0, 6.0)}));
    EXPECT_TRUE(best.proven);
    EXPECT_NEAR(litres_of(best.recipes[0].made[0], 0), 5.0, 1e-6);
    EXPECT_NEAR(litres_of(best.recipes[0].made[0], 1), 15.0, 1e-6);
    EXPECT_NEAR(best.recipes[0].cost, 0.0, 1e-9);
}

TEST(Recipe, OfOneStockIsThatStock) {
    const Found best =
        found(of({sour("Amber", 40, 3.4, 6.0)}, 10.0, {want("ph", 3.2, 3.2, 0.1), want("ta", 5.0, 5.0)}));
    const Made& made = best.recipes[0].made[0];
    ASSERT_EQ(made.parts.size(), 1U);
    EXPECT_NEAR(made.figures.at("ta"), 6.0, 1e-9);
    EXPECT_NEAR(made.figures.at("ph"), chem::AcidSystem().ph(*sour("Amber", 40, 3.4, 6.0).acids).value(), 1e-9);
}

TEST(Recipe, MeetsAPhByChargeWherePhDoesNotAverage) {
    const Problem problem =
        of({sour("Sharp", 50, 3.1, 9.0), sour("Soft", 50, 4.2, 2.0)}, 20.0, {must("ph", 3.45, 3.45)});
    const Found best = found(problem);
    const Made& made = best.recipes[0].made[0];
    EXPECT_NEAR(made.figures.at("ph"), 3.45, 1e-3);
    const double by_average = 20.0 * (4.2 - 3.45) / (4.2 - 3.1);
    EXPECT_GT(std::abs(litres_of(made, 0) - by_average), 1.0) << "an average of pH would be off by more than a litre";
}

// NIST's equimolal phosphate standard: pH 6.881 at 20 °C (NIST SP 260-53, from memory), of KH2PO4 and Na2HPO4 one to
// one.
TEST(Recipe, MixesTheHalvesOfAStandardBufferOneToOne) {
    const auto phosphate = [](const char* name, double strong_ions) {
        Stock one = stock(name, 50, {});
        one.acids = chem::AcidMix{};
        (*one.acids)[chem::Acid::phosphoric] = 0.05;
        one.acids->strong_ions = strong_ions;
        return one;
    };
    const Made made =
        found(of({phosphate("KH2PO4", 0.05), phosphate("Na2HPO4", 0.10)}, 20.0, {must("ph", 6.881, 6.881)}))
            .recipes[0]
            .made[0];
    EXPECT_NEAR(litres_of(made, 0), 10.0, 0.3) << "0.03 of pH is a seventieth of the volume";
    EXPECT_NEAR(made.figures.at("ph"), 6.881, 1e-3);
}

// TA is mixed by volume: how far that is from titrating the blend (docs/models/blend.md).
TEST(Recipe, TheAcidityOfABlendIsNearlyLinear) {
    std::mt19937 bits(20260314);
    std::uniform_real_distribution<double> any(0.0, 1.0);
    const chem::AcidSystem system;
    double most = 0.0;
    for (int trial = 0; trial < 200; ++trial) {
        const Stock a = sour("A", 10, 3.1 + 0.9 * any(bits), 2.0 + 7.0 * any(bits), 4.0 + 6.0 * any(bits));
        const Stock b = sour("B", 10, 3.1 + 0.9 * any(bits), 2.0 + 7.0 * any(bits), 4.0 + 6.0 * any(bits));
        const double part = any(bits);
        const std::vector<chem::BlendPart> parts = {{*a.acids, part}, {*b.acids, 1.0 - part}};
        const double titrated = system.titratable(chem::blend(parts).value()).value();
        const double linear =
            part * system.titratable(*a.acids).value() + (1.0 - part) * system.titratable(*b.acids).value();
        most = std::max(most, 90.078 * std::abs(titrated - linear));
    }
    std::printf("figure: acidity of a blend: at most %.4f g/L from linear\n", most);
    EXPECT_LT(most, 0.05) << "a burette reads 0.2";
}

TEST(Recipe, KeepsWhatIsHeldKeptBackAndLeastDrawn) {
    Problem problem = of({stock("A", 12, {{"ta", {9.0, 0.0}}}), stock("B", 30, {{"ta", {3.0, 0.0}}}),
                          stock("C", 30, {{"ta", {6.0, 0.0}}})},
                         20.0, {want("ta", 6.5, 6.5)});
    problem.stocks[0].keep_back = 8.0;
    problem.blends[0].least_draw = 3.0;
    problem.blends[0].most_stocks = 2;
    const Made made = found(problem).recipes[0].made[0];
    EXPECT_LE(litres_of(made, 0), 4.0 + 1e-9);
    EXPECT_LE(made.parts.size(), 2U);
    for (const Part& part : made.parts) EXPECT_GE(part.litres, 3.0 - 1e-9);
    EXPECT_NEAR(made.litres, 20.0, 1e-6);
}

TEST(Recipe, UsesWhatItMustAllOrNothingAndNothingOfWhatIsExcluded) {
    Problem problem = of({stock("Keg", 7.3, {{"ta", {5.0, 0.0}}}), stock("B", 30, {{"ta", {3.0, 0.0}}}),
                          stock("C", 30, {{"ta", {6.0, 0.0}}})},
                         20.0, {want("ta", 6.0, 6.0)});
    problem.uses = {{"Keg", 1.0, false, false}, {"Keg", 0.0, true, false}, {"C", 0.0, false, true}};
    problem.step = 0.5;
    const Made made = found(problem).recipes[0].made[0];
    EXPECT_NEAR(litres_of(made, 0), 7.3, 1e-9) << "a keg that is emptied is not measured out";
    EXPECT_EQ(litres_of(made, 2), 0.0);
}

TEST(Recipe, IsRoundedToWhatCanBeMeasuredAndEveryLimitStillHolds) {
    Problem problem = of({sour("A", 40, 3.2, 8.0), sour("B", 40, 3.9, 3.0), sour("C", 40, 3.5, 5.0)}, 19.0,
                         {must("ph", 3.40, 3.55), want("ta", 5.0, 5.2)});
    problem.step = 0.5;
    const Made made = found(problem).recipes[0].made[0];
    for (const Part& part : made.parts) EXPECT_NEAR(std::remainder(part.litres, 0.5), 0.0, 1e-9) << part.litres;
    EXPECT_NEAR(made.litres, 19.0, 1e-9);
    EXPECT_GE(made.figures.at("ph"), 3.40 - 1e-3);
    EXPECT_LE(made.figures.at("ph"), 3.55 + 1e-3);
}

TEST(Recipe, TheNextBestDifferByTheShareThatWasAsked) {
    std::vector<Stock> stocks;
    for (int i = 0; i < 6; ++i)
        stocks.push_back(
            stock("S" + std::to_string(i), 30, {{"ta", {3.0 + i, 0.0}}, {"age", {1.0 + (i * 7) % 5, 0.0}}}));
    Asking asking;
    asking.recipes = 4;
    asking.differ = 0.3;
    const Found best = found(of(stocks, 20.0, {want("ta", 5.0, 5.0), want("age", 2.5, 2.5)}), asking);
    ASSERT_EQ(best.recipes.size(), 4U);
    for (std::size_t a = 0; a < 4; ++a)
        for (std::size_t b = a + 1; b < 4; ++b) {
            double same = 0.0;
            for (std::size_t i = 0; i < stocks.size(); ++i)
                same += std::min(litres_of(best.recipes[a].made[0], i), litres_of(best.recipes[b].made[0], i));
            EXPECT_LE(same, 0.7 * 20.0 + 1e-6) << a << " and " << b;
            EXPECT_LE(best.recipes[a].cost, best.recipes[b].cost + 1e-9);
        }
}

TEST(Recipe, AddingAStockNeverMakesTheBestWorseAndTheirOrderDoesNotMatter) {
    std::mt19937 bits(20260314);
    std::uniform_real_distribution<double> any(0.0, 1.0);
    for (int trial = 0; trial < 30; ++trial) {
        std::vector<Stock> stocks;
        for (int i = 0; i < 6; ++i)
            stocks.push_back(sour("S" + std::to_string(i), 5 + 20 * any(bits), 3.1 + any(bits), 2 + 7 * any(bits)));
        Problem problem = of(stocks, 4.0, {want("ph", 3.4, 3.5, 0.1), want("ta", 4.0, 4.5), want("alcohol", 6.0, 7.0)});
        problem.blends[0].most_stocks = 3;
        const double all = found(problem).recipes[0].cost;
        Problem fewer = problem;
        fewer.stocks.pop_back();
        // pH as a wish is judged by charge over a mean buffering, so costs agree to a hundredth of a step.
        EXPECT_LE(all, found(fewer).recipes[0].cost + 0.02) << trial;
        std::shuffle(problem.stocks.begin(), problem.stocks.end(), bits);
        EXPECT_NEAR(found(problem).recipes[0].cost, all, 0.02) << trial;
    }
}

TEST(Recipe, MostOfItIsAsMuchAsTheLimitsAllow) {
    Problem problem = of({stock("Sharp", 10, {{"ta", {9.0, 0.0}}}), stock("Soft", 100, {{"ta", {3.0, 0.0}}})}, 1.0,
                         {must("ta", 5.0, std::nullopt)});
    problem.blends[0].litres.reset();
    problem.blends[0].aim = Aim::most;
    EXPECT_NEAR(found(problem).recipes[0].made[0].litres, 30.0, 1e-6);
}

TEST(Recipe, CheapestAndLeastFermentableKeepTheLimits) {
    Problem problem = of({stock("Dear", 50, {{"ta", {6.0, 0.0}}, {"cost", {4.0, 0.0}}}),
                          stock("Cheap", 50, {{"ta", {2.0, 0.0}}, {"cost", {1.0, 0.0}}})},
                         20.0, {must("ta", 4.0, std::nullopt)});
    problem.blends[0].aim = Aim::cheapest;
    EXPECT_NEAR(found(problem).recipes[0].cost, 10 * 4.0 + 10 * 1.0, 1e-6);
    const auto mixed = testing::reference_tables().find_culture("mixed_sour").value();
    problem.stocks[0].gravity = 1.002;
    problem.stocks[0].original_gravity = 1.050;
    problem.stocks[1].gravity = 1.012;
    problem.stocks[1].original_gravity = 1.050;
    problem.stocks[0].cultures = {mixed};
    problem.blends[0].aim = Aim::least_ferment;
    EXPECT_NEAR(litres_of(found(problem).recipes[0].made[0], 0), 20.0, 1e-6);
}

TEST(Recipe, SeveralBlendsShareTheStocks) {
    Problem problem =
        of({stock("A", 10, {{"ta", {8.0, 0.0}}}), stock("B", 30, {{"ta", {4.0, 0.0}}})}, 10.0, {want("ta", 6.0, 6.0)});
    problem.blends.push_back(problem.blends[0]);
    problem.blends[1].name = "second";
    problem.blends[1].wishes = {want("ta", 5.0, 5.0)};
    const Recipe best = found(problem).recipes[0];
    EXPECT_LE(litres_of(best.made[0], 0) + litres_of(best.made[1], 0), 10.0 + 1e-9);
    EXPECT_NEAR(best.made[0].figures.at("ta"), 6.0, 1e-6);
    EXPECT_NEAR(best.made[1].figures.at("ta"), 5.0, 1e-6);
}

TEST(Recipe, AStockThatLacksAFigureIsLeftOutAndSaidSo) {
    Problem problem =
        of({sour("Known", 40, 3.4, 6.0), stock("Unread", 40, {{"ta", {6.0, 0.5}}})}, 10.0, {want("ph", 3.4, 3.5, 0.1)});
    const Found best = found(problem);
    ASSERT_EQ(best.left_out.size(), 1U);
    EXPECT_NE(best.left_out[0].find("Unread (no pH known)"), std::string::npos);
    EXPECT_EQ(litres_of(best.recipes[0].made[0], 1), 0.0);
}

TEST(Conflict, NamesTheFewestLimitsAndTheNearest) {
    Problem problem = of({sour("A", 40, 3.5, 5.0), sour("B", 40, 3.6, 4.5), sour("C", 40, 4.1, 2.0)}, 20.0,
                         {must("ph", std::nullopt, 3.2), must("alcohol", 4.0, 8.0)});
    const auto refused = find_blend(problem, {});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_NE(refused.error().what.find("pH at most 3.20"), std::string::npos) << refused.error().what;
    EXPECT_NE(refused.error().what.find("the nearest is 3.5"), std::string::npos) << refused.error().what;
    EXPECT_EQ(refused.error().what.find("alcohol"), std::string::npos) << "it has no part in it";
}

TEST(Conflict, OfTwoLimitsNamesBoth) {
    Problem problem = of({stock("A", 6, {{"ta", {9.0, 0.0}}}), stock("B", 6, {{"ta", {8.0, 0.0}}}),
                          stock("C", 60, {{"ta", {2.0, 0.0}}})},
                         20.0, {must("ta", 4.5, std::nullopt)});
    EXPECT_TRUE(find_blend(problem, {})) << "three stocks do";
    problem.blends[0].most_stocks = 1;
    const auto conflict = conflict_of(problem).value();
    ASSERT_TRUE(conflict);
    EXPECT_EQ(conflict->limits.size(), 3U) << conflict->words();  // 20 L of it, one stock, that acidity
    problem.blends[0].most_stocks = 2;
    problem.blends[0].litres = 500.0;
    const auto too_much = conflict_of(problem).value();
    ASSERT_TRUE(too_much);
    EXPECT_EQ(too_much->limits, (std::vector<std::string>{"500.0 L"}));
}

TEST(Recipe, RefusesWhatCannotBeAsked) {
    const auto where = [](const Problem& problem, const Asking& asking = {}) {
        const auto refused = find_blend(problem, asking);
        return refused ? std::string("found") : refused.error().where;
    };
    const Problem good = of({stock("A", 10, {{"ta", {6.0, 0.0}}})}, 5.0, {want("ta", 6.0, 6.0)});
    EXPECT_EQ(where(good), "found");
    EXPECT_EQ(where(of({}, 5.0, {})), "stocks");
    EXPECT_EQ(where(of({stock("A", 10, {}), stock("A", 10, {})}, 5.0, {})), "stocks");
    EXPECT_EQ(where(of({stock("A", -1, {})}, 5.0, {})), "stocks");
    EXPECT_EQ(where(of({stock("A", 10, {})}, 0.0, {})), "volume");
    EXPECT_EQ(where(of({stock("A", 10, {})}, 5.0, {want("ta", 7.0, 6.0)})), "ta");
    EXPECT_EQ(where(of({stock("A", 10, {})}, 5.0, {{"ta", {}, true, 1.0, 1.0}})), "ta");
    Asking asking;
    asking.differ = 1.0;
    EXPECT_EQ(where(good, asking), "differ");
    asking = {};
    asking.recipes = 0;
    EXPECT_EQ(where(good, asking), "recipes");
    EXPECT_EQ(where(of(std::vector<Stock>(1001), 5.0, {})), "stocks");
}

}  // namespace
}  // namespace undercroft::engine::blend
