#include "engine/trace/trace.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;
using engine::HolderRef;

// Amber -> Jar -> bottles, with a return; and Copper that has nothing to do with it.
class Traced : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 25);
    EntryKey copper = book.vessel(on_day(0), "Copper", 30);
    EntryKey first = book.lot(on_day(1), amber, "First wort", 40);
    EntryKey other = book.lot(on_day(1), copper, "Stout", 20);
    EntryKey sour = book.pitch(on_day(2), amber, "House sour");
    EntryKey pull = book.move(on_day(10), amber, jar, 20);
    EntryKey bottles;

    void SetUp() override {
        Addition plums;
        plums.vessel = jar;
        plums.kind = AdditionKind::fruit;
        plums.item = plums.name = "plum";
        plums.mass = Mass::from_grams(2000);
        plums.brings = litres(1.8);
        plums.solids = litres(0.2);
        book.write(on_day(11), plums);
        Package run;
        run.from = jar;
        run.run = "JAR-20-1";
        run.count = 20;
        run.fill = litres(0.5);
        bottles = book.write(on_day(60), run);
        Take given;
        given.run = bottles;
        given.count = 4;
        given.cause = TakeCause::given;
        book.write(on_day(70), given);
        Take back;
        back.run = bottles;
        back.count = 2;
        back.cause = TakeCause::returned;
        back.vessel = amber;
        book.write(on_day(80), back);
        book.loss(on_day(90), amber, 0.5, LossCause::evaporation);
    }
};

TEST_F(Traced, ALotIsFoundAgainToTheLastMicrolitre) {
    const auto cellar = book.cellar();
    ASSERT_TRUE(cellar);
    const engine::ForwardTrace trace = engine::trace_lots(*cellar, {0});
    std::int64_t sum = 0;
    for (const engine::WentTo& went : trace.on_hand) sum += went.volume.ul();
    for (const auto& [cause, volume] : trace.gone) sum += volume.ul();
    EXPECT_NEAR(static_cast<double>(sum), 40e6, static_cast<double>(trace.on_hand.size() + trace.gone.size()));
    ASSERT_EQ(trace.on_hand.size(), 3U) << "the vessel, the jar and the bottles";
    EXPECT_EQ(trace.on_hand[0].holder, (HolderRef{0, -1})) << "largest first";
    ASSERT_EQ(trace.gone.size(), 2U);
    EXPECT_EQ(trace.gone[0].first, "evaporation");
    EXPECT_EQ(trace.gone[1].first, "given");
    // 4 bottles of 0.5 L, 20/21.8 of it wort.
    EXPECT_NEAR(trace.gone[1].second.in_litres(), 2.0 * 20.0 / 21.8, 1e-6);
}

TEST_F(Traced, TwoLotsAreTracedTogether) {
    const auto cellar = book.cellar();
    const engine::ForwardTrace trace = engine::trace_lots(*cellar, {0, 1});
    std::int64_t sum = 0;
    for (const engine::WentTo& went : trace.on_hand) sum += went.volume.ul();
    for (const auto& [cause, volume] : trace.gone) sum += volume.ul();
    EXPECT_NEAR(static_cast<double>(sum), 60e6, static_cast<double>(trace.on_hand.size() + trace.gone.size()));
}

TEST_F(Traced, ABottleLeadsBackThroughTheJarToTheVessel) {
    const auto cellar = book.cellar();
    const engine::BackTrace trace = engine::trace_back(*cellar, {-1, 0});
    ASSERT_EQ(trace.lots.size(), 2U);
    EXPECT_EQ(cellar->lots[static_cast<std::size_t>(trace.lots[0].first)].name, "First wort");
    EXPECT_NEAR(trace.lots[0].second, 20.0 / 21.8, 1e-12);
    EXPECT_NEAR(trace.lots[0].second + trace.lots[1].second, 1.0, 1e-12);
    ASSERT_EQ(trace.additions.size(), 1U);
    ASSERT_EQ(trace.path.size(), 2U);
    EXPECT_EQ(trace.path[0].through, (HolderRef{1, -1})) << "latest first: the jar";
    EXPECT_EQ(trace.path[1].through, (HolderRef{0, -1}));
    EXPECT_EQ(trace.path[1].from, on_day(10));
}

TEST_F(Traced, ALoopIsTheVesselMetAgain) {
    const auto cellar = book.cellar();
    const engine::BackTrace trace = engine::trace_back(*cellar, {0, -1});
    // The bottles that came back, the jar they were filled from, and the vessel itself before that.
    ASSERT_EQ(trace.path.size(), 3U);
    EXPECT_EQ(trace.path[0].through, (HolderRef{-1, 0}));
    EXPECT_EQ(trace.path[1].through, (HolderRef{1, -1}));
    EXPECT_EQ(trace.path[2].through, (HolderRef{0, -1}));
    EXPECT_EQ(trace.lots.size(), 2U) << "wort, and the plum that came back with the bottles";
}

TEST_F(Traced, WhatAVesselHeldBeforeItWasEmptiedLeadsNowhere) {
    book.loss(on_day(100), copper, 20);
    book.move(on_day(101), amber, copper, 5);
    const auto cellar = book.cellar();
    const engine::BackTrace trace = engine::trace_back(*cellar, {2, -1});
    for (const auto& [lot, share] : trace.lots) EXPECT_NE(cellar->lots[static_cast<std::size_t>(lot)].name, "Stout");
    ASSERT_FALSE(trace.path.empty());
    EXPECT_EQ(trace.path[0].through, (HolderRef{0, -1}));
    // And on from copper's old beer nothing of it is left.
    const engine::ForwardTrace stout = engine::trace_lots(*cellar, {1});
    EXPECT_TRUE(stout.on_hand.empty());
    ASSERT_EQ(stout.gone.size(), 1U);
    EXPECT_EQ(stout.gone[0].second, litres(20));
}

TEST_F(Traced, ACultureIsFoundWhereverItMayLiveSurestFirst) {
    const auto cellar = book.cellar();
    const auto found = engine::trace_cultures(*cellar, {0});
    ASSERT_EQ(found.size(), 3U);
    EXPECT_EQ(found[0].holder, (HolderRef{0, -1}));
    EXPECT_EQ(found[0].here.certainty, Certainty::certain);
    EXPECT_EQ(found[1].here.certainty, Certainty::likely);
    EXPECT_TRUE(engine::trace_cultures(*cellar, {}).empty());
}

TEST_F(Traced, AnAdditionIsFoundInWhateverTookFromIt) {
    const auto cellar = book.cellar();
    const auto found = engine::trace_additions(*cellar, {0});
    EXPECT_EQ(found, (std::vector<HolderRef>{{0, -1}, {1, -1}, {-1, 0}})) << "the returned bottles brought it home";
}

}  // namespace
}  // namespace undercroft::testing
