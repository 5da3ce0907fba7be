// What a fault means here: it goes with its beer, holds back what it forbids, and ends by tasting clear.
#include "app/faults.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "app/panel.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class AFaultInTheCellar : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        for (const char* name : {"Amber", "Jar", "Keg"}) {
            RegisterVessel vessel;
            vessel.name = name;
            vessel.capacity = "60 L";
            vessel.role = std::string(name) == "Amber" ? "solera" : "finishing";
            book.must({vessel}, "2024-01-02");
        }
        EnterLot lot;
        lot.vessel = "Amber";
        lot.name = "First wort";
        lot.volume = "40 L";
        lot.original_gravity = "1.048";
        lot.gravity = "1.004";
        book.must({lot}, "2024-01-02");
    }
    static TasteIt tasting(const std::string& of, std::vector<std::string> faults,
                           std::vector<std::string> scores = {}) {
        TasteIt act;
        act.subject = of;
        act.taster = "Ines";
        act.faults = std::move(faults);
        act.scores = std::move(scores);
        act.words = "looked for it";
        return act;
    }
    static MoveLiquid move(const std::string& from, const std::string& volume, const std::string& to,
                           const std::string& why = {}) {
        MoveLiquid act;
        act.reason = ledger::Reason::rack;
        act.from = from;
        act.to = {{to, volume}};
        act.acknowledge = why;
        return act;
    }
    static PackageRun package(const std::string& from, const std::string& why) {
        PackageRun act;
        act.from = from;
        act.container = "bottle_sparkling_750";
        act.count = "4";
        act.acknowledge = why;
        return act;
    }
    Error refused(std::vector<Act> acts, const std::string& when) {
        const auto booked = book.book(std::move(acts), when);
        EXPECT_FALSE(booked) << "it was booked";
        return booked ? Error{} : booked.error();
    }
    std::vector<FaultMeaning> standing(const std::string& name) { return book->panel(name, {}).value().standing; }
};

TEST_F(AFaultInTheCellar, IsNamedByAnyOfItsWordsAndAnUnknownOneIsAnsweredWithTheNearest) {
    book.must({tasting("Amber", {"mouse"}, {"Sour=6", "oak=2"})}, "2025-01-01");
    const auto unknown = refused({tasting("Amber", {}, {"sournes=6"})}, "2025-01-02");
    EXPECT_EQ(unknown.where, "score");
    EXPECT_NE(unknown.next_step.find("sourness"), std::string::npos) << unknown.next_step;
    EXPECT_EQ(refused({tasting("Amber", {"mousi"})}, "2025-01-02").where, "fault");
    EXPECT_EQ(refused({tasting("Amber", {}, {"sour=6", "sourness=5"})}, "2025-01-02").where, "score")
        << "two words for one attribute";
    EXPECT_EQ(refused({tasting("Amber", {"mouse", "mousy"})}, "2025-01-02").where, "fault");
}

TEST_F(AFaultInTheCellar, OfTheKeepersOwnIsDefinedOnceAndKnownFromThen) {
    TasteIt act = tasting("Amber", {"chalky"}, {"salty=4"});
    EXPECT_EQ(refused({act}, "2025-01-01").where, "score");
    act.defines = {"salty: like sea water", "chalky: blackboard dust"};
    book.must({act}, "2025-01-01");
    book.must({tasting("Amber", {}, {"salty=3"})}, "2025-01-03");
    book.must({tasting("Amber", {}, {"salty=2"})}, "2024-06-01");  // an old note, booked late
    ASSERT_EQ(standing("Amber").size(), 1u);
    EXPECT_TRUE(standing("Amber")[0].blocks_packaging) << "nobody else knows it";
    act.defines = {"sourness: sharp"};
    EXPECT_EQ(refused({act}, "2025-01-04").where, "define") << "the tables explain it already";
    act.defines = {"salty"};
    EXPECT_EQ(refused({act}, "2025-01-04").where, "define");
}

TEST_F(AFaultInTheCellar, GoesWithItsBeerAndEndsByTastingClearThere) {
    book.must({tasting("Amber", {"mousy"})}, "2025-01-01");
    book.must({move("Amber", "10 L", "Jar")}, "2025-01-10");
    ASSERT_EQ(standing("Jar").size(), 1u);
    EXPECT_EQ(standing("Jar")[0].from, "Amber");
    EXPECT_EQ(standing("Jar")[0].answer, engine::taste::FaultAnswer::wait);
    book.must({tasting("Jar", {})}, "2025-03-01");
    book.must({tasting("Jar", {})}, "2025-04-01");
    EXPECT_TRUE(standing("Jar").empty());
    EXPECT_EQ(standing("Amber").size(), 1u) << "nobody tasted that one again";
}

TEST_F(AFaultInTheCellar, IsGoneFromAVesselThatRanEmptyUnlessItSticksToTheVessel) {
    book.must({move("Amber", "10 L", "Jar")}, "2025-01-01");
    book.must({tasting("Jar", {"mousy", "musty"})}, "2025-01-02");
    book.must({move("Jar", "all", "Keg", "to have it out")}, "2025-01-03");
    ASSERT_EQ(standing("Keg").size(), 2u);
    book.must({move("Amber", "10 L", "Jar", "nothing else is free")}, "2025-01-04");
    ASSERT_EQ(standing("Jar").size(), 1u);
    EXPECT_EQ(standing("Jar")[0].id, "musty_cork");
}

TEST_F(AFaultInTheCellar, HoldsBackWhatItForbidsUntilItIsSaidWhy) {
    book.must({tasting("Amber", {"mousy"})}, "2025-01-01");
    const Error error = refused({package("Amber", "")}, "2025-02-01");
    EXPECT_NE(error.what.find("Mousy"), std::string::npos) << error.what;
    book.must({package("Amber", "for vinegar trials only")}, "2025-02-01");
    book.must({tasting("Jar", {"musty"})}, "2025-02-02");
    book.must({move("Amber", "10 L", "Keg")}, "2025-02-03");
    EXPECT_EQ(refused({move("Keg", "2 L", "Jar")}, "2025-02-04").kind, ErrorKind::impossible)
        << "a musty vessel is not filled";
}

TEST_F(AFaultInTheCellar, ThatIsolatesKeepsBeerFromMovingOut) {
    book.must({tasting("Amber", {"musty"})}, "2025-01-01");
    EXPECT_EQ(refused({move("Amber", "5 L", "Jar")}, "2025-01-02").kind, ErrorKind::impossible);
    book.must({move("Amber", "5 L", "Jar", "to pour away outdoors")}, "2025-01-02");
    EXPECT_EQ(standing("Jar").size(), 1u);
}

TEST_F(AFaultInTheCellar, ThatIsolatesHoldsBackTheEndAndTheSplitOfItsVesselToo) {
    book.must({tasting("Amber", {"musty"})}, "2025-01-01");
    const EndVessel end{.vessel = "Amber", .to = {{"Jar", "10 L"}}, .dump = true};
    EXPECT_EQ(refused({end}, "2025-01-02").kind, ErrorKind::impossible);
    SplitVessel split{.vessel = "Amber", .into = "Two", .volume = "10 L", .fresh = {}};
    split.fresh.capacity = "20 L";
    EXPECT_EQ(refused({split}, "2025-01-02").kind, ErrorKind::impossible);
    split.acknowledge = "for vinegar";
    book.must({split}, "2025-01-02");
    EndVessel last = end;
    last.acknowledge = "for vinegar";
    book.must({last}, "2025-01-03");
}

TEST_F(AFaultInTheCellar, ThatIsUnsafeIsNeverPackagedWhateverIsSaid) {
    book.must({tasting("Amber", {"mould"})}, "2025-01-01");
    EXPECT_EQ(refused({package("Amber", "I want to")}, "2025-01-02").kind, ErrorKind::impossible);
}

}  // namespace
}  // namespace undercroft::testing
