// How sure it is that something still lives after years in acid beer (reference: the house rule that Saccharomyces
// falls to possible after 12 months below pH 3.4 without fermentables; common practice, no source).
#include "engine/state/alive.hpp"

#include <gtest/gtest.h>

#include "tables/tables.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

class Old : public ::testing::Test {
protected:
    WrittenBook book;
    tables::Tables tables = tables::load().value();
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 25);

    void beer(int day, const EntryKey& into, double volume, std::int64_t gravity = 1004) {
        LotEnters lot;
        lot.vessel = into;
        lot.name = "Sour";
        lot.volume = litres(volume);
        lot.original_gravity = Decimal{1048, 3};
        lot.gravity = Decimal{gravity, 3};
        book.write(on_day(day), lot);
    }
    void pitch(int day, const EntryKey& into, const std::string& kind) {
        Pitch pitch;
        pitch.vessel = into;
        pitch.culture.name = pitch.culture.kind = kind;
        book.write(on_day(day), pitch);
    }
    void read(int day, const EntryKey& subject, std::int64_t gravity, std::int64_t ph) {
        Reading reading;
        reading.subject = subject;
        reading.values = {{Quantity::gravity, Decimal{gravity, 4}, "SG"}, {Quantity::ph, Decimal{ph, 2}, "pH"}};
        book.write(on_day(day), reading);
    }
    [[nodiscard]] Certainty on(int day, const std::string& kind, std::size_t vessel = 0) const {
        Scope scope;
        scope.until = on_day(day);
        const auto cellar = book.cellar(scope);
        EXPECT_TRUE(cellar);
        const engine::StateBook states = engine::states_of(*cellar);
        for (const CultureHere& here : cellar->vessels[vessel].liquid.cultures)
            if (cellar->cultures[static_cast<std::size_t>(here.culture)].as.kind == kind)
                return engine::certainty_at(here, states.vessels[vessel], tables.culture_row(kind), on_day(day));
        ADD_FAILURE() << "no " << kind;
        return Certainty::possible;
    }
};

TEST_F(Old, SaccharomycesFallsToPossibleAfterAYearInAcidBeerWithNothingToEat) {
    beer(1, amber, 40);
    for (const char* kind : {"ale_clean", "wine_killer_k2"}) pitch(2, amber, kind);
    read(10, amber, 10040, 330);
    for (const char* kind : {"ale_clean", "wine_killer_k2"}) {
        EXPECT_EQ(on(370, kind), Certainty::certain) << kind;
        EXPECT_EQ(on(376, kind), Certainty::possible) << kind;
    }
}

TEST_F(Old, BrettanomycesBacteriaMixedAndDiastaticCulturesDoNotFall) {
    beer(1, amber, 40);
    const char* kinds[] = {"brett_slow", "pedio", "mixed_sour", "wild_unknown", "ale_farmhouse_diastatic"};
    for (const char* kind : kinds) pitch(2, amber, kind);
    read(10, amber, 10040, 320);
    for (const char* kind : kinds) EXPECT_EQ(on(2000, kind), Certainty::certain) << kind;
}

TEST_F(Old, NobodyWhoDidNotReadPHAndGravityKnowsThatItStarved) {
    beer(1, amber, 40);
    pitch(2, amber, "ale_clean");
    EXPECT_EQ(on(2000, "ale_clean"), Certainty::certain);
    read(3, amber, 10040, 345);
    EXPECT_EQ(on(2000, "ale_clean"), Certainty::certain) << "not acid enough";
    read(4, amber, 10150, 330);
    EXPECT_EQ(on(2000, "ale_clean"), Certainty::certain) << "something left to eat";
}

TEST_F(Old, ARefillOrAPitchOrAHigherPHBeginsItAnew) {
    beer(1, amber, 40);
    pitch(2, amber, "ale_clean");
    read(10, amber, 10040, 330);
    const WrittenBook before = book;
    beer(300, amber, 1);
    EXPECT_EQ(on(500, "ale_clean"), Certainty::certain);
    book = before;
    pitch(300, amber, "lager_yeast");
    EXPECT_EQ(on(500, "ale_clean"), Certainty::certain);
    book = before;
    read(300, amber, 10040, 350);
    read(310, amber, 10040, 330);
    EXPECT_EQ(on(600, "ale_clean"), Certainty::certain);
    EXPECT_EQ(on(680, "ale_clean"), Certainty::possible);
}

TEST_F(Old, FoundAliveOnAPlateItIsCertainForAnotherYear) {
    beer(1, amber, 40);
    pitch(2, amber, "ale_clean");
    read(10, amber, 10040, 330);
    book.write(on_day(500), Confirm{amber, "ale_clean", "plate"});
    EXPECT_EQ(on(499, "ale_clean"), Certainty::possible);
    EXPECT_EQ(on(501, "ale_clean"), Certainty::certain);
    EXPECT_EQ(on(870, "ale_clean"), Certainty::possible);
}

TEST_F(Old, WhatHasFallenDoesNotRiseWithARefillButWithWhatComesIn) {
    beer(1, amber, 40);
    pitch(2, amber, "ale_clean");
    read(10, amber, 10040, 330);
    beer(400, amber, 1);
    EXPECT_EQ(on(399, "ale_clean"), Certainty::possible);
    EXPECT_EQ(on(401, "ale_clean"), Certainty::possible) << "the dead do not rise";
    EXPECT_EQ(on(3000, "ale_clean"), Certainty::possible);
    book.move(on_day(500), amber, jar, 5);
    EXPECT_EQ(on(501, "ale_clean", 1), Certainty::possible) << "nor in a clean jar";
    book.write(on_day(600), Confirm{amber, "ale_clean", "plate"});
    EXPECT_EQ(on(601, "ale_clean"), Certainty::certain);
    book.move(on_day(700), amber, jar, 1);
    EXPECT_EQ(on(701, "ale_clean", 1), Certainty::likely) << "now it comes in alive";
}

TEST_F(Old, AllOfItInACleanJarGoesOnStarving) {
    beer(1, amber, 20);
    pitch(2, amber, "ale_clean");
    read(10, amber, 10040, 330);
    book.move(on_day(200), amber, jar, 20);
    EXPECT_EQ(on(300, "ale_clean", 1), Certainty::likely);
    EXPECT_EQ(on(380, "ale_clean", 1), Certainty::possible);
}

// DESIGN 5, rule 11: sources shared by both sides of a blend are correlated.
TEST_F(Old, TwoHalvesThatAreJoinedAgainHaveTheSpreadOfOne) {
    LotEnters lot;
    lot.vessel = amber;
    lot.name = "Sour";
    lot.volume = litres(20);
    lot.original_gravity = Decimal{1048, 3};
    lot.gravity = Decimal{1006, 3};
    lot.ta_g_per_litre = Decimal{62, 1};
    lot.ph = Decimal{34, 1};
    lot.ibu = Decimal{12, 0};
    lot.colour_ebc = Decimal{14, 0};
    book.write(on_day(1), lot);
    const auto state = [this] { return engine::states_of(*book.cellar()).vessels[0]; };
    const engine::LiquidState whole = state();
    Move split;
    split.from = amber;
    split.to = {{jar, litres(10)}};
    split.reason = Reason::split;
    book.write(on_day(2), split);
    book.move(on_day(3), jar, amber, 10);
    const engine::LiquidState again = state();
    EXPECT_NEAR(again.gravity()->mean, whole.gravity()->mean, 1e-12);
    EXPECT_NEAR(again.gravity()->sd, whole.gravity()->sd, 1e-12);
    EXPECT_NEAR(again.alcohol()->sd, whole.alcohol()->sd, 1e-12);
    EXPECT_NEAR(again.ta->sd, whole.ta->sd, 1e-12);
    EXPECT_NEAR(again.ibu->sd, whole.ibu->sd, 1e-12);
    EXPECT_NEAR(again.colour_ebc->sd, whole.colour_ebc->sd, 1e-12);
    EXPECT_NEAR(again.ph_estimate()->sd, whole.ph_estimate()->sd, 1e-12);
}

TEST_F(Old, WhatRodeInOnGearEndsTheWatch) {
    beer(1, amber, 20);
    beer(1, jar, 10);
    pitch(2, amber, "mixed_sour");
    read(10, jar, 10040, 430);
    Reading with_thief;
    with_thief.subject = amber;
    with_thief.values = {{Quantity::gravity, Decimal{10040, 4}, "SG"}};
    with_thief.gear = {"thief"};
    book.write(on_day(11), with_thief);
    with_thief.subject = jar;
    book.write(on_day(12), with_thief);
    EXPECT_EQ(engine::states_of(*book.cellar()).vessels[1].watch.size(), 1U) << "only the reading that brought it";
}

}  // namespace
}  // namespace undercroft::testing
