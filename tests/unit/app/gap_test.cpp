// What a beer shall be like, and how far it is from that.
#include "app/gap.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class ATarget : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        RegisterVessel vessel;
        vessel.name = "Amber";
        vessel.capacity = "60 L";
        vessel.role = "solera";
        EnterLot lot;
        lot.vessel = "Amber";
        lot.name = "First wort";
        lot.volume = "40 L";
        lot.original_gravity = "1.048";
        lot.gravity = "1.004";
        book.must({vessel, lot}, "2020-01-02");
    }
    void taste(const std::string& taster, const std::string& sour, const std::string& day) {
        TasteIt act;
        act.subject = "Amber";
        act.taster = taster;
        act.scores = {"sour=" + sour};
        book.must({act}, day);
    }
    void read(const std::string& ph, const std::string& day) {
        TakeReading act;
        act.subject = "Amber";
        act.ph = ph;
        book.must({act}, day);
    }
    static SetTarget target(std::vector<std::string> wants, const std::string& like = {}) {
        return {.subject = "Amber", .wants = std::move(wants), .like = like};
    }
    std::string refused_at(const SetTarget& act) {
        const auto booked = book.book({act}, "2025-06-01");
        EXPECT_FALSE(booked);
        return booked ? "" : booked.error().where;
    }
    GapFigure of(const std::string& figure, const std::string& on = {}) {
        const GapView view = book->gap("Amber", {on, {}}).value();
        const auto found = std::find_if(view.figures.begin(), view.figures.end(),
                                        [&](const GapFigure& one) { return one.figure == figure; });
        if (found != view.figures.end()) return *found;
        ADD_FAILURE() << "no " << figure;
        return {};
    }
};

TEST_F(ATarget, IsBesideWhatWasFoundAndTheNewestCounts) {
    EXPECT_TRUE(book->gap("Amber", {}).value().set_on.empty());
    for (const char* taster : {"Ines", "Marit", "Tobias", "Lea"}) taste(taster, "6", "2025-05-01");
    book.must({target({"sour 5 to 7 weight 2", "body at least 3"})}, "2025-05-02");
    EXPECT_EQ(of("sourness").standing, "inside");
    EXPECT_GT(of("sourness").chance, 0.5);
    EXPECT_EQ(of("body").standing, "not known");
    book.must({target({"sour at most 2"})}, "2025-05-03");
    EXPECT_EQ(of("sourness").standing, "outside");
    EXPECT_NEAR(of("sourness").off, *of("sourness").mean - 2.0, 1e-12);
    EXPECT_LT(of("sourness").chance, 0.05);
    EXPECT_EQ(of("sourness", "2025-05-02").standing, "inside") << "the target of that day";
}

TEST_F(ATarget, OneTasterOutsideTheBandIsOnlyPerhapsOutside) {
    taste("Ines", "6", "2025-05-01");
    book.must({target({"sour at most 5"})}, "2025-05-02");
    EXPECT_EQ(of("sourness").standing, "perhaps outside");
}

TEST_F(ATarget, CanBeWhatWasFoundOnADayThatWasLoved) {
    taste("Ines", "6", "2024-05-01");
    taste("Marit", "7", "2024-05-01");
    read("3.40", "2024-04-28");
    taste("Ines", "9", "2025-05-01");
    book.must({target({"body 3 to 5"}, "2024-06-01")}, "2025-05-02");
    EXPECT_DOUBLE_EQ(*of("sourness").low, 5.5);
    EXPECT_DOUBLE_EQ(*of("sourness").high, 7.5);
    EXPECT_DOUBLE_EQ(*of("ph").low, 3.3);
    EXPECT_DOUBLE_EQ(*of("body").low, 3.0) << "what was said comes first";
}

TEST_F(ATarget, CanBeATurnThatWasLovedOrARunOfBottles) {
    RegisterVessel jar;
    jar.name = "Jar";
    jar.capacity = "20 L";
    book.must({jar}, "2021-01-02");
    const auto turn = [&](const std::string& sour, const std::string& year) {
        if (!sour.empty()) taste("Ines", sour, year + "-03-01");
        MoveLiquid pull;
        pull.reason = ledger::Reason::pull;
        pull.from = "Amber";
        pull.to = {{"Jar", "2 L"}};
        book.must({pull}, year + "-03-02");
        EnterLot lot;
        lot.reason = ledger::Reason::refill;
        lot.vessel = "Amber";
        lot.name = "Wort of " + year;
        lot.volume = "2 L";
        lot.original_gravity = "1.048";
        lot.gravity = "1.020";
        book.must({lot}, year + "-03-03");
    };
    turn("4", "2021");
    turn("6", "2022");
    turn("", "2023");
    turn("9", "2024");
    book.must({target({}, "turn 2")}, "2025-05-02");
    EXPECT_DOUBLE_EQ(*of("sourness").low, 5.0);
    EXPECT_DOUBLE_EQ(*of("sourness").high, 7.0);
    EXPECT_EQ(refused_at(target({}, "turn 3")), "like") << "nothing was tasted between the refills";
    EXPECT_EQ(refused_at(target({}, "turn 9")), "like");
    EXPECT_EQ(refused_at(target({}, "the good one")), "like");
    TasteIt glass;
    glass.subject = "Jar";
    glass.taster = "Ines";
    glass.scores = {"sour=3"};
    book.must({glass}, "2025-05-03");
    book.must({target({}, "Jar")}, "2025-05-04");
    EXPECT_DOUBLE_EQ(*of("sourness").low, 2.0);
}

TEST_F(ATarget, SaysWhereABeerDrifts) {
    for (const auto& [day, ph] :
         {std::pair{"2021-03-01", "3.60"}, std::pair{"2022-03-01", "3.51"}, std::pair{"2023-03-01", "3.39"},
          std::pair{"2024-03-01", "3.30"}, std::pair{"2025-03-01", "3.21"}})
        read(ph, day);
    book.must({target({"ph 3.4 to 3.5"})}, "2025-05-02");
    ASSERT_TRUE(of("ph").drift);
    EXPECT_NEAR(*of("ph").drift, -0.099, 0.005);
    EXPECT_LT(of("ph").drift_sd, 0.01);
}

TEST_F(ATarget, SaysNothingOfADriftThatIsLessThanItsDoubt) {
    for (const auto& [day, ph] :
         {std::pair{"2021-03-01", "3.60"}, std::pair{"2022-03-01", "3.40"}, std::pair{"2023-03-01", "3.62"},
          std::pair{"2024-03-01", "3.41"}, std::pair{"2025-03-01", "3.55"}})
        read(ph, day);
    book.must({target({"ph 3.4 to 3.5"})}, "2025-05-02");
    EXPECT_FALSE(of("ph").drift);
}

TEST_F(ATarget, ThatCannotBeMeantIsRefused) {
    EXPECT_EQ(refused_at(target({})), "target");
    EXPECT_EQ(refused_at(target({"lemony 3 to 5"})), "want");
    EXPECT_EQ(refused_at(target({"sour 5 to 7", "sourness 4 to 6"})), "want");
    EXPECT_EQ(refused_at(target({}, "2024-01-01")), "like") << "nothing was found by then";
    EXPECT_EQ(refused_at(target({"sour"})), "want");
}

// A wider band is never less likely to hold the beer, and all the bands that part the scale hold it together.
TEST_F(ATarget, ChancesOfBandsThatPartTheScaleAddUpToOne) {
    taste("Ines", "6", "2025-05-01");
    taste("Marit", "4", "2025-05-01");
    double sum = 0.0;
    int day = 2;
    for (const char* band : {"at most 4", "4 to 5.5", "at least 5.5"}) {
        book.must({target({std::string("sour ") + band})}, "2025-05-0" + std::to_string(day++));
        sum += of("sourness").chance;
    }
    EXPECT_NEAR(sum, 1.0, 1e-12);
}

}  // namespace
}  // namespace undercroft::testing
