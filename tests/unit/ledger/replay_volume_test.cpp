// What the replay makes of vessels, pulls, refills and losses.
#include <gtest/gtest.h>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

// Shares are quotients of whole microlitres in doubles.
constexpr double k_rounding = 1e-12;

class Cellar60L : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60, 2);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 25);
    EntryKey first = book.lot(on_day(1), amber, "First wort", 54);

    [[nodiscard]] Cellar now() const {
        auto cellar = book.cellar();
        EXPECT_TRUE(cellar) << (cellar ? "" : cellar.error().what);
        return std::move(*cellar);
    }
};

TEST_F(Cellar60L, APullOfAThirdAndARefillLeaveTwoThirdsOfTheOldBeer) {
    book.move(on_day(400), amber, jar, 18);
    book.lot(on_day(400), amber, "Second wort", 18);
    const Cellar cellar = now();
    const Liquid& liquid = vessel_named(cellar, "The Amber").liquid;
    EXPECT_EQ(liquid.volume, litres(54));
    EXPECT_NEAR(share_of(cellar, liquid, "First wort"), 2.0 / 3.0, k_rounding);
    EXPECT_NEAR(share_of(cellar, liquid, "Second wort"), 1.0 / 3.0, k_rounding);
    // What was pulled before the refill is all of the first.
    EXPECT_NEAR(share_of(cellar, vessel_named(cellar, "Jar 23").liquid, "First wort"), 1.0, k_rounding);
}

TEST_F(Cellar60L, OneMoveFillsSeveralVesselsAndLeavesItsLossBehind) {
    const EntryKey jug = book.vessel(on_day(2), "Jug", 5);
    Move move;
    move.from = amber;
    move.to = {{jar, litres(20)}, {jug, litres(4.5)}};
    move.loss = litres(0.5);
    book.write(on_day(3), move);
    const Cellar cellar = now();
    EXPECT_EQ(vessel_named(cellar, "The Amber").liquid.volume, litres(29));
    EXPECT_EQ(vessel_named(cellar, "Jar 23").liquid.volume, litres(20));
    EXPECT_EQ(vessel_named(cellar, "Jug").liquid.volume, litres(4.5));
    const Totals totals = cellar.totals();
    EXPECT_EQ(totals.in, litres(54));
    EXPECT_EQ(totals.out, litres(0.5));
    EXPECT_EQ(totals.on_hand, litres(53.5));
}

TEST_F(Cellar60L, AFillingToFullThatTookMoreBooksTheRestAsEvaporatedBefore) {
    LotEnters top_up;
    top_up.vessel = amber;
    top_up.name = "Young beer";
    top_up.volume = litres(6);  // the book's gap is 4
    top_up.settlement.evaporation = litres(2);
    book.write(on_day(300), top_up);
    const Cellar cellar = now();
    const Liquid& liquid = vessel_named(cellar, "The Amber").liquid;
    EXPECT_EQ(liquid.volume, litres(58));
    // 52 L were left when 6 came: the evaporated part is gone before they mix.
    EXPECT_NEAR(share_of(cellar, liquid, "Young beer"), 6.0 / 58.0, k_rounding);
    EXPECT_EQ(cellar.totals().out, litres(2));
    EXPECT_EQ(cellar.totals().in, litres(60));
}

TEST_F(Cellar60L, AFillingToFullThatTookLessBooksTheDifferenceAsFound) {
    LotEnters top_up;
    top_up.vessel = amber;
    top_up.name = "Young beer";
    top_up.volume = litres(3);
    top_up.settlement.found = litres(1);
    book.write(on_day(300), top_up);
    const Cellar cellar = now();
    const Liquid& liquid = vessel_named(cellar, "The Amber").liquid;
    EXPECT_EQ(liquid.volume, litres(58));
    EXPECT_NEAR(share_of(cellar, liquid, "found in The Amber"), 1.0 / 58.0, k_rounding);
    EXPECT_EQ(cellar.totals().in, litres(58));
    ASSERT_EQ(cellar.lots.size(), 3U);
    EXPECT_EQ(cellar.lots[1].kind, LotKind::unknown);
    EXPECT_NE(cellar.lots[1].like, k_no_node) << "found liquid is as old as what the vessel held";
}

TEST_F(Cellar60L, LooseFruitTakesRoomAndStaysBehindWithItsHoldUp) {
    Addition plums;
    plums.vessel = jar;
    plums.kind = AdditionKind::fruit;
    plums.item = plums.name = "plum";
    plums.mass = Mass::from_grams(3000);
    plums.brings = litres(2.6);
    plums.solids = litres(0.4);
    plums.hold_up = litres(0.3);
    book.move(on_day(10), amber, jar, 20);
    book.write(on_day(11), plums);
    {
        const Cellar cellar = now();
        EXPECT_EQ(vessel_named(cellar, "Jar 23").liquid.volume, litres(22.6));
        EXPECT_EQ(vessel_named(cellar, "Jar 23").additions_inside.size(), 1U);
    }
    // 25 L brimful, 0.4 of solids: 2 L more and there would be 24.6 where 24.6 fit; 2.1 do not.
    WrittenBook over = book;
    over.lot(on_day(12), jar, "Too much", 2.1);
    const auto fault = over.cellar();
    ASSERT_FALSE(fault);
    EXPECT_EQ(fault.error().kind, FaultKind::over_full);
    EXPECT_EQ(fault.error().wanted, litres(24.7));
    EXPECT_EQ(fault.error().held, litres(24.6));

    const EntryKey bright = book.vessel(on_day(20), "Bright", 25);
    book.move(on_day(40), jar, bright, 22.3, 0.3);
    const Cellar cellar = now();
    const VesselState& left = vessel_named(cellar, "Jar 23");
    EXPECT_EQ(left.liquid.volume, Volume{});
    EXPECT_EQ(left.additions_inside.size(), 1U) << "the pulp is still in the jar";
    const VesselState& racked = vessel_named(cellar, "Bright");
    EXPECT_TRUE(racked.additions_inside.empty());
    ASSERT_EQ(racked.liquid.additions.size(), 1U) << "the beer keeps what it took";
    EXPECT_NEAR(share_of(cellar, racked.liquid, "plum"), 2.6 / 22.6, k_rounding);
}

TEST_F(Cellar60L, ABagIsLiftedOutOfTheVesselItIsInAndOnlyOnce) {
    Addition oak;
    oak.vessel = amber;
    oak.kind = AdditionKind::oak;
    oak.item = oak.name = "oak cubes";
    oak.mass = Mass::from_grams(60);
    oak.contained = true;
    const EntryKey bag = book.write(on_day(5), oak);
    book.move(on_day(6), amber, jar, 20);
    book.write(on_day(30), Lift{bag});
    const Cellar cellar = now();
    EXPECT_TRUE(vessel_named(cellar, "The Amber").additions_inside.empty());
    EXPECT_EQ(cellar.additions[0].until, on_day(30));
    EXPECT_EQ(vessel_named(cellar, "Jar 23").liquid.additions.size(), 1U);
    EXPECT_TRUE(vessel_named(cellar, "Jar 23").additions_inside.empty()) << "a pull leaves the bag behind";

    book.write(on_day(31), Lift{bag});
    const auto twice = book.cellar();
    ASSERT_FALSE(twice);
    EXPECT_EQ(twice.error().kind, FaultKind::not_there_yet);
    EXPECT_EQ(twice.error().what, "oak cubes");
}

TEST_F(Cellar60L, BottlesThatGoBackIntoTheVesselCloseALoopAndCancel) {
    Package run;
    run.from = amber;
    run.run = "AMB-20-1";
    run.container = "bottle_330_heavy";
    run.count = 30;
    run.fill = Volume::from_ul(330'000);
    run.priming_sugar = Mass::from_grams(50);
    run.priming_volume = Volume::from_ul(31'000);
    run.loss = litres(0.1);
    const EntryKey bottles = book.write(on_day(500), run);
    Take back;
    back.run = bottles;
    back.count = 6;
    back.cause = TakeCause::returned;
    back.vessel = amber;
    book.write(on_day(600), back);
    const Cellar cellar = now();
    ASSERT_EQ(cellar.runs.size(), 1U);
    EXPECT_EQ(cellar.runs[0].left, 24);
    EXPECT_EQ(cellar.runs[0].liquid.volume.ul(), 24 * 330'000);
    // 30 x 0.33 L less 31 mL of syrup and 100 mL for the hose left the vessel; six bottles came back.
    EXPECT_EQ(vessel_named(cellar, "The Amber").liquid.volume.ul(),
              54'000'000 - (30 * 330'000 - 31'000) - 100'000 + 6 * 330'000);
    const double syrup = share_of(cellar, cellar.runs[0].liquid, "priming sugar");
    EXPECT_NEAR(syrup, 31.0 / 9900.0, k_rounding);
    EXPECT_GT(share_of(cellar, vessel_named(cellar, "The Amber").liquid, "priming sugar"), 0.0);
    const Totals totals = cellar.totals();
    EXPECT_EQ(totals.in, totals.out + totals.on_hand);
    EXPECT_EQ(totals.out, litres(0.1)) << "bottles poured back have not left the cellar";
}

TEST_F(Cellar60L, TheNameOfARetiredVesselCanBeUsedAgain) {
    book.write(on_day(2), VesselLeaves{jar});
    book.vessel(on_day(3), "Jar 23", 30);
    const Cellar cellar = now();
    ASSERT_EQ(cellar.vessels.size(), 3U);
    EXPECT_TRUE(cellar.vessels[1].retired);
    EXPECT_FALSE(cellar.vessels[2].retired);
    EXPECT_EQ(cellar.vessels[2].as.capacity, litres(30));
}

TEST_F(Cellar60L, WhatIsLeftInsideARetiredVesselLeavesWithIt) {
    Addition oak;
    oak.vessel = jar;
    oak.kind = AdditionKind::oak;
    oak.item = oak.name = "oak cubes";
    oak.mass = Mass::from_grams(60);
    oak.contained = true;
    const EntryKey bag = book.write(on_day(5), oak);
    book.write(on_day(6), VesselLeaves{jar});
    EXPECT_EQ(now().additions[0].until, on_day(6));
    book.write(on_day(7), Lift{bag});
    const auto gone = book.cellar();
    ASSERT_FALSE(gone);
    EXPECT_EQ(gone.error().kind, FaultKind::not_there_yet);
}

}  // namespace
}  // namespace undercroft::testing
