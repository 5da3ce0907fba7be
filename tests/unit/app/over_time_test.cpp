// One vessel over all its time: what it was made of, what was read of it, where it came from and went.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class ASoleraOverTime : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        book.must({vessel("Amber", "solera"), vessel("Jar"), vessel("Keg")}, "2024-01-01");
        book.must({lot("First wort", "40 L", ledger::Reason::fill)}, "2024-01-02");
        book.must({read("1.0100", "18 C")}, "2024-03-01");
        book.must({move("Amber", "Jar", "10 L", ledger::Reason::pull)}, "2024-06-01");
        book.must({lot("Second wort", "10 L", ledger::Reason::refill)}, "2024-06-02");
        book.must({read("2.1 P", "64.4 F")}, "2024-07-01");
        book.must({move("Amber", "Keg", "20 L", ledger::Reason::pull)}, "2024-12-01");
        book.must({lot("Third wort", "20 L", ledger::Reason::refill)}, "2024-12-03");
        book.must({LoseLiquid{"Amber", "2 L", "evaporation"}}, "2025-06-01");
    }
    static RegisterVessel vessel(const std::string& name, const std::string& role = "finishing") {
        RegisterVessel act;
        act.name = name;
        act.capacity = "50 L";
        act.role = role;
        return act;
    }
    static EnterLot lot(const std::string& name, const std::string& volume, ledger::Reason reason) {
        EnterLot act;
        act.vessel = "Amber";
        act.name = name;
        act.volume = volume;
        act.reason = reason;
        act.original_gravity = "1.048";
        act.gravity = "1.012";
        return act;
    }
    static TakeReading read(const std::string& gravity, const std::string& temperature) {
        TakeReading act;
        act.subject = "Amber";
        act.gravity = gravity;
        act.ph = "3.5";
        act.temperature = temperature;
        act.instrument = "long hydrometer";
        return act;
    }
    static MoveLiquid move(const std::string& from, const std::string& to, const std::string& volume,
                           ledger::Reason reason) {
        MoveLiquid act;
        act.reason = reason;
        act.from = from;
        act.to = {{to, volume}};
        return act;
    }
    RiverView river(const std::string& name, const std::string& on = "") {
        const auto view = book->river(name, {on, ""});
        if (view) return *view;
        ADD_FAILURE() << view.error().what;
        return {};
    }
};

TEST_F(ASoleraOverTime, KeepsEveryChangeOfItsMakeUp) {
    const RiverView view = river("#1");
    EXPECT_EQ(view.subject, "Amber");
    EXPECT_EQ(view.kind, "vessel");
    ASSERT_EQ(view.lots.size(), 3U);
    EXPECT_EQ(view.lots[0].name, "First wort");
    EXPECT_EQ(view.lots[2].serial, 3);
    EXPECT_EQ(view.lots[0].brewed_from, "2024-01-02");
    ASSERT_EQ(view.steps.size(), 12U);  // six entries changed it
    EXPECT_TRUE(view.steps[0].parts.empty());
    EXPECT_EQ(view.steps[1].day, "2024-01-02");
    EXPECT_EQ(view.steps[1].volume, Volume::from_litres(40));
    // 30 L of the first and 10 L of the second; of that 20 L stay: 15 and 5; and 20 L of the third.
    const RiverStep& refilled = view.steps[9];
    ASSERT_EQ(refilled.parts.size(), 3U);
    EXPECT_EQ(refilled.parts[0].volume, Volume::from_litres(15));
    EXPECT_EQ(refilled.parts[1].volume, Volume::from_litres(5));
    EXPECT_EQ(refilled.parts[2].volume, Volume::from_litres(20));
    // Evaporation takes of all alike.
    EXPECT_EQ(view.steps[11].volume, Volume::from_litres(38));
    EXPECT_EQ(view.steps[11].parts[0].volume.ul(), 14'250'000);
    for (const RiverStep& step : view.steps) {
        Volume sum;
        for (const RiverPart& part : step.parts) sum += part.volume;
        EXPECT_EQ(sum, step.volume) << step.day;
    }
}

TEST_F(ASoleraOverTime, TellsItsTurnsAndWhatItIsUsedTo) {
    const RiverView view = river("Amber");
    ASSERT_EQ(view.turns.size(), 2U);
    EXPECT_EQ(view.turns[0].day, "2024-06-01");
    EXPECT_EQ(view.turns[0].refilled_day, "2024-06-02");
    EXPECT_EQ(view.turns[0].pulled, Volume::from_litres(10));
    EXPECT_EQ(view.turns[1].refilled, Volume::from_litres(20));
    ASSERT_TRUE(view.usual_pull);
    EXPECT_EQ(*view.usual_pull, Volume::from_litres(20));  // of two the later one
    EXPECT_NEAR(*view.usual_interval_days, 184, 0.5);      // between the two refills
}

TEST_F(ASoleraOverTime, IsShownAsFarAsItHadCome) {
    const RiverView view = river("Amber", "2024-06-01");
    EXPECT_EQ(view.steps.size(), 4U);
    ASSERT_EQ(view.turns.size(), 1U);
    EXPECT_EQ(view.turns[0].refilled_day, "");
    EXPECT_FALSE(view.usual_pull);
}

TEST_F(ASoleraOverTime, TellsItsReadingsInOneUnitEach) {
    const auto view = book->readings("#1", {});
    ASSERT_TRUE(view);
    ASSERT_EQ(view->series.size(), 3U);
    const ReadingSeries& gravity = view->series[0];
    EXPECT_EQ(gravity.quantity, "gravity");
    EXPECT_EQ(gravity.unit, "SG");
    ASSERT_EQ(gravity.points.size(), 2U);
    EXPECT_DOUBLE_EQ(gravity.points[0].value, 1.0100);
    EXPECT_DOUBLE_EQ(gravity.points[0].sd, 0.00025);     // four decimals carry a quarter of a point
    EXPECT_NEAR(gravity.points[1].value, 1.0082, 1e-4);  // 2.1 °P; the ASBC table prints 1.00822 (from memory)
    EXPECT_DOUBLE_EQ(gravity.points[1].sd, 0.0005);
    EXPECT_EQ(gravity.points[0].instrument, "long hydrometer");
    const ReadingSeries& temperature = view->series[2];
    EXPECT_EQ(temperature.unit, "C");
    EXPECT_NEAR(temperature.points[1].value, 18.0, 1e-9);  // 64.4 F
}

TEST_F(ASoleraOverTime, LeavesOutReadingsThatWereTakenBack) {
    const auto entries = book->entries({.subject = "Amber", .kind = "reading"});
    ASSERT_TRUE(entries);
    book.must({VoidEntry{std::to_string(entries->entries[0].number), "misread"}});
    EXPECT_EQ(book->readings("Amber", {})->series[0].points.size(), 1U);
}

TEST_F(ASoleraOverTime, AccountsForAllThatCameIn) {
    const auto view = book->flow("#1", {});
    ASSERT_TRUE(view);
    EXPECT_EQ(view->here, Volume::from_litres(38));
    EXPECT_EQ(view->nodes[0].name, "Amber");
    Volume came;
    Volume went;
    for (const FlowLink& link : view->links) {
        if (link.to == view->nodes[0].id) came += link.volume;
        if (link.from == view->nodes[0].id) went += link.volume;
    }
    EXPECT_EQ(came, Volume::from_litres(70));
    EXPECT_EQ(went + view->here, came);
    const auto volume_to = [&](const std::string& id) {
        for (const FlowLink& link : view->links)
            if (link.to == id) return link.volume;
        return Volume{};
    };
    EXPECT_EQ(volume_to("vessel 2"), Volume::from_litres(10));
    EXPECT_EQ(volume_to("vessel 3"), Volume::from_litres(20));
    EXPECT_EQ(volume_to("out evaporation"), Volume::from_litres(2));
}

TEST_F(ASoleraOverTime, CountsWhatComesBackOnlyOnce) {
    // Dregs of the jar go back: they had been in the vessel before.
    book.must({move("Jar", "Amber", "5 L", ledger::Reason::rack)}, "2025-07-01");
    const auto view = book->flow("Amber", {});
    ASSERT_TRUE(view);
    Volume came;
    Volume went;
    for (const FlowLink& link : view->links) (link.to == view->nodes[0].id ? came : went) += link.volume;
    EXPECT_EQ(came, Volume::from_litres(70));
    EXPECT_EQ(view->here, Volume::from_litres(43));
    EXPECT_EQ(went + view->here, came);
}

TEST_F(ASoleraOverTime, FollowsItsBeerIntoBottlesAndSaysWhatStandsAgainstThem) {
    PackageRun run;
    run.from = "Jar";
    run.run = "AMB-1";
    run.container = "bottle_sparkling_750";
    run.count = "10";
    run.limit = "10 bar";
    run.acknowledge = "for a test";
    book.must({run}, "2025-07-01");
    book.must({TakeBottles{"AMB-1", "4", "given", "Bo", "", ""}}, "2025-08-01");
    const auto view = book->flow("Amber", {});
    ASSERT_TRUE(view);
    bool found = false;
    for (const FlowNode& node : view->nodes) {
        if (node.what != "run") continue;
        found = true;
        EXPECT_EQ(node.name, "AMB-1");
        EXPECT_TRUE(node.mean_age_years);
        for (const FlowLink& link : view->links) {
            if (link.to == node.id) {
                EXPECT_EQ(link.volume, Volume::from_litres(7.5));
            }
        }
    }
    EXPECT_TRUE(found);
    const auto bottles = book->flow("AMB-1", {});
    ASSERT_TRUE(bottles);
    EXPECT_EQ(bottles->here, Volume::from_litres(4.5));
    EXPECT_EQ(bottles->links.back().to, "out given");
    EXPECT_EQ(bottles->links.back().volume, Volume::from_litres(3.0));
}

TEST_F(ASoleraOverTime, AsksNothingOfWhatIsNotThere) {
    EXPECT_EQ(book->river("#99", {}).error().kind, ErrorKind::not_found);
    EXPECT_EQ(book->readings("Cask", {}).error().kind, ErrorKind::not_found);
    EXPECT_EQ(book->flow("Cask", {}).error().kind, ErrorKind::not_found);
    EXPECT_TRUE(river("Keg", "2024-05-01").steps.empty());
}

}  // namespace
}  // namespace undercroft::testing
