// Bottles as a keeper asks about them: what has to come back and who has it, what dregs are fit for, how a shelf ages.
#include "app/shelf.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

// A sour solera and a clean one, a portion of the sour one on plum with a killer wine yeast, bottled in two runs.
class Shelf : public ::testing::Test {
protected:
    TestBook book;

    static RegisterVessel vessel(const std::string& name, const std::string& role) {
        RegisterVessel act;
        act.name = name;
        act.capacity = "60 L";
        act.role = role;
        act.material = "steel";
        act.location = name + " corner";
        return act;
    }
    static EnterLot lot(const std::string& name, const std::string& into, const std::string& culture) {
        EnterLot act;
        act.vessel = into;
        act.name = name;
        act.volume = "40 L";
        act.original_gravity = "1.048";
        act.gravity = "1.004";
        act.cultures = {culture};
        return act;
    }
    static PackageRun package(const std::string& from, const std::string& code, int count) {
        PackageRun act;
        act.from = from;
        act.container = "bottle_330_heavy";
        act.count = std::to_string(count);
        act.run = code;
        act.location = "rack 1";
        act.acknowledge = "a test";
        return act;
    }
    static TakeBottles take(const std::string& run, const std::string& count, const std::string& cause,
                            const std::string& who = "") {
        TakeBottles act;
        act.run = run;
        act.count = count;
        act.cause = cause;
        act.person = who;
        return act;
    }
    void SetUp() override {
        book.must({vessel("Sour", "solera"), vessel("Clean", "solera"), vessel("Jar", "finishing"),
                   lot("Sour wort", "Sour", "mixed_sour"), lot("Clean wort", "Clean", "ale_clean")},
                  "2024-01-02");
        MoveLiquid pull;
        pull.reason = ledger::Reason::pull;
        pull.from = "Sour";
        pull.to = {{"Jar", "20 L"}};
        book.must({pull}, "2025-01-02");
        PitchCulture pitch;
        pitch.vessel = "Jar";
        pitch.kind = "wine_killer_k2";
        pitch.name = "Plum yeast";
        book.must({pitch}, "2025-01-03");
        book.must({package("Jar", "PLUM-1", 20)}, "2025-06-01");
        book.must({package("Sour", "PLAIN-1", 10)}, "2025-06-02");
        book.must({take("PLUM-1", "3", "given", "Ines"), take("PLUM-1", "2", "opened")}, "2025-09-01");
    }
    static const RecallPlace* place(const std::vector<RecallPlace>& list, const std::string& name) {
        const auto found =
            std::find_if(list.begin(), list.end(), [&](const RecallPlace& one) { return one.name == name; });
        return found == list.end() ? nullptr : &*found;
    }
    static const DregsUse* into(const DregsView& view, const std::string& solera) {
        const auto found = std::find_if(view.put_back.begin(), view.put_back.end(),
                                        [&](const DregsUse& one) { return one.use == solera; });
        return found == view.put_back.end() ? nullptr : &*found;
    }
};

TEST_F(Shelf, ALotIsRecalledFromEveryVesselRunAndPerson) {
    const RecallView view = book->recall("Sour wort", {}).value();
    EXPECT_EQ(view.what, "lot");
    ASSERT_NE(place(view.vessels, "Sour"), nullptr);
    EXPECT_NEAR(*place(view.vessels, "Sour")->share, 1.0, 1e-9);
    EXPECT_EQ(place(view.vessels, "Sour")->location, "Sour corner");
    EXPECT_EQ(place(view.vessels, "Clean"), nullptr);
    const RecallPlace* plum = place(view.runs, "PLUM-1");
    ASSERT_NE(plum, nullptr);
    EXPECT_EQ(plum->left, 15);
    ASSERT_EQ(plum->received.size(), 1U);
    EXPECT_EQ(plum->received[0].who, "Ines");
    EXPECT_EQ(view.on_hand, 25);
    EXPECT_EQ(view.with_others, 3);
    EXPECT_FALSE(view.cautions.empty());
}

TEST_F(Shelf, ARunThatIsUsedUpIsStillRecalledForThoseWhoGotSome) {
    book.must({take("PLUM-1", "15", "given", "Tobias")}, "2025-10-01");
    const RecallView view = book->recall("Plum yeast", {}).value();
    EXPECT_EQ(view.what, "culture");
    const RecallPlace* plum = place(view.runs, "PLUM-1");
    ASSERT_NE(plum, nullptr);
    EXPECT_EQ(plum->left, 0);
    EXPECT_EQ(plum->received.size(), 2U);
    EXPECT_EQ(place(view.runs, "PLAIN-1"), nullptr);
    EXPECT_EQ(view.on_hand, 0);
    EXPECT_EQ(view.with_others, 18);
}

TEST_F(Shelf, DregsWithAKillerAreToldOfAndStayOutOfACleanSolera) {
    const DregsView view = book->dregs("PLUM-1", {}).value();
    EXPECT_EQ(view.share.answer, "care");
    EXPECT_NE(view.share.why.find("killer K2"), std::string::npos);
    ASSERT_NE(into(view, "Clean"), nullptr);
    EXPECT_EQ(into(view, "Clean")->answer, "no");
    ASSERT_NE(into(view, "Sour"), nullptr);
    EXPECT_EQ(into(view, "Sour")->answer, "care");
    EXPECT_NE(into(view, "Sour")->why.find("would kill"), std::string::npos);
    ASSERT_FALSE(view.displaced.empty());
    EXPECT_NE(view.displaced[0].find("Plum yeast (K2) has likely displaced"), std::string::npos) << view.displaced[0];
    EXPECT_FALSE(view.cautions.empty());
}

TEST_F(Shelf, DregsGoBackWhereAllOfThemLiveAlready) {
    const DregsView view = book->dregs("PLAIN-1", {}).value();
    EXPECT_EQ(into(view, "Sour")->answer, "yes");
    EXPECT_EQ(into(view, "Clean")->answer, "no");
}

TEST_F(Shelf, DregsOfManyYearsArePitchedOnlyWithFreshYeastBeside) {
    book.must({package("Clean", "OLD-1", 5)}, "2025-06-03");
    book.set_clock("2029-06-03T10:00:00.000Z");
    const DregsView view = book->dregs("OLD-1", {}).value();
    EXPECT_EQ(view.pitch.answer, "no");
    EXPECT_EQ(view.share.answer, "no");
    EXPECT_NE(view.share.why.find("Hardly"), std::string::npos);
}

TEST_F(Shelf, ShowsBottlesByPlaceWithWhatWasOpenedAndGiven) {
    TasteIt taste;
    taste.subject = "PLUM-1";
    taste.liking = "8";
    taste.words = "plum skin";
    book.must({taste}, "2025-09-02");
    const ShelfView view = book->shelf({}).value();
    ASSERT_EQ(view.places.size(), 1U);
    EXPECT_EQ(view.places[0].location, "rack 1");
    EXPECT_EQ(view.places[0].containers, 25);
    ASSERT_EQ(view.places[0].runs.size(), 2U);
    const ShelfRun& plum = view.places[0].runs[0];
    EXPECT_EQ(plum.run.run, "PLUM-1");
    EXPECT_EQ(plum.solera, "Sour");
    ASSERT_EQ(plum.opened.size(), 1U);
    EXPECT_EQ(plum.opened[0].liking, 8.0);
    EXPECT_EQ(plum.received.size(), 1U);
    ASSERT_EQ(view.verticals.size(), 1U);
    EXPECT_EQ(view.verticals[0].runs, (std::vector<std::string>{"PLUM-1", "PLAIN-1"}));
    EXPECT_TRUE(view.trends.empty()) << "one tasting shows no trend";
}

TEST_F(Shelf, ARunIsRecalledOnceThoughItsCultureCameTwice) {
    PitchCulture again;
    again.vessel = "Sour";
    again.kind = "wine_killer_k2";
    again.name = "Plum yeast";
    book.must({again}, "2025-02-01");
    MoveLiquid back;
    back.from = "Jar";
    back.to = {{"Sour", "5 L"}};
    book.must({back}, "2025-05-01");
    const RecallView view = book->recall("Plum yeast", {}).value();
    for (const auto* list : {&view.runs, &view.vessels})
        for (const RecallPlace& one : *list)
            EXPECT_EQ(std::count_if(list->begin(), list->end(),
                                    [&](const RecallPlace& other) { return other.name == one.name; }),
                      1)
                << one.name;
    EXPECT_EQ(view.on_hand, 25);
    EXPECT_EQ(view.with_others, 3);
}

TEST_F(Shelf, DregsThatNobodyNamedCountAsWild) {
    EnterLot unnamed = lot("Gift", "Spare", "");
    unnamed.cultures = {};
    book.must({vessel("Spare", "finishing"), unnamed}, "2025-07-01");
    const DregsView view = book->dregs("Spare", {}).value();
    EXPECT_EQ(view.share.answer, "care");
    EXPECT_NE(view.share.why.find("wild"), std::string::npos);
    EXPECT_EQ(into(view, "Clean")->answer, "no");
    EXPECT_EQ(into(view, "Sour")->answer, "care");
}

TEST_F(Shelf, AGushingBottleStaysInDoubtUntilOneIsReadAgain) {
    const auto in_doubt = [&] {
        const ShelfView view = book->shelf({}).value();
        return std::any_of(view.due.begin(), view.due.end(), [](const DueLine& line) { return line.what == "gas"; });
    };
    TasteIt gushed;
    gushed.subject = "PLUM-1";
    gushed.faults = {"gushing"};
    book.must({gushed}, "2025-10-01");
    book.set_clock("2025-10-05T10:00:00.000Z");
    EXPECT_TRUE(in_doubt());
    TakeReading read;
    read.subject = "PLUM-1";
    read.gravity = "1.004";
    book.must({read}, "2025-10-03");
    EXPECT_FALSE(in_doubt());
}

}  // namespace
}  // namespace undercroft::testing
