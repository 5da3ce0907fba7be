// Organisms and allergens: what brings them, what carries them, what is left in a vessel that was not cleaned.
#include <gtest/gtest.h>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

class Cultures : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 25);
    EntryKey first = book.lot(on_day(1), amber, "First wort", 54);

    [[nodiscard]] std::optional<Certainty> in(const std::string& vessel, const std::string& culture) const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        for (const CultureHere& here : vessel_named(*cellar, vessel).liquid.cultures)
            if (cellar->cultures[static_cast<std::size_t>(here.culture)].as.name == culture) return here.certainty;
        return std::nullopt;
    }
    [[nodiscard]] std::vector<AllergenHere> allergens_in(const std::string& vessel) const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        return vessel_named(*cellar, vessel).liquid.allergens;
    }
};

TEST_F(Cultures, WhatIsPitchedIsCertainHereAndLikelyWhereItIsCarried) {
    book.pitch(on_day(2), amber, "House sour");
    book.move(on_day(3), amber, jar, 5);
    EXPECT_EQ(in("The Amber", "House sour"), Certainty::certain);
    EXPECT_EQ(in("Jar 23", "House sour"), Certainty::likely);
}

TEST_F(Cultures, WhatIsSuspectedStaysPossibleWhereverItGoes) {
    Pitch pitch;
    pitch.vessel = amber;
    pitch.culture.name = "Wild";
    pitch.suspected = true;
    book.write(on_day(2), pitch);
    book.move(on_day(3), amber, jar, 5);
    EXPECT_EQ(in("The Amber", "Wild"), Certainty::possible);
    EXPECT_EQ(in("Jar 23", "Wild"), Certainty::possible);
}

TEST_F(Cultures, WhatWasPulledBeforeThePitchIsFreeOfIt) {
    book.move(on_day(2), amber, jar, 5);
    book.pitch(on_day(3), amber, "House sour");
    EXPECT_EQ(in("Jar 23", "House sour"), std::nullopt);
}

TEST_F(Cultures, AVesselThatWasEmptiedButNotCleanedMayStillHoldIt) {
    book.pitch(on_day(2), amber, "House sour");
    book.move(on_day(3), amber, jar, 20);
    book.loss(on_day(4), jar, 20);
    EXPECT_EQ(in("Jar 23", "House sour"), Certainty::possible);
    book.lot(on_day(10), jar, "Clean wort", 10);
    EXPECT_EQ(in("Jar 23", "House sour"), Certainty::possible) << "what was filled on the residue";
}

TEST_F(Cultures, CleaningAVesselEndsWhatLivedInIt) {
    book.pitch(on_day(2), amber, "House sour");
    book.move(on_day(3), amber, jar, 20);
    book.loss(on_day(4), jar, 20);
    book.write(on_day(5), Care{jar, "hot water"});
    book.lot(on_day(10), jar, "Clean wort", 10);
    EXPECT_EQ(in("Jar 23", "House sour"), std::nullopt);
    EXPECT_EQ(in("The Amber", "House sour"), Certainty::certain);
}

TEST_F(Cultures, WhatEvaporatedWhollyBeforeAFillingLeavesOnlyItsResidue) {
    book.pitch(on_day(2), amber, "House sour");
    book.move(on_day(3), amber, jar, 2);
    LotEnters refill;
    refill.vessel = jar;
    refill.name = "Young beer";
    refill.volume = litres(25);
    refill.settlement.evaporation = litres(2);
    book.write(on_day(900), refill);
    EXPECT_EQ(in("Jar 23", "House sour"), Certainty::possible);
}

TEST_F(Cultures, LiveLotsAndLiveFruitBringThem) {
    LotEnters lot;
    lot.vessel = jar;
    lot.name = "Bought lambic";
    lot.volume = litres(5);
    lot.cultures.push_back({"Bottle dregs", "mixed_sour", {}, {}, {}});
    book.write(on_day(2), lot);
    Addition fruit;
    fruit.vessel = amber;
    fruit.item = fruit.name = "grapes";
    fruit.kind = AdditionKind::fruit;
    fruit.mass = Mass::from_grams(500);
    fruit.brings = litres(0.4);
    fruit.cultures.push_back({"On the skins", "wild_unknown", {}, {}, {}});
    book.write(on_day(3), fruit);
    EXPECT_EQ(in("Jar 23", "Bottle dregs"), Certainty::certain);
    EXPECT_EQ(in("The Amber", "On the skins"), Certainty::certain);
}

TEST_F(Cultures, MeetingAgainKeepsTheBetterKnowledge) {
    book.pitch(on_day(2), amber, "House sour");
    book.move(on_day(3), amber, jar, 5);
    book.move(on_day(4), jar, amber, 2);
    EXPECT_EQ(in("The Amber", "House sour"), Certainty::certain);
}

TEST_F(Cultures, AllergensThinOutButNeverDropOut) {
    LotEnters lot;
    lot.vessel = jar;
    lot.name = "Treated";
    lot.volume = litres(1);
    lot.allergens = {{"sulphite", Decimal{500, 1}}, {"milk", std::nullopt}};
    book.write(on_day(2), lot);
    book.move(on_day(3), amber, jar, 4);
    const auto here = allergens_in("Jar 23");
    ASSERT_EQ(here.size(), 2U);
    EXPECT_EQ(here[0].group, "milk");
    EXPECT_FALSE(here[0].mg_per_litre) << "unknown never becomes none";
    EXPECT_EQ(here[1].group, "sulphite");
    EXPECT_NEAR(*here[1].mg_per_litre, 10.0, 1e-12);  // 50 mg/L thinned to a fifth
}

TEST_F(Cultures, AnEmptiedVesselKeepsTracesOfAllergensUntilItIsCleaned) {
    LotEnters lot;
    lot.vessel = jar;
    lot.name = "Treated";
    lot.volume = litres(1);
    lot.allergens = {{"sulphite", Decimal{500, 1}}};
    book.write(on_day(2), lot);
    book.loss(on_day(3), jar, 1);
    ASSERT_EQ(allergens_in("Jar 23").size(), 1U);
    EXPECT_FALSE(allergens_in("Jar 23")[0].mg_per_litre);
    book.write(on_day(4), Care{jar, ""});
    EXPECT_TRUE(allergens_in("Jar 23").empty());
}

}  // namespace
}  // namespace undercroft::testing
