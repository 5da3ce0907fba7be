// A book that cannot be names the entry that does not fit, with the figures.
#include <gtest/gtest.h>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

class Refused : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 25);
    EntryKey first = book.lot(on_day(1), amber, "First wort", 54);

    [[nodiscard]] ReplayFault fault() const {
        const auto cellar = book.cellar();
        if (cellar) {
            ADD_FAILURE() << "the book is possible";
            return {};
        }
        return cellar.error();
    }
};

TEST_F(Refused, MoreThanAVesselHolds) {
    const EntryKey pull = book.move(on_day(2), amber, jar, 20, 34.5);
    EXPECT_EQ(fault().kind, FaultKind::more_than_held);
    EXPECT_EQ(fault().entry, pull);
    EXPECT_EQ(fault().what, "The Amber");
    EXPECT_EQ(fault().wanted, litres(54.5));
    EXPECT_EQ(fault().held, litres(54));
}

TEST_F(Refused, MoreThanAVesselHoldsByOneMicrolitre) {
    Loss loss{amber, litres(54) + Volume::from_ul(1), LossCause::dump};
    book.write(on_day(2), loss);
    EXPECT_EQ(fault().kind, FaultKind::more_than_held);
    EXPECT_EQ(fault().wanted - fault().held, Volume::from_ul(1));
}

TEST_F(Refused, MoreThanAVesselHasRoomFor) {
    book.lot(on_day(2), amber, "Second wort", 6.5);
    EXPECT_EQ(fault().kind, FaultKind::over_full);
    EXPECT_EQ(fault().wanted, litres(60.5));
    EXPECT_EQ(fault().held, litres(60));
}

TEST_F(Refused, FruitThatDoesNotFitBrimful) {
    Addition plums;
    plums.vessel = amber;
    plums.kind = AdditionKind::fruit;
    plums.item = plums.name = "plum";
    plums.mass = Mass::from_grams(8000);
    plums.brings = litres(5);
    plums.solids = litres(1.5);
    book.write(on_day(2), plums);
    EXPECT_EQ(fault().kind, FaultKind::over_full);
    EXPECT_EQ(fault().held, litres(58.5));
}

TEST_F(Refused, MoreBottlesThanAreLeft) {
    Package run;
    run.from = amber;
    run.run = "AMB-20-1";
    run.count = 12;
    run.fill = litres(0.33);
    const EntryKey bottles = book.write(on_day(2), run);
    Take take;
    take.run = bottles;
    take.count = 13;
    book.write(on_day(3), take);
    EXPECT_EQ(fault().kind, FaultKind::bottles_short);
    EXPECT_EQ(fault().what, "AMB-20-1");
    EXPECT_EQ(fault().count, 13);
    EXPECT_EQ(fault().held_count, 12);
}

TEST_F(Refused, ASecondVesselOrRunOfOneName) {
    WrittenBook vessels = book;
    vessels.vessel(on_day(2), "Jar 23", 10);
    EXPECT_EQ(vessels.cellar().error().kind, FaultKind::name_taken);
    Package run;
    run.from = amber;
    run.run = "AMB-20-1";
    run.count = 2;
    run.fill = litres(0.33);
    book.write(on_day(2), run);
    book.write(on_day(3), run);
    EXPECT_EQ(fault().kind, FaultKind::name_taken);
    EXPECT_EQ(fault().what, "AMB-20-1");
}

TEST_F(Refused, PouringAVesselIntoItself) {
    book.move(on_day(2), amber, amber, 5);
    EXPECT_EQ(fault().kind, FaultKind::same_vessel);
}

TEST_F(Refused, RetiringOrCleaningAVesselThatHoldsLiquid) {
    WrittenBook cleaned = book;
    cleaned.write(on_day(2), Care{amber, ""});
    EXPECT_EQ(cleaned.cellar().error().kind, FaultKind::not_empty);
    EXPECT_EQ(cleaned.cellar().error().held, litres(54));
    book.write(on_day(2), VesselLeaves{amber});
    EXPECT_EQ(fault().kind, FaultKind::not_empty);
}

TEST_F(Refused, UsingAVesselBeforeItJoinsOrAfterItLeft) {
    WrittenBook early = book;
    early.lot(Instant{on_day(0).ms - 1000}, jar, "Too early", 5);
    EXPECT_EQ(early.cellar().error().kind, FaultKind::not_there_yet);
    book.write(on_day(2), VesselLeaves{jar});
    book.lot(on_day(3), jar, "Too late", 5);
    EXPECT_EQ(fault().kind, FaultKind::not_there_yet);
    EXPECT_EQ(fault().what, "Jar 23");
}

TEST_F(Refused, WhatNamesNothingInTheBook) {
    book.lot(on_day(2), EntryKey{sitting_key(77), 0}, "Nowhere", 5);
    EXPECT_EQ(fault().kind, FaultKind::unknown_reference);
}

TEST_F(Refused, AmountsOfNothingOrBelow) {
    const auto refused = [this](Body body) {
        WrittenBook with = book;
        with.write(on_day(2), std::move(body));
        const auto cellar = with.cellar();
        return !cellar && cellar.error().kind == FaultKind::absurd;
    };
    EXPECT_TRUE(refused(Loss{amber, Volume{}, LossCause::dump}));
    EXPECT_TRUE(refused(Loss{amber, litres(-1), LossCause::dump}));
    Move move;
    move.from = amber;
    EXPECT_TRUE(refused(move)) << "into nothing";
    move.to = {{jar, litres(-2)}};
    EXPECT_TRUE(refused(move));
    move.to = {{jar, litres(2)}};
    move.loss = litres(-1);
    EXPECT_TRUE(refused(move));
    move.loss = Volume{};
    move.settlement.found = litres(-1);
    EXPECT_TRUE(refused(move));
    LotEnters lot;
    lot.vessel = jar;
    EXPECT_TRUE(refused(lot));
    Reading reading;
    reading.subject = amber;
    reading.sample = litres(-0.1);
    EXPECT_TRUE(refused(reading));
    Package run;
    run.from = amber;
    run.run = "R";
    run.fill = litres(0.33);
    run.count = 0;
    EXPECT_TRUE(refused(run));
    run.count = 3;
    run.priming_volume = litres(1);
    EXPECT_TRUE(refused(run)) << "more syrup than bottles";
    VesselJoins vessel;
    vessel.name = "Flat";
    EXPECT_TRUE(refused(vessel));
    vessel.capacity = litres(5);
    vessel.ullage = litres(5);
    EXPECT_TRUE(refused(vessel));
}

TEST_F(Refused, AFillingToFullOfSeveralVesselsAtOnce) {
    const EntryKey jug = book.vessel(on_day(1), "Jug", 5);
    Move move;
    move.from = amber;
    move.to = {{jar, litres(2)}, {jug, litres(2)}};
    move.settlement.found = litres(1);
    book.write(on_day(2), move);
    EXPECT_EQ(fault().kind, FaultKind::absurd);
}

}  // namespace
}  // namespace undercroft::testing
