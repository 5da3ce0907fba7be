// What cleaning ends and what it does not, what rides on gear, what a treatment kills, what a plate confirms.
#include <gtest/gtest.h>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

class AfterCare : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    EntryKey clean = book.vessel(on_day(0), "Clean tank", 60);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 25);
    EntryKey first = book.lot(on_day(1), amber, "Sour", 40);
    EntryKey second = book.lot(on_day(1), clean, "Lager", 40);
    EntryKey sours = book.pitch(on_day(2), amber, "House sours");

    [[nodiscard]] static const CultureHere* find(const Cellar& cellar, const Liquid& liquid, const std::string& name) {
        for (const CultureHere& here : liquid.cultures)
            if (cellar.cultures[static_cast<std::size_t>(here.culture)].as.name == name) return &here;
        return nullptr;
    }
    [[nodiscard]] std::optional<Certainty> in(const std::string& vessel,
                                              const std::string& culture = "House sours") const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        const CultureHere* here = find(*cellar, vessel_named(*cellar, vessel).liquid, culture);
        return here == nullptr ? std::nullopt : std::optional(here->certainty);
    }
    void read_with(int day, const EntryKey& vessel, const GearNames& gear) {
        Reading reading;
        reading.subject = vessel;
        reading.values = {{Quantity::ph, Decimal{40, 1}, "pH"}};
        reading.gear = gear;
        book.write(on_day(day), reading);
    }
    void move_with(int day, const EntryKey& from, const EntryKey& to, double volume, const GearNames& gear) {
        Move move;
        move.from = from;
        move.to = {{to, litres(volume)}};
        move.gear = gear;
        book.write(on_day(day), move);
    }
    void look_after(int day, const EntryKey& vessel, CareMethod method, bool kill, const GearNames& gear = {},
                    bool in_pores = false) {
        book.write(on_day(day), Care{vessel, "", method, kill, std::nullopt, in_pores, gear});
    }
    // The jar held sour beer and stands empty.
    void soil_the_jar() {
        book.move(on_day(3), amber, jar, 10);
        book.loss(on_day(4), jar, 10);
    }
};

TEST_F(AfterCare, ARinseAndASimpleCleaningKillNothing) {
    soil_the_jar();
    for (const CareMethod method :
         {CareMethod::emptied, CareMethod::rinsed, CareMethod::cleaned, CareMethod::sanitised}) {
        look_after(5, jar, method, false);
        EXPECT_EQ(in("Jar 23"), Certainty::possible) << word(method);
    }
    look_after(6, jar, CareMethod::cleaned, true);
    EXPECT_EQ(in("Jar 23"), std::nullopt);
}

TEST_F(AfterCare, AKillStepThatDoesNotReachThePoresLeavesItPossible) {
    soil_the_jar();
    look_after(5, jar, CareMethod::sanitised, true, {}, true);
    EXPECT_EQ(in("Jar 23"), Certainty::possible);
}

TEST_F(AfterCare, CareAsItWasFirstWrittenEndsWhatLivedThere) {
    soil_the_jar();
    book.write(on_day(5), Care{jar, "hot water"});
    EXPECT_EQ(in("Jar 23"), std::nullopt);
}

TEST_F(AfterCare, WhatIsPitchedIntoAnEmptyVesselIsOnlyPossibleAfterARinse) {
    book.pitch(on_day(3), jar, "Ale yeast");
    EXPECT_EQ(in("Jar 23", "Ale yeast"), Certainty::certain);
    look_after(4, jar, CareMethod::rinsed, false);
    EXPECT_EQ(in("Jar 23", "Ale yeast"), Certainty::possible);
}

TEST_F(AfterCare, ARinseLeavesTracesOfAllergensAndACleaningDoesNot) {
    LotEnters lot;
    lot.vessel = jar;
    lot.name = "Treated";
    lot.volume = litres(1);
    lot.allergens = {{"sulphite", Decimal{50, 0}}};
    book.write(on_day(2), lot);
    book.loss(on_day(3), jar, 1);
    look_after(4, jar, CareMethod::rinsed, true);
    ASSERT_EQ(vessel_named(*book.cellar(), "Jar 23").liquid.allergens.size(), 1U);
    EXPECT_FALSE(vessel_named(*book.cellar(), "Jar 23").liquid.allergens[0].mg_per_litre);
    look_after(5, jar, CareMethod::cleaned, false);
    EXPECT_TRUE(vessel_named(*book.cellar(), "Jar 23").liquid.allergens.empty());
}

TEST_F(AfterCare, GearBringsWhatLivesInOneVesselToTheNextAsPossible) {
    read_with(3, amber, {"thief"});
    read_with(4, clean, {"thief"});
    const auto cellar = book.cellar();
    ASSERT_TRUE(cellar);
    const CultureHere* here = find(*cellar, vessel_named(*cellar, "Clean tank").liquid, "House sours");
    ASSERT_NE(here, nullptr);
    EXPECT_EQ(here->certainty, Certainty::possible);
    EXPECT_EQ(here->since, on_day(4));
    EXPECT_EQ(cellar->gear[static_cast<std::size_t>(here->gear)].name, "thief");
    EXPECT_EQ(cellar->vessels[static_cast<std::size_t>(here->gear_was_in)].as.name, "The Amber");
}

TEST_F(AfterCare, AKillStepOnTheGearComesBetween) {
    read_with(3, amber, {"thief"});
    look_after(4, {}, CareMethod::sanitised, true, {"thief"});
    read_with(5, clean, {"thief"});
    EXPECT_EQ(in("Clean tank"), std::nullopt);
}

TEST_F(AfterCare, RinsedGearStillCarries) {
    read_with(3, amber, {"thief"});
    look_after(4, {}, CareMethod::rinsed, false, {"thief"});
    read_with(5, clean, {"thief"});
    EXPECT_EQ(in("Clean tank"), Certainty::possible);
}

TEST_F(AfterCare, WhatIsOnlyPossibleDoesNotRideOn) {
    read_with(3, amber, {"thief"});
    read_with(4, clean, {"thief"});
    read_with(5, clean, {"pump"});
    book.lot(on_day(5), jar, "Lager", 10);
    read_with(6, jar, {"pump"});
    EXPECT_EQ(in("Jar 23"), std::nullopt);
}

TEST_F(AfterCare, OtherGearCarriesNothing) {
    read_with(3, amber, {"thief"});
    read_with(4, clean, {"pump"});
    EXPECT_EQ(in("Clean tank"), std::nullopt);
}

TEST_F(AfterCare, AHoseBringsItBackIntoTheVesselItDrawsFrom) {
    move_with(3, amber, jar, 5, {"long hose"});
    move_with(4, clean, jar, 5, {"long hose"});
    EXPECT_EQ(in("Clean tank"), Certainty::possible);
    EXPECT_EQ(in("Jar 23"), Certainty::likely);
}

TEST_F(AfterCare, ABottlingHoseMakesItPossibleInTheBottles) {
    read_with(3, amber, {"filler"});
    Package package;
    package.from = clean;
    package.run = "LAG-1";
    package.count = 10;
    package.fill = litres(0.5);
    package.gear = {"filler"};
    book.write(on_day(4), package);
    const auto cellar = book.cellar();
    ASSERT_TRUE(cellar);
    const CultureHere* here = find(*cellar, cellar->runs[0].liquid, "House sours");
    ASSERT_NE(here, nullptr);
    EXPECT_EQ(here->certainty, Certainty::possible);
    EXPECT_NE(here->gear, -1);
}

TEST_F(AfterCare, BeingPouredInAfterwardsIsMoreThanASuspicion) {
    read_with(3, amber, {"thief"});
    read_with(4, clean, {"thief"});
    book.move(on_day(5), amber, clean, 1);
    const auto cellar = book.cellar();
    const CultureHere* here = find(*cellar, vessel_named(*cellar, "Clean tank").liquid, "House sours");
    EXPECT_EQ(here->certainty, Certainty::likely);
    EXPECT_EQ(here->gear, -1);
    EXPECT_EQ(here->since, on_day(4)) << "it may have been there since then";
}

TEST_F(AfterCare, ATreatmentEndsTheKindsItKillsAndLeavesTheOthers) {
    Treat treat;
    treat.subject = amber;
    treat.gone_unless_diastatic = {"mixed_sour"};
    book.write(on_day(3), treat);
    EXPECT_EQ(in("The Amber"), std::nullopt);
    Pitch other;
    other.vessel = clean;
    other.culture.name = "Lager yeast";
    other.culture.kind = "lager_yeast";
    book.write(on_day(4), other);
    treat.subject = clean;
    book.write(on_day(5), treat);
    EXPECT_EQ(in("Clean tank", "Lager yeast"), Certainty::certain);
    treat.gone_unless_diastatic = {};
    treat.perhaps = {"lager_yeast"};
    book.write(on_day(6), treat);
    EXPECT_EQ(in("Clean tank", "Lager yeast"), Certainty::possible);
}

TEST_F(AfterCare, TheEnzymeOfADiastaticYeastOutlivesTheCell) {
    Pitch other;
    other.vessel = clean;
    other.culture.name = "Farm yeast";
    other.culture.kind = "ale_clean";
    other.culture.diastatic = Diastatic::yes;
    book.write(on_day(3), other);
    Treat treat;
    treat.subject = clean;
    treat.gone_unless_diastatic = {"ale_clean"};
    book.write(on_day(4), treat);
    EXPECT_EQ(in("Clean tank", "Farm yeast"), Certainty::possible);
}

TEST_F(AfterCare, SulphiteOfATreatmentIsAQuantityThatThinsOut) {
    Treat treat;
    treat.subject = clean;
    treat.method = Treatment::sulphite;
    treat.allergens = {{"sulphite", Decimal{30, 0}}};
    book.write(on_day(3), treat);
    book.write(on_day(4), treat);
    book.move(on_day(5), clean, amber, 20);  // onto 40 L without
    const auto here = vessel_named(*book.cellar(), "The Amber").liquid.allergens;
    ASSERT_EQ(here.size(), 1U);
    EXPECT_NEAR(*here[0].mg_per_litre, 20.0, 1e-12);  // 60 mg/L in a third of it
}

TEST_F(AfterCare, WhatEvaporatesLeavesItsAllergensBehind) {
    Treat treat;
    treat.subject = clean;
    treat.allergens = {{"sulphite", Decimal{30, 0}}};
    book.write(on_day(3), treat);
    book.loss(on_day(4), clean, 10, LossCause::evaporation);
    EXPECT_NEAR(*vessel_named(*book.cellar(), "Clean tank").liquid.allergens[0].mg_per_litre, 40.0, 1e-12);
}

TEST_F(AfterCare, AnAllergenPutIntoAnEmptyVesselIsOfUnknownAmountInWhatFollows) {
    Addition dry;
    dry.vessel = jar;
    dry.item = dry.name = "dried apricot";
    dry.mass = Mass::from_grams(100);
    dry.allergens = {{"sulphite", Decimal{12, 0}}};
    book.write(on_day(3), dry);
    book.move(on_day(4), clean, jar, 10);
    const auto here = vessel_named(*book.cellar(), "Jar 23").liquid.allergens;
    ASSERT_EQ(here.size(), 1U);
    EXPECT_FALSE(here[0].mg_per_litre) << "never none";
}

TEST_F(AfterCare, NothingIsTreatedInAnEmptyVessel) {
    Treat treat;
    treat.subject = jar;
    book.write(on_day(3), treat);
    ASSERT_FALSE(book.cellar());
    EXPECT_EQ(book.cellar().error().kind, FaultKind::holds_nothing);
}

TEST_F(AfterCare, APlateMakesWhatWasCarriedInCertain) {
    book.move(on_day(3), amber, jar, 5);
    EXPECT_EQ(in("Jar 23"), Certainty::likely);
    book.write(on_day(4), Confirm{jar, "House sours", "plate"});
    EXPECT_EQ(in("Jar 23"), Certainty::certain);
}

TEST_F(AfterCare, NothingIsConfirmedThatNobodyBrought) {
    book.write(on_day(3), Confirm{clean, "House sours", "plate"});
    ASSERT_FALSE(book.cellar());
    EXPECT_EQ(book.cellar().error().kind, FaultKind::no_such_culture);
}

TEST_F(AfterCare, AConfirmationNeedsThePitchItIsAbout) {
    book.write(on_day(3), Confirm{amber, "House sours", "plate"});
    ASSERT_TRUE(book.cellar());
    book.strike(sours);
    EXPECT_FALSE(book.cellar());
}

TEST_F(AfterCare, BothHalvesOfASplitKeepMakeUpAndCultures) {
    book.lot(on_day(3), amber, "Second wort", 10);
    const EntryKey half = book.vessel(on_day(4), "Amber Two", 40);
    Move split;
    split.from = amber;
    split.to = {{half, litres(25)}};
    split.reason = Reason::split;
    book.write(on_day(4), split);
    const auto cellar = book.cellar();
    ASSERT_TRUE(cellar);
    for (const char* name : {"The Amber", "Amber Two"}) {
        const Liquid& liquid = vessel_named(*cellar, name).liquid;
        EXPECT_EQ(liquid.volume, litres(25)) << name;
        EXPECT_NEAR(share_of(*cellar, liquid, "Sour"), 0.8, 1e-12) << name;
        EXPECT_NE(find(*cellar, liquid, "House sours"), nullptr) << name;
    }
}

}  // namespace
}  // namespace undercroft::testing
