#include "engine/state/state.hpp"

#include <gtest/gtest.h>

#include "chem/alcohol.hpp"
#include "chem/extract.hpp"
#include "chem/sugar.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;
using engine::LiquidState;
using engine::Provenance;

class StateOfALiquid : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 60);
    EntryKey jug = book.vessel(on_day(0), "Jug", 60);

    void beer(Instant at, const EntryKey& into, double volume, int original, int gravity, std::optional<int> ph = {},
              std::optional<int> ta = {}) {
        LotEnters body;
        body.vessel = into;
        body.name = "Beer";
        body.volume = litres(volume);
        body.original_gravity = Decimal{original, 3};
        body.gravity = Decimal{gravity, 3};
        if (ph) body.ph = Decimal{*ph, 2};
        if (ta) body.ta_g_per_litre = Decimal{*ta, 1};
        book.write(at, body);
    }
    void read(Instant at, const EntryKey& subject, int gravity_4) {
        Reading body;
        body.subject = subject;
        body.values.push_back({Quantity::gravity, Decimal{gravity_4, 4}, "SG"});
        book.write(at, body);
    }
    void read_ph(Instant at, const EntryKey& subject, int ph) {
        Reading body;
        body.subject = subject;
        body.values.push_back({Quantity::ph, Decimal{ph, 2}, "pH"});
        book.write(at, body);
    }
    void plums(Instant at, const EntryKey& into) {
        Addition body;
        body.vessel = into;
        body.kind = AdditionKind::fruit;
        body.item = body.name = "plum";
        body.mass = Mass::from_grams(2000);
        body.brings = litres(2);
        body.contents.glucose = Mass::from_grams(100);
        body.contents.fructose = Mass::from_grams(60);
        body.contents.sorbitol = Mass::from_grams(20);
        body.contents.malic_acid = Mass::from_grams(24);
        book.write(at, body);
    }
    [[nodiscard]] LiquidState state(int vessel) const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        return engine::states_of(*cellar).vessels[static_cast<std::size_t>(vessel)];
    }
    [[nodiscard]] LiquidState run_state() const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        return engine::states_of(*cellar).runs.at(0);
    }
    EntryKey bottle(Instant at, const EntryKey& from, int count, double priming_grams) {
        Package run;
        run.from = from;
        run.run = "RUN-1";
        run.count = count;
        run.fill = litres(0.5);
        run.priming_sugar = Mass::from_grams(priming_grams);
        run.priming_volume = Volume::from_litres(priming_grams * chem::k_litres_per_gram_sugar);
        return book.write(at, run);
    }
};

// Sums in doubles, through the inverse of a cubic.
constexpr double k_exact = 1e-9;

TEST_F(StateOfALiquid, AlcoholFollowsAGravityReadingByBalling) {
    beer(on_day(1), amber, 50, 1050, 1050);
    EXPECT_NEAR(state(0).alcohol()->mean, 0.0, k_exact);
    read(on_day(60), amber, 10100);
    const double expected = chem::attenuation_of(1.050, 1.010)->alcohol_by_volume;
    EXPECT_NEAR(state(0).alcohol()->mean, expected, 0.01);  // composition per litre against the chain by mass
    EXPECT_NEAR(state(0).alcohol()->mean, chem::abv_of(chem::composition_of(1.050, 1.010)), k_exact);
    EXPECT_NEAR(state(0).gravity()->mean, 1.010, k_exact);
    EXPECT_EQ(state(0).gravity()->provenance, Provenance::read);
    EXPECT_EQ(state(0).alcohol()->provenance, Provenance::computed);
    EXPECT_DOUBLE_EQ(state(0).gravity()->sd, 0.00025) << "four decimals carry a quarter of a point";
}

TEST_F(StateOfALiquid, AReadingInPlatoIsTheSameReading) {
    beer(on_day(1), amber, 50, 1050, 1050);
    Reading body;
    body.subject = amber;
    body.values.push_back({Quantity::gravity, Decimal{31, 1}, "P"});
    book.write(on_day(60), body);
    EXPECT_NEAR(state(0).gravity()->mean, chem::gravity_of_plato(3.1), k_exact);
}

TEST_F(StateOfALiquid, AReadingChangesOnlyTheVesselItWasTakenInFromThenOn) {
    beer(on_day(1), amber, 50, 1050, 1020);
    book.move(on_day(2), amber, jar, 20);
    const double before = state(0).gravity()->mean;
    read(on_day(60), jar, 10060);
    EXPECT_NEAR(state(1).gravity()->mean, 1.006, k_exact);
    EXPECT_NEAR(state(0).gravity()->mean, before, k_exact) << "never upstream";
    EXPECT_EQ(state(0).gravity()->provenance, Provenance::stated);
}

TEST_F(StateOfALiquid, BlendsExtractAndAlcoholByVolume) {
    beer(on_day(1), amber, 30, 1060, 1010);
    beer(on_day(1), jar, 10, 1040, 1020);
    book.move(on_day(2), jar, amber, 10);
    const chem::Composition a = chem::composition_of(1.060, 1.010);
    const chem::Composition b = chem::composition_of(1.040, 1.020);
    const LiquidState mixed = state(0);
    EXPECT_NEAR(mixed.composition->ethanol_g_per_l, 0.75 * a.ethanol_g_per_l + 0.25 * b.ethanol_g_per_l, k_exact);
    EXPECT_NEAR(mixed.composition->real_extract_g_per_l, 0.75 * a.real_extract_g_per_l + 0.25 * b.real_extract_g_per_l,
                k_exact);
    EXPECT_EQ(mixed.gravity()->provenance, Provenance::mixed);
    EXPECT_NEAR(mixed.original_gravity, 0.75 * 1.060 + 0.25 * 1.040, k_exact)
        << "a strong wort must not hide what a weak one leaves to ferment";
}

TEST_F(StateOfALiquid, TwoHalvesJoinedAgainKeepTheSpreadOfOne) {
    beer(on_day(1), amber, 50, 1050, 1012, 350, 60);
    const LiquidState whole = state(0);
    book.move(on_day(2), amber, jar, 25);
    book.move(on_day(3), jar, amber, 25);
    const LiquidState again = state(0);
    EXPECT_NEAR(again.gravity()->sd, whole.gravity()->sd, k_exact);
    EXPECT_NEAR(again.alcohol()->sd, whole.alcohol()->sd, k_exact);
    EXPECT_NEAR(again.ta->sd, whole.ta->sd, k_exact);
    EXPECT_NEAR(again.gravity()->mean, whole.gravity()->mean, k_exact);
    EXPECT_GT(whole.gravity()->sd, 0.0);
}

TEST_F(StateOfALiquid, ThePhOfABlendLiesBetweenThoseOfItsPartsAndIsNotAveraged) {
    beer(on_day(1), amber, 30, 1050, 1010, 340);
    beer(on_day(1), jar, 10, 1050, 1010, 420);
    book.move(on_day(2), jar, amber, 10);
    const LiquidState mixed = state(0);
    ASSERT_TRUE(mixed.ph);
    EXPECT_DOUBLE_EQ(mixed.ph->low, 3.40);
    EXPECT_DOUBLE_EQ(mixed.ph->high, 4.20);
    EXPECT_EQ(mixed.ph_estimate()->provenance, Provenance::mixed);
    EXPECT_GE(mixed.ph_estimate()->sd, 0.40) << "it may be either end";
    read_ph(on_day(3), amber, 347);
    EXPECT_DOUBLE_EQ(state(0).ph->low, 3.47);
    EXPECT_DOUBLE_EQ(state(0).ph->high, 3.47);
}

TEST_F(StateOfALiquid, ThePhIsUnknownWhenOnePartsIsAndOnFruit) {
    beer(on_day(1), amber, 30, 1050, 1010, 340);
    beer(on_day(1), jar, 10, 1050, 1010);
    book.move(on_day(2), jar, amber, 10);
    EXPECT_FALSE(state(0).ph);
    read_ph(on_day(3), amber, 347);
    plums(on_day(4), amber);
    EXPECT_FALSE(state(0).ph);
}

TEST_F(StateOfALiquid, FruitSugarIsCountedUntilTwoEqualReadingsShowItFermented) {
    beer(on_day(1), amber, 38, 1050, 1006);
    plums(on_day(2), amber);
    const LiquidState fresh = state(0);
    EXPECT_NEAR(fresh.fruit_sugar_g_per_l, 160.0 / 40.0, k_exact);
    EXPECT_NEAR(fresh.sorbitol_g_per_l, 20.0 / 40.0, k_exact);
    EXPECT_NEAR(fresh.malic_g_per_l, 24.0 / 40.0, k_exact);
    EXPECT_GT(fresh.gravity()->mean, 1.006);
    const double alcohol = fresh.alcohol()->mean;
    read(on_day(20), amber, 10060);
    EXPECT_GT(state(0).alcohol()->mean, alcohol) << "the fruit's sugar became alcohol";
    EXPECT_NEAR(state(0).fruit_sugar_g_per_l, 160.0 / 40.0, k_exact) << "one reading shows nothing";
    read(on_day(21), amber, 10060);
    EXPECT_NEAR(state(0).fruit_sugar_g_per_l, 160.0 / 40.0, k_exact) << "a day apart neither";
    read(on_day(30), amber, 10060);
    EXPECT_EQ(state(0).fruit_sugar_g_per_l, 0.0);
    EXPECT_NEAR(state(0).sorbitol_g_per_l, 20.0 / 40.0, k_exact) << "yeast leaves sorbitol";
}

TEST_F(StateOfALiquid, TheAlcoholOfFruitIsBallingsOfItsSugar) {
    beer(on_day(1), amber, 38, 1050, 1006);
    plums(on_day(2), amber);
    const chem::Composition before = *state(0).composition;
    read(on_day(40), amber, 10060);
    EXPECT_NEAR(state(0).alcohol()->mean, chem::abv_of(chem::fermented_to(before, 1.006)), k_exact);
}

TEST_F(StateOfALiquid, SugarAndFruitDoNotRaiseWhatCountsAsTheWortsGravity) {
    beer(on_day(1), amber, 30, 1050, 1006);
    Addition sugar;
    sugar.vessel = amber;
    sugar.kind = AdditionKind::sugar;
    sugar.item = sugar.name = "table sugar";
    sugar.mass = Mass::from_grams(300);
    sugar.source_kind = LotKind::syrup;
    sugar.brings = Volume::from_litres(300 * chem::k_litres_per_gram_sugar);
    sugar.contents.sucrose = sugar.mass;
    book.write(on_day(2), sugar);
    EXPECT_LE(state(0).original_gravity, 1.050) << "else a yeast would be said to stop where it does not";
    EXPECT_NEAR(state(0).fruit_sugar_g_per_l, 300 * chem::hexose_equivalent(chem::Sugar::sucrose) / (30 + 0.186), 1e-6);
}

TEST_F(StateOfALiquid, JuiceAndSyrupAsLotsBringSugarThatCanFerment) {
    beer(on_day(1), amber, 30, 1050, 1006);
    LotEnters juice;
    juice.vessel = amber;
    juice.name = "Apple juice";
    juice.kind = LotKind::fruit;
    juice.volume = litres(10);
    book.write(on_day(2), juice);
    EXPECT_GT(state(0).fruit_sugar_g_per_l, 20.0) << "a quarter of juice of a usual 1.050, though nobody said";
    EXPECT_GT(state(0).gravity_sd, 0.003);
}

TEST_F(StateOfALiquid, OfNoKnownKindIsAsUncertainAsABeerNobodyDescribed) {
    LotEnters unknown;
    unknown.vessel = amber;
    unknown.name = "Demijohn from the attic";
    unknown.kind = LotKind::unknown;
    unknown.volume = litres(10);
    book.write(on_day(2), unknown);
    EXPECT_EQ(state(0).gravity()->provenance, Provenance::assumed);
    EXPECT_GT(state(0).gravity()->sd, 0.004);
    EXPECT_GT(state(0).alcohol()->sd, 1.0);
}

TEST_F(StateOfALiquid, EvaporationConcentratesWhatDoesNotEvaporate) {
    beer(on_day(1), amber, 38, 1050, 1006, {}, 60);
    plums(on_day(2), amber);
    const LiquidState before = state(0);
    book.loss(on_day(300), amber, 4, LossCause::evaporation);
    const LiquidState after = state(0);
    const double factor = 40.0 / 36.0;
    EXPECT_NEAR(after.ta->mean, before.ta->mean * factor, k_exact);
    EXPECT_NEAR(after.composition->real_extract_g_per_l, before.composition->real_extract_g_per_l * factor, k_exact);
    EXPECT_NEAR(after.malic_g_per_l, before.malic_g_per_l * factor, k_exact);
    EXPECT_NEAR(after.sorbitol_g_per_l, before.sorbitol_g_per_l * factor, k_exact);
    EXPECT_NEAR(after.fruit_sugar_g_per_l, before.fruit_sugar_g_per_l * factor, k_exact);
    EXPECT_NEAR(after.composition->ethanol_g_per_l, before.composition->ethanol_g_per_l, k_exact);
    // A pull does not concentrate.
    book.loss(on_day(301), amber, 6, LossCause::served);
    EXPECT_NEAR(state(0).ta->mean, after.ta->mean, k_exact);
}

TEST_F(StateOfALiquid, IsNeverMoreThanSyrupHoweverMuchIsSaidToHaveEvaporated) {
    beer(on_day(1), amber, 10, 1300, 1300);
    book.loss(on_day(300), amber, 9.5, LossCause::evaporation);
    const auto syrup = state(0).composition;
    ASSERT_TRUE(syrup);
    EXPECT_LT(chem::gravity_of(*syrup), 1.34) << "sugar solution takes no more";
    read(on_day(301), amber, 10'308);
    const LiquidState read_thin = state(0);
    EXPECT_NEAR(read_thin.gravity()->mean, 1.0308, 1e-6) << "what was read wins";
    EXPECT_GE(read_thin.composition->ethanol_g_per_l, 0.0);
    EXPECT_GE(read_thin.composition->real_extract_g_per_l, 0.0);
}

TEST_F(StateOfALiquid, TheSteadyConcentrationUnderEvaporationIsThatOfTheClosedForm) {
    // Derived: c (e + f)/f before the pull and (1 - e) times that after the top-up; e 0.05, f 0.25 give 1.20 and 1.14.
    beer(on_day(1), amber, 50, 1050, 1010, {}, 50);
    for (int turn = 1; turn <= 80; ++turn) {
        book.loss(on_day(turn * 100), amber, 2.5, LossCause::evaporation);
        if (turn == 80) {
            EXPECT_NEAR(state(0).ta->mean / 5.0, 1.20, 1e-6);
        }
        book.loss(on_day(turn * 100 + 1), amber, 12.5, LossCause::served);
        beer(on_day(turn * 100 + 2), amber, 15, 1050, 1010, {}, 50);
    }
    EXPECT_NEAR(state(0).ta->mean / 5.0, 1.14, 1e-6);
}

TEST_F(StateOfALiquid, FoundLiquidIsTakenForTheVesselsOwn) {
    beer(on_day(1), amber, 50, 1050, 1010, 340, 50);
    beer(on_day(1), jar, 10, 1050, 1010, 340, 50);
    Move move;
    move.from = jar;
    move.to = {{amber, litres(8)}};
    move.settlement.found = litres(2);
    book.write(on_day(2), move);
    EXPECT_EQ(state(0).volume, litres(60));
    EXPECT_NEAR(state(0).ta->mean, 5.0, k_exact);
}

TEST_F(StateOfALiquid, ARunKeepsItsOwnWhateverBecomesOfTheVessel) {
    beer(on_day(1), amber, 50, 1050, 1006, 340);
    read(on_day(40), amber, 10060);
    bottle(on_day(41), amber, 20, 0);
    beer(on_day(42), amber, 10, 1080, 1080, 540);
    EXPECT_NEAR(run_state().gravity()->mean, 1.006, k_exact);
    EXPECT_EQ(run_state().volume, litres(10));
    EXPECT_DOUBLE_EQ(run_state().ph->low, 3.40);
    EXPECT_EQ(run_state().watch.size(), 1U);
}

TEST_F(StateOfALiquid, PrimingAddsItsSugarAndLeavesTheEvidenceStanding) {
    beer(on_day(1), amber, 50, 1050, 1006, 340);
    Reading body;
    body.subject = amber;
    body.values.push_back({Quantity::gravity, Decimal{10060, 4}, "SG"});
    body.values.push_back({Quantity::temperature, Decimal{180, 1}, "C"});
    body.values.push_back({Quantity::dissolved_co2, Decimal{9, 1}, "vol"});
    book.write(on_day(40), body);
    bottle(on_day(41), amber, 20, 50);
    const LiquidState run = run_state();
    EXPECT_EQ(run.watch.size(), 1U);
    EXPECT_EQ(run.temperatures_c.size(), 1U);
    EXPECT_TRUE(run.dissolved_co2_g_per_l);
    EXPECT_TRUE(run.ph) << "a percent of sugar solution moves no pH that a meter would show";
    const double sugar =
        run.composition->real_extract_g_per_l - state(0).composition->real_extract_g_per_l * (1.0 - 0.031 / 10.0);
    EXPECT_NEAR(sugar, 5.0, k_exact) << "50 g in 10 L";
}

TEST_F(StateOfALiquid, PrimingDoesNotMakeAnUnreadGravityKnown) {
    LotEnters body;
    body.vessel = amber;
    body.name = "Beer nobody described";
    body.volume = litres(20);
    book.write(on_day(1), body);
    bottle(on_day(2), amber, 20, 50);
    EXPECT_EQ(run_state().gravity()->provenance, Provenance::assumed);
}

TEST_F(StateOfALiquid, TheWatchStartsAnewWithWhateverCanStartItWorking) {
    beer(on_day(1), amber, 30, 1050, 1006);
    read(on_day(10), amber, 10060);
    EXPECT_EQ(state(0).watch.size(), 1U);
    WrittenBook moved = book;
    book.pitch(on_day(11), amber, "House sour");
    EXPECT_TRUE(state(0).watch.empty());
    read(on_day(20), amber, 10060);
    EXPECT_EQ(state(0).watch.size(), 1U);
    plums(on_day(21), amber);
    EXPECT_TRUE(state(0).watch.empty());
    read(on_day(30), amber, 10060);
    beer(on_day(31), amber, 1, 1050, 1006);
    EXPECT_TRUE(state(0).watch.empty());
}

TEST_F(StateOfALiquid, ACleanVesselKeepsTheWatchAndAnUncleanOneEndsIt) {
    beer(on_day(1), amber, 30, 1050, 1006);
    beer(on_day(1), jar, 5, 1050, 1006);
    read(on_day(10), amber, 10060);
    WrittenBook before = book;
    book.move(on_day(11), amber, jug, 10);
    EXPECT_EQ(state(2).watch.size(), 1U) << "the same liquid in a clean vessel";
    book = before;
    book.loss(on_day(11), jar, 5);
    book.move(on_day(12), amber, jar, 10);
    EXPECT_TRUE(state(1).watch.empty()) << "what lives in the residue may start it again";
    book = before;
    book.loss(on_day(11), jar, 5);
    book.write(on_day(12), Care{jar, "hot water"});
    book.move(on_day(13), amber, jar, 10);
    EXPECT_EQ(state(1).watch.size(), 1U);
}

TEST_F(StateOfALiquid, ShowsWhatWasReadThoughTheBooksWortCannotReachIt) {
    beer(on_day(1), amber, 30, 1040, 1030);
    read(on_day(5), amber, 10600);  // somebody had written the wrong gravity
    EXPECT_NEAR(state(0).gravity()->mean, 1.060, k_exact);
    EXPECT_EQ(state(0).alcohol()->provenance, Provenance::assumed);
    EXPECT_GT(state(0).alcohol()->sd, 1.0);
    EXPECT_GE(state(0).original_gravity, 1.060);
    read(on_day(90), amber, 9900);  // and this is drier than 1.060 can become
    EXPECT_NEAR(state(0).gravity()->mean, 0.990, 1e-8);
    EXPECT_GT(state(0).alcohol()->mean, 7.0);
}

TEST_F(StateOfALiquid, FoundInAnEmptyVesselIsABeerNobodyDescribedUntilItIsRead) {
    LotEnters top_up;
    top_up.vessel = amber;
    top_up.name = "Young beer";
    top_up.volume = litres(40);
    top_up.original_gravity = Decimal{1050, 3};
    top_up.gravity = Decimal{1010, 3};
    top_up.settlement.found = litres(20);
    book.write(on_day(2), top_up);
    ASSERT_TRUE(state(0).gravity());
    EXPECT_GT(state(0).gravity()->sd, 0.002);
    read(on_day(3), amber, 10070);
    EXPECT_NEAR(state(0).gravity()->mean, 1.007, k_exact);
}

TEST_F(StateOfALiquid, HopsThatWaitInAnEmptyVesselStartTheWatchAnew) {
    beer(on_day(1), amber, 30, 1050, 1006);
    read(on_day(10), amber, 10060);
    Addition hops;
    hops.vessel = jar;
    hops.kind = AdditionKind::hops;
    hops.item = hops.name = "hops";
    hops.mass = Mass::from_grams(80);
    hops.contained = true;
    book.write(on_day(11), hops);
    book.move(on_day(12), amber, jar, 20);
    EXPECT_TRUE(state(1).watch.empty());
}

TEST_F(StateOfALiquid, OfAnEmptiedVesselIsNothing) {
    beer(on_day(1), amber, 30, 1050, 1006);
    book.move(on_day(2), amber, jar, 30);
    EXPECT_FALSE(state(0).composition);
    EXPECT_FALSE(state(0).gravity());
    EXPECT_EQ(state(1).volume, litres(30));
}

TEST_F(StateOfALiquid, AWarmSampleReadsTooLightAndIsCorrected) {
    Measured measured{Quantity::gravity, Decimal{1010, 3}, "SG"};
    const double corrected = engine::gravity_of_reading(measured, Decimal{300, 1}, nullptr);
    EXPECT_GT(corrected, 1.010);
    EXPECT_NEAR(corrected,
                *chem::gravity_at_20(1.010, Temperature::from_celsius(30.0), Temperature::from_celsius(20.0)), k_exact);
    EXPECT_DOUBLE_EQ(engine::gravity_of_reading(measured, std::nullopt, nullptr), 1.010);
}

}  // namespace
}  // namespace undercroft::testing
