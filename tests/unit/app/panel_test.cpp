// What the tasters of a book found, put together.
#include "app/panel.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class APanel : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        for (const char* name : {"Amber", "Other"}) {
            RegisterVessel vessel;
            vessel.name = name;
            vessel.capacity = "60 L";
            vessel.role = "solera";
            EnterLot lot;
            lot.vessel = name;
            lot.name = std::string(name) + " wort";
            lot.volume = "40 L";
            lot.original_gravity = "1.048";
            lot.gravity = "1.004";
            book.must({vessel, lot}, "2024-01-02");
        }
    }
    void taste(const std::string& vessel, const std::string& taster, const std::string& sour, const std::string& funk,
               const std::string& day, std::vector<std::string> faults = {}) {
        TasteIt act;
        act.subject = vessel;
        act.taster = taster;
        act.scores = {"sour=" + sour, "funk=" + funk};
        act.faults = std::move(faults);
        book.must({act}, day);
    }
    static const TastedFigure& of(const PanelView& view, const std::string& attribute) {
        return *std::find_if(view.now.begin(), view.now.end(),
                             [&](const TastedFigure& one) { return one.attribute == attribute; });
    }
};

TEST_F(APanel, OfOneIsTheScoreWithAWideSpreadAndSaysSo) {
    taste("Amber", "Ines", "6", "4", "2025-05-01");
    const PanelView view = book->panel("Amber", {}).value();
    EXPECT_NEAR(of(view, "sourness").mean, 6.0, 0.4);
    EXPECT_GT(of(view, "sourness").sd, 1.0);
    EXPECT_NE(view.words.find("one palate misleads"), std::string::npos);
    EXPECT_NE(of(view, "sourness").why.find("by 1 taster in #"), std::string::npos);
}

TEST_F(APanel, OfThreeIsNarrowerAndKeepsItsCourse) {
    taste("Amber", "Ines", "6", "4", "2025-05-01");
    for (const char* taster : {"Ines", "Marit", "Tobias"}) taste("Amber", taster, "7", "5", "2025-11-01");
    const PanelView view = book->panel("Amber", {}).value();
    EXPECT_EQ(of(view, "sourness").day, "2025-11-01");
    EXPECT_EQ(of(view, "sourness").tasters, 3);
    ASSERT_EQ(view.course.size(), 4U);
    EXPECT_GT(view.course[0].sd, of(view, "sourness").sd);
    EXPECT_EQ(view.tasters.size(), 3U);
}

TEST_F(APanel, LearnsWhoScoresHighFromOtherBeersToo) {
    for (const char* day : {"2024-03-01", "2024-04-01", "2024-05-01", "2024-06-01", "2024-07-01", "2024-08-01"}) {
        taste("Other", "High", "8", "6", day);
        taste("Other", "Low", "5", "4", day);
    }
    taste("Amber", "High", "8", "6", "2025-05-01");
    const PanelView view = book->panel("Amber", {}).value();
    EXPECT_LT(of(view, "sourness").mean, 7.6) << "others would have given less";
    EXPECT_GT(view.tasters.front().offset, 0.4);
}

TEST_F(APanel, NamesFaultsAndWhoMissesWhat) {
    for (const char* day : {"2025-05-01", "2025-06-01", "2025-07-01"}) {
        taste("Amber", "Ines", "6", "6", day, {"mousy"});
        taste("Amber", "Marit", "6", "7", day);
        taste("Amber", "Tobias", "6", "0", day);
    }
    const PanelView view = book->panel("Amber", {}).value();
    ASSERT_EQ(view.faults.size(), 1U);
    EXPECT_EQ(view.faults[0].times, 1);
    EXPECT_EQ(view.faults[0].of, 3);
    const auto tobias = std::find_if(view.tasters.begin(), view.tasters.end(),
                                     [](const TasterLine& one) { return one.taster == "Tobias"; });
    ASSERT_NE(tobias, view.tasters.end());
    ASSERT_EQ(tobias->blind.size(), 1U);
    EXPECT_NE(tobias->blind[0].find("misses farmyard"), std::string::npos);
}

TEST_F(APanel, OfNobodySaysSo) {
    const PanelView view = book->panel("Amber", {}).value();
    EXPECT_NE(view.words.find("Nobody has scored"), std::string::npos);
    EXPECT_EQ(book->panel("Nowhere", {}).error().kind, ErrorKind::not_found);
}

}  // namespace
}  // namespace undercroft::testing
