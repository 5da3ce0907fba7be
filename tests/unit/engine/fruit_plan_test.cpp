#include "engine/fruit/plan.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "chem/alcohol.hpp"
#include "engine/fruit/dates.hpp"
#include "tests/support/reference_tables.hpp"

namespace undercroft::engine::fruit {
namespace {

using testing::reference_tables;

constexpr Day k_pull{std::chrono::year{2026}, std::chrono::month{3}, std::chrono::day{14}};

const tables::CultureKind* culture(const char* id) {
    return reference_tables().find_culture(id).value();
}

FruitAddition bought_for_plan(const char* fruit, double grams, const FruitOptions& options = {}) {
    return resolve(reference_tables(), *reference_tables().find_fruit(fruit).value(), Mass::from_grams(grams), options)
        .value();
}

Beer ten_litres() {
    return {Volume::from_litres(10.0), 1.008, 6.0, {culture("mixed_sour")}};
}

FruitPlan planned(const FruitAddition& addition, const Beer& beer, Way way) {
    return plan(reference_tables(), addition, beer, way, k_pull).value();
}

int at(const FruitPlan& plan, const std::string& task) {
    for (std::size_t i = 0; i < plan.dates.size(); ++i) {
        if (plan.dates[i].task == task) return static_cast<int>(i);
    }
    return -1;
}

RC_GTEST_PROP(BothWays, end_with_the_same_ethanol_extract_and_volume, ()) {
    static const std::vector<const char*> k_fruits = {"sour_cherry_fresh", "raspberry_fresh", "apricot_dried_sulfured",
                                                      "lemon_juice", "plum_fresh"};
    FruitOptions nothing_lost;
    nothing_lost.hold_up_share = 0.0;
    const FruitAddition addition = bought_for_plan(k_fruits.at(*rc::gen::inRange<std::size_t>(0, k_fruits.size())),
                                                   *rc::gen::inRange(50, 20000), nothing_lost);
    Beer beer = ten_litres();
    beer.volume = Volume::from_ul(*rc::gen::inRange<std::int64_t>(1'000'000, 500'000'000));
    beer.abv = *rc::gen::inRange(0, 120) / 10.0;
    const FruitPlan first = planned(addition, beer, Way::pre_fermented);
    const FruitPlan onto = planned(addition, beer, Way::onto_beer);
    RC_ASSERT(first.final_abv == onto.final_abv);
    RC_ASSERT(first.final_gravity == onto.final_gravity);
    RC_ASSERT(first.final_volume == onto.final_volume);
    RC_ASSERT(first.final_volume == beer.volume + addition.brings);
    // The fruit wine blended with the beer is the same liquid: ethanol is neither made nor lost by the way.
    const double litres_of_ethanol =
        first.fruit_wine_abv * addition.brings.in_litres() + beer.abv * beer.volume.in_litres();
    RC_ASSERT(std::abs(litres_of_ethanol / first.mixed_volume.in_litres() - onto.final_abv) <= 1e-6);
}

RC_GTEST_PROP(TwiceTheFruit, makes_twice_the_ethanol_and_gas_and_wants_more_room, ()) {
    const auto grams = *rc::gen::inRange(50, 5000);
    const FruitPlan one = planned(bought_for_plan("plum_fresh", grams), ten_litres(), Way::onto_beer);
    const FruitPlan two = planned(bought_for_plan("plum_fresh", 2.0 * grams), ten_litres(), Way::onto_beer);
    RC_ASSERT(std::abs(2.0 * one.ethanol_from_fruit_g - two.ethanol_from_fruit_g) <= 1e-6);
    RC_ASSERT(std::abs(2.0 * one.co2_g - two.co2_g) <= 1e-6);
    RC_ASSERT(two.least_vessel > one.least_vessel);
    RC_ASSERT(two.gas_if_closed_volumes > one.gas_if_closed_volumes);
    RC_ASSERT(two.gas_worst_volumes >= two.gas_if_closed_volumes);
}

TEST(FruitedBeer, KeepsSorbitolAndAcidsAsExtract) {
    Beer beer = ten_litres();
    const FruitPlan p = planned(bought_for_plan("sour_cherry_fresh", 2000.0), beer, Way::onto_beer);
    // Were the fruit water and ethanol alone, the beer would be thinner.
    const chem::Composition before = chem::composition_from_gravity_and_abv(beer.gravity, beer.abv);
    const double litres = p.mixed_volume.in_litres();
    const chem::Composition thin{(before.ethanol_g_per_l * 10.0 + p.ethanol_from_fruit_g) / litres,
                                 before.real_extract_g_per_l * 10.0 / litres};
    // 64.98 g of sorbitol and acids in 11.65 L: 5.6 g/L, some 0.0021 of gravity (0.0038 for 10 g/L).
    EXPECT_NEAR(p.final_gravity - chem::gravity_of(thin), 0.0021, 0.0002);
}

TEST(FruitedBeer, LeavesTheHoldUpInThePulp) {
    const FruitPlan p = planned(bought_for_plan("sour_cherry_fresh", 2000.0), ten_litres(), Way::pre_fermented);
    EXPECT_EQ(p.final_volume, p.mixed_volume - Volume::from_litres(0.2));
}

TEST(FruitVessel, LeavesAFifthForTheCap) {
    const FruitAddition cherry = bought_for_plan("sour_cherry_fresh", 2000.0);
    for (const Way way : {Way::pre_fermented, Way::onto_beer}) {
        const FruitPlan p = planned(cherry, ten_litres(), way);
        EXPECT_NEAR((Volume::from_litres(10.0) + cherry.brings + cherry.solids).in_litres(),
                    0.8 * p.least_vessel.in_litres(), 2e-6);
    }
}

TEST(FruitDates, FollowEachOtherAsTheTaskTableDemands) {
    for (const tables::FruitForm form :
         {tables::FruitForm::fresh, tables::FruitForm::frozen, tables::FruitForm::dried}) {
        for (const Way way : {Way::pre_fermented, Way::onto_beer}) {
            const TaskChain chain = chain_for(form, way, "watch_mixed");
            std::set<std::string> done = {"decide"};  // the plan is what this is
            // Frozen fruit comes out of the shop's freezer, not the keeper's.
            if (form == tables::FruitForm::frozen) done.insert("freeze_fruit");
            for (const auto* part : {&chain.before, &chain.on_pull_day, &chain.after}) {
                for (const std::string& id : *part) {
                    for (const auto& any_of : reference_tables().find_task(id).value()->prerequisites) {
                        EXPECT_TRUE(std::any_of(any_of.begin(), any_of.end(),
                                                [&](const std::string& before) { return done.contains(before); }))
                            << id << " comes before what it needs";
                    }
                    done.insert(id);
                }
            }
        }
    }
}

TEST(FruitDates, AreOverBeforeThePullAndGoOnAfterIt) {
    for (const Way way : {Way::pre_fermented, Way::onto_beer}) {
        const FruitPlan p = planned(bought_for_plan("sour_cherry_fresh", 2000.0), ten_litres(), way);
        for (std::size_t i = 1; i < p.dates.size(); ++i) EXPECT_LE(p.dates[i - 1].day, p.dates[i].day);
        EXPECT_EQ(p.dates[static_cast<std::size_t>(at(p, "pull"))].day, k_pull);
        EXPECT_EQ(lead_days(reference_tables(), bought_for_plan("sour_cherry_fresh", 2000.0), way).value(),
                  days_between(p.dates.front().day, k_pull));
        for (const PlannedTask& task : p.dates)
            EXPECT_FALSE(task.done_when.empty() && task.task != "pull") << task.task;
    }
}

TEST(FruitDates, PutTheEnzymeBeforeAnyAlcohol) {
    const FruitPlan first = planned(bought_for_plan("sour_cherry_fresh", 2000.0), ten_litres(), Way::pre_fermented);
    EXPECT_LT(at(first, "enzyme"), at(first, "pitch_fruit_yeast"));
    const FruitPlan onto = planned(bought_for_plan("sour_cherry_fresh", 2000.0), ten_litres(), Way::onto_beer);
    EXPECT_LT(at(onto, "enzyme"), at(onto, "fruit_into_beer"));
    EXPECT_EQ(at(onto, "pitch_fruit_yeast"), -1);
    EXPECT_EQ(at(first, "fruit_into_beer"), -1);
}

TEST(FruitDates, ComeFromTheTaskTableAndNotFromTheCode) {
    tables::Tables slow = reference_tables();
    for (tables::Task& task : slow.tasks) {
        if (task.id == "fruit_ferment") task.duration_typical = 12.0;
        if (task.id == "age_on_fruit") task.duration_typical = 90.0;
    }
    const FruitAddition cherry = bought_for_plan("sour_cherry_fresh", 2000.0);
    const FruitPlan usual = planned(cherry, ten_litres(), Way::pre_fermented);
    const FruitPlan later = plan(slow, cherry, ten_litres(), Way::pre_fermented, k_pull).value();
    EXPECT_EQ(days_between(later.dates.front().day, usual.dates.front().day), 5);
    EXPECT_EQ(days_between(usual.dates.back().day, later.dates.back().day), 30);
    slow.tasks.clear();
    EXPECT_EQ(plan(slow, cherry, ten_litres(), Way::pre_fermented, k_pull).error().kind, ErrorKind::not_found);
}

TEST(FruitDates, NeitherFreezeNorThawDriedFruit) {
    const FruitPlan p = planned(bought_for_plan("fig_dried", 500.0), ten_litres(), Way::onto_beer);
    EXPECT_EQ(at(p, "thaw_fruit"), -1);
    const FruitPlan frozen =
        planned(bought_for_plan("sour_cherry_frozen_unsweetened", 500.0), ten_litres(), Way::onto_beer);
    EXPECT_EQ(at(frozen, "freeze_fruit"), -1);
    EXPECT_GE(at(frozen, "thaw_fruit"), 0);
}

TEST(StabilityWatch, IsLongEnoughForEveryCultureOfTheTable) {
    for (const tables::CultureKind& kind : reference_tables().cultures) {
        const tables::Task* watch = reference_tables().find_task(watch_for({&kind})).value();
        EXPECT_GE(watch->duration_typical, kind.stable_days.value_or(0.0)) << kind.id;
    }
    EXPECT_EQ(watch_for({}), "watch_unknown");
    EXPECT_EQ(watch_for({culture("ale_clean")}), "watch_clean");
    EXPECT_EQ(watch_for({culture("ale_clean"), culture("brett_slow")}), "watch_mixed");
}

TEST(StabilityWatch, OfACleanBeerIsNotEnoughOnceFruitIsIn) {
    Beer clean = ten_litres();
    clean.cultures = {culture("ale_clean")};
    const FruitPlan p = planned(bought_for_plan("sour_cherry_fresh", 2000.0), clean, Way::onto_beer);
    EXPECT_EQ(at(p, "watch_clean"), -1);
    EXPECT_GE(at(p, "watch_bakers_or_wine"), 0);
}

TEST(FruitCautions, StandBesideBothWays) {
    for (const Way way : {Way::pre_fermented, Way::onto_beer}) {
        const FruitPlan p = planned(bought_for_plan("sour_cherry_fresh", 2000.0), ten_litres(), way);
        std::set<std::string> ids;
        for (const Caution& caution : p.cautions) ids.insert(caution.id);
        for (const char* id : {"fruit.never_seal", "fruit.head_space", "gas.room", "vessel.glass", "fruit.pits"}) {
            EXPECT_TRUE(ids.contains(id)) << id;
        }
        EXPECT_EQ(ids.contains("fruit.killer"), way == Way::pre_fermented);
    }
}

TEST(SorbateInFruit, IsBlockedWhereBacteriaMayLive) {
    FruitOptions said;
    said.sorbate = Sorbate::on_label;
    const FruitAddition plum = bought_for_plan("plum_fresh", 1000.0, said);
    EXPECT_EQ(plan(reference_tables(), plum, ten_litres(), Way::onto_beer, k_pull).error().kind, ErrorKind::impossible);
    Beer unknown = ten_litres();
    unknown.cultures.clear();
    EXPECT_FALSE(plan(reference_tables(), plum, unknown, Way::onto_beer, k_pull).has_value());
    Beer clean = ten_litres();
    clean.cultures = {culture("ale_clean")};
    EXPECT_TRUE(plan(reference_tables(), plum, clean, Way::onto_beer, k_pull).has_value());
}

TEST(BeerThatCannotBe, IsRefusedBeforeAnySum) {
    const FruitAddition plum = bought_for_plan("plum_fresh", 1000.0);
    Beer beer = ten_litres();
    beer.volume = Volume{};
    EXPECT_EQ(plan(reference_tables(), plum, beer, Way::onto_beer, k_pull).error().where, "beer");
    beer = ten_litres();
    beer.gravity = 1.8;
    EXPECT_EQ(plan(reference_tables(), plum, beer, Way::onto_beer, k_pull).error().where, "gravity");
    beer = ten_litres();
    beer.abv = 45.0;
    EXPECT_EQ(plan(reference_tables(), plum, beer, Way::onto_beer, k_pull).error().where, "alcohol");
}

}  // namespace
}  // namespace undercroft::engine::fruit
