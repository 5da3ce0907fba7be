// Stock-takes and calibrations in the replay.
#include <gtest/gtest.h>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

constexpr double k_settle_rounding = 1e-12;  // shares are quotients of whole microlitres in doubles

class AStockTake : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60, 2);
    EntryKey first = book.lot(on_day(1), amber, "First wort", 54);

    static Settle found(const EntryKey& what, double missing, double surplus, LossCause cause = LossCause::unknown) {
        Settle body;
        body.subject = what;
        body.missing = litres(missing);
        body.surplus = litres(surplus);
        body.cause = cause;
        return body;
    }
    EntryKey bottled(int count) {
        Package run;
        run.from = amber;
        run.run = "AMB-1";
        run.count = count;
        run.fill = litres(0.75);
        return book.write(on_day(10), run);
    }
    static Settle counted(const EntryKey& run, int missing, int surplus) {
        Settle body;
        body.subject = run;
        body.found_by = FoundBy::count;
        body.missing_count = missing;
        body.surplus_count = surplus;
        return body;
    }
    [[nodiscard]] Cellar now() const {
        auto cellar = book.cellar();
        EXPECT_TRUE(cellar) << (cellar ? "" : cellar.error().what);
        return std::move(*cellar);
    }
    [[nodiscard]] ReplayFault fault() const {
        const auto cellar = book.cellar();
        EXPECT_FALSE(cellar);
        return cellar ? ReplayFault{} : cellar.error();
    }
};

TEST_F(AStockTake, OfLessTakesTheDifferenceOutByItsCause) {
    book.write(on_day(300), found(amber, 1.6, 0, LossCause::evaporation));
    const Cellar cellar = now();
    EXPECT_EQ(cellar.vessels[0].liquid.volume, litres(52.4));
    EXPECT_EQ(cellar.flows.back().cause, LossCause::evaporation);
    EXPECT_EQ(cellar.totals().out, litres(1.6));
}

TEST_F(AStockTake, OfMoreAddsALotOfUnknownKindAsOldAsWhatIsThere) {
    book.write(on_day(300), found(amber, 0, 0.5));
    const Cellar cellar = now();
    const Liquid& liquid = cellar.vessels[0].liquid;
    EXPECT_EQ(liquid.volume, litres(54.5));
    EXPECT_EQ(cellar.lots.back().kind, LotKind::unknown);
    EXPECT_NEAR(cellar.graph.shares(cellar.lots.back().like, 1).at(0), 1.0, k_settle_rounding);
    EXPECT_NEAR(share_of(cellar, liquid, "found in The Amber"), 0.5 / 54.5, k_settle_rounding);
    EXPECT_EQ(cellar.totals().in, litres(54.5));
}

TEST_F(AStockTake, OfAVesselThatTheBookHasEmptyFindsWhatItHeldLast) {
    const EntryKey jar = book.vessel(on_day(2), "Jar", 60);
    book.move(on_day(3), amber, jar, 54);
    book.write(on_day(4), found(amber, 0, 1));
    const Cellar cellar = now();
    EXPECT_EQ(cellar.vessels[0].liquid.volume, litres(1));
    EXPECT_NEAR(cellar.graph.shares(cellar.lots.back().like, 1).at(0), 1.0, k_settle_rounding);
}

TEST_F(AStockTake, OfAllMissingLeavesTheVesselEmptyWithItsResidue) {
    book.pitch(on_day(2), amber, "House culture");
    book.write(on_day(300), found(amber, 54, 0));
    const Cellar cellar = now();
    EXPECT_EQ(cellar.vessels[0].liquid.volume, Volume{});
    EXPECT_EQ(cellar.vessels[0].liquid.cultures.at(0).certainty, Certainty::possible);
}

TEST_F(AStockTake, MayFindWhatLeftByMistakeButNoMoreThanEverWentIn) {
    book.loss(on_day(2), amber, 10);
    book.write(on_day(3), found(amber, 0, 10));  // 54 went in: the loss was none
    EXPECT_EQ(now().vessels[0].liquid.volume, litres(54));
    book.write(on_day(4), found(amber, 0, 2.7));  // and a twentieth of 54 L for how well that was measured
    EXPECT_EQ(now().vessels[0].liquid.volume, litres(56.7));
    book.write(on_day(5), found(amber, 0, 0.1));
    EXPECT_EQ(fault().kind, FaultKind::never_there);
    EXPECT_EQ(fault().held, litres(56.7));
    EXPECT_EQ(fault().wanted, litres(56.8));
}

TEST_F(AStockTake, FindsNothingInAVesselThatNothingEverEntered) {
    const EntryKey jar = book.vessel(on_day(2), "Jar", 25);
    book.write(on_day(3), found(jar, 0, 1));
    EXPECT_EQ(fault().kind, FaultKind::never_there);
    EXPECT_EQ(fault().held, Volume{});
}

TEST_F(AStockTake, FindsNothingOfWhatWasThereBeforeTheVesselWasCleaned) {
    const EntryKey jar = book.vessel(on_day(2), "Jar", 60);
    book.move(on_day(3), amber, jar, 54);
    book.write(on_day(4), Care{amber, "rinsed"});
    book.write(on_day(5), found(amber, 0, 1));
    EXPECT_EQ(fault().kind, FaultKind::never_there);
}

TEST_F(AStockTake, IsRefusedWhenItMissesMoreThanIsThereOrSaysBoth) {
    const EntryKey one = book.write(on_day(3), found(amber, 54.1, 0));
    EXPECT_EQ(fault().kind, FaultKind::more_than_held);
    const EntryKey two = book.correct(one, found(amber, 1, 1));
    EXPECT_EQ(fault().kind, FaultKind::absurd);
    book.correct(two, found(amber, -1, 0));
    EXPECT_EQ(fault().kind, FaultKind::absurd);
}

TEST_F(AStockTake, NeverFindsMoreThanAVesselTakes) {
    book.lot(on_day(2), amber, "More", 6);
    book.write(on_day(3), found(amber, 0, 1));
    EXPECT_EQ(fault().kind, FaultKind::over_full);
}

TEST_F(AStockTake, CountsBottlesThatAreMissingAndThoseThatAreThereAfterAll) {
    const EntryKey run = bottled(24);
    book.write(on_day(11), counted(run, 3, 0));
    Cellar cellar = now();
    EXPECT_EQ(cellar.runs[0].left, 21);
    EXPECT_EQ(cellar.runs[0].missing, 3);
    EXPECT_EQ(cellar.runs[0].liquid.volume, litres(0.75 * 21));
    EXPECT_EQ(cellar.totals().out, litres(0.75 * 3));
    book.write(on_day(12), counted(run, 0, 2));
    cellar = now();
    EXPECT_EQ(cellar.runs[0].left, 23);
    EXPECT_EQ(cellar.totals().in, (cellar.totals().out + cellar.totals().on_hand));
    book.write(on_day(13), counted(run, 0, 2));
    EXPECT_EQ(fault().kind, FaultKind::never_there);
    EXPECT_EQ(fault().count, 25);
    EXPECT_EQ(fault().held_count, 24);
}

TEST_F(AStockTake, MissesNoMoreBottlesThanThereAre) {
    const EntryKey run = bottled(24);
    book.write(on_day(11), counted(run, 25, 0));
    EXPECT_EQ(fault().kind, FaultKind::bottles_short);
}

TEST_F(AStockTake, ThatIsVoidedLeavesTheBookAsItWas) {
    const EntryKey settle = book.write(on_day(3), found(amber, 2, 0));
    book.strike(settle);
    EXPECT_EQ(now().vessels[0].liquid.volume, litres(54));
    EXPECT_EQ(now().totals().out, Volume{});
}

TEST(ACalibration, HoldsForItsInstrumentAndQuantityFromItsPlaceOnUntilTheNext) {
    WrittenBook book;
    const EntryKey early = book.write(on_day(5), Calibrate{"meter", Quantity::ph, Decimal{-6, 2}, "pH"});
    book.write(on_day(9), Calibrate{"meter", Quantity::ph, Decimal{2, 2}, "pH"});
    book.write(on_day(9), Calibrate{"probe", Quantity::temperature, Decimal{5, 1}, "C"});
    const auto cellar = book.cellar();
    ASSERT_TRUE(cellar);
    EXPECT_EQ(cellar->calibration_at(0, "meter", Quantity::ph), nullptr);
    EXPECT_EQ(cellar->calibration_at(1, "meter", Quantity::ph)->offset, (Decimal{-6, 2}));
    EXPECT_EQ(cellar->calibration_at(3, "meter", Quantity::ph)->offset, (Decimal{2, 2}));
    EXPECT_EQ(cellar->calibration_at(3, "meter", Quantity::temperature), nullptr);
    EXPECT_EQ(cellar->calibration_at(3, "", Quantity::ph), nullptr);
    book.strike(early);
    const auto without = book.cellar();
    EXPECT_EQ(without->calibration_at(1, "meter", Quantity::ph)->offset, (Decimal{2, 2}));
}

}  // namespace
}  // namespace undercroft::testing
