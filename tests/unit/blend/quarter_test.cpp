// A quarter: products share stocks, and every litre that leaves a solera comes back.
#include "engine/blend/quarter.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <random>

namespace undercroft::engine::blend {
namespace {

Stock quarter_stock(const std::string& name, double litres, double ta, double alcohol) {
    Stock it;
    it.name = name;
    it.litres = litres;
    it.figures["ta"] = {ta, 0.2};
    it.figures["alcohol"] = {alcohol, 0.2};
    return it;
}

Blend product(const std::string& name, double litres, double low, double high) {
    Blend it;
    it.name = name;
    it.litres = litres;
    it.wishes.push_back({"ta", {low, high}, false, 1.0, 0.5});
    return it;
}

Quarter two_soleras() {
    Quarter it;
    it.problem.stocks = {quarter_stock("Sharp", 50.0, 9.0, 6.0), quarter_stock("Soft", 40.0, 3.0, 5.0),
                         quarter_stock("Keg", 10.0, 5.0, 5.0)};
    it.problem.blends = {product("Autumn", 20.0, 5.5, 6.5), product("Winter", 10.0, 7.5, 8.5)};
    it.problem.step = 0.1;
    it.soleras = {"Sharp", "Soft"};
    it.sources = {{"Spring wort", 40.0}};
    it.feeds = {{"Spring wort", "Sharp"}, {"Spring wort", "Soft"}};
    return it;
}

std::map<std::string, double> drawn_of(const Quarter& quarter, const QuarterPlan& plan) {
    std::map<std::string, double> drawn;
    for (const Made& made : plan.made)
        for (const Part& part : made.parts) drawn[quarter.problem.stocks[part.stock].name] += part.litres;
    return drawn;
}

void expect_balanced(const Quarter& quarter, const QuarterPlan& plan) {
    std::map<std::string, double> drawn = drawn_of(quarter, plan);
    std::map<std::string, double> back;
    for (const Fed& one : plan.fed) {
        back[one.feed.into] += one.litres;
        drawn[one.feed.from] += one.litres;
    }
    for (const std::string& solera : quarter.soleras) {
        EXPECT_NEAR(drawn[solera], back[solera], 1e-3) << solera;
        for (const Stock& stock : quarter.problem.stocks)
            if (stock.name == solera) {
                EXPECT_LE(drawn[solera], quarter.most_share * stock.litres + 1e-3) << solera;
            }
    }
    for (const RefillSource& source : quarter.sources) EXPECT_LE(drawn[source.name], source.litres + 1e-3);
}

TEST(AQuarter, MakesBothProductsAndFillsBothSolerasAgain) {
    const Quarter quarter = two_soleras();
    const QuarterPlan plan = plan_quarter(quarter, {}).value();
    ASSERT_EQ(plan.made.size(), 2U);
    EXPECT_TRUE(plan.proven);
    EXPECT_NEAR(plan.cost, 0.0, 0.01);
    EXPECT_NEAR(plan.made[0].litres, 20.0, 1e-6);
    EXPECT_NEAR(plan.made[1].litres, 10.0, 1e-6);
    EXPECT_GE(plan.made[0].figures.at("ta"), 5.4);
    EXPECT_LE(plan.made[1].figures.at("ta"), 8.6);
    expect_balanced(quarter, plan);
}

TEST(AQuarter, PullsOnlyWhatCanBeReplaced) {
    Quarter quarter = two_soleras();
    quarter.sources[0].litres = 12.0;
    const auto plan = plan_quarter(quarter, {});
    ASSERT_FALSE(plan);
    EXPECT_EQ(plan.error().kind, ErrorKind::impossible);
    EXPECT_EQ(plan.error().where, "refill");
    ASSERT_FALSE(plan.error().facts.empty());
    // 10 L of the keg and 12 L that can be replaced: 8 L of 30 are short.
    double missing = 0.0;
    for (const Fact& fact : plan.error().facts) missing += std::atof(fact.value.c_str());
    EXPECT_NEAR(missing, 8.0, 0.2);
}

TEST(AQuarter, FillsAChainFromAboveAndItsHeadFromALot) {
    Quarter quarter;
    quarter.problem.stocks = {quarter_stock("Old", 28.0, 7.0, 6.0), quarter_stock("Middle", 28.0, 5.0, 6.0),
                              quarter_stock("Young", 28.0, 3.0, 6.0)};
    quarter.problem.blends = {product("Autumn", 9.0, 6.8, 7.2)};
    quarter.problem.step = 0.1;
    quarter.soleras = {"Old", "Middle", "Young"};
    quarter.sources = {{"Wort", 20.0}};
    quarter.feeds = {{"Middle", "Old"}, {"Young", "Middle"}, {"Wort", "Young"}};
    const QuarterPlan plan = plan_quarter(quarter, {}).value();
    ASSERT_EQ(plan.fed.size(), 3U);
    for (const Fed& one : plan.fed) EXPECT_NEAR(one.litres, 9.0, 1e-3) << one.feed.into;
    expect_balanced(quarter, plan);
}

TEST(AQuarter, OfOneProductFromStocksWithoutSolerasIsThatBlend) {
    Quarter quarter = two_soleras();
    quarter.soleras.clear();
    quarter.sources.clear();
    quarter.feeds.clear();
    quarter.problem.blends.resize(1);
    const QuarterPlan plan = plan_quarter(quarter, {}).value();
    const Found alone = find_blend(quarter.problem, {}).value();
    EXPECT_NEAR(plan.cost, alone.recipes[0].cost, 0.02);
}

TEST(AQuarter, RefusesWhatCannotBe) {
    Quarter quarter = two_soleras();
    quarter.most_share = 0.9;
    EXPECT_EQ(plan_quarter(quarter, {}).error().where, "most-share");
    quarter = two_soleras();
    quarter.feeds.push_back({"Nowhere", "Sharp"});
    EXPECT_EQ(plan_quarter(quarter, {}).error().where, "feed");
    quarter = two_soleras();
    quarter.problem.blends.clear();
    EXPECT_EQ(plan_quarter(quarter, {}).error().where, "product");
}

// Over random cellars: what leaves comes back, nothing is drawn twice, and more refill never costs more.
TEST(AQuarter, BalancesOverRandomCellars) {
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    int planned = 0;
    for (int i = 0; i < 40; ++i) {
        Quarter quarter;
        const int stocks = 3 + static_cast<int>(random() % 5);
        for (int k = 0; k < stocks; ++k) {
            const std::string name = "S" + std::to_string(k);
            quarter.problem.stocks.push_back(
                quarter_stock(name, 10.0 + 50.0 * share(random), 2.0 + 8.0 * share(random), 4.0 + 4.0 * share(random)));
            if (k % 2 == 0) {
                quarter.soleras.push_back(name);
                quarter.feeds.push_back({"Wort", name});
            }
        }
        quarter.problem.step = 0.1;
        quarter.sources = {{"Wort", 10.0 + 40.0 * share(random)}};
        for (int j = 0; j < 2; ++j) {
            const double low = 3.0 + 5.0 * share(random);
            quarter.problem.blends.push_back(
                product("P" + std::to_string(j), 5.0 + 10.0 * share(random), low, low + 1.0));
        }
        const auto plan = plan_quarter(quarter, {});
        if (!plan) {
            EXPECT_EQ(plan.error().kind, ErrorKind::impossible);
            continue;
        }
        ++planned;
        expect_balanced(quarter, *plan);
        const auto drawn = drawn_of(quarter, *plan);
        for (const Stock& stock : quarter.problem.stocks)
            if (drawn.contains(stock.name)) {
                EXPECT_LE(drawn.at(stock.name), stock.litres + 1e-3);
            }
        quarter.sources[0].litres += 20.0;
        const auto more = plan_quarter(quarter, {});
        ASSERT_TRUE(more);
        EXPECT_LE(more->bound, plan->bound + 0.02);
    }
    EXPECT_GT(planned, 20);
}

}  // namespace
}  // namespace undercroft::engine::blend
