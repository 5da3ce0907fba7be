// Old soleras remembered, new ones founded, running ones changed.
#include <gtest/gtest.h>

#include "engine/age/solera.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

RegisterVessel barrel(const std::string& name, const std::string& capacity) {
    RegisterVessel act;
    act.name = name;
    act.capacity = capacity;
    act.role = "solera";
    return act;
}

EnterLot wort(const std::string& vessel, const std::string& name, ledger::Reason reason = ledger::Reason::fill) {
    EnterLot act;
    act.vessel = vessel;
    act.name = name;
    act.reason = reason;
    act.to_full = true;
    act.original_gravity = "1.048";
    act.gravity = "1.006";
    return act;
}

TakeReading reading(const std::string& vessel, const std::string& gravity) {
    TakeReading act;
    act.subject = vessel;
    act.gravity = gravity;
    return act;
}

class AnOldSolera : public ::testing::Test {
protected:
    TestBook book;
    RememberRequest answers;
    void SetUp() override {
        book.must({barrel("Barrel", "60 L")});
        answers.vessel = "Barrel";
        answers.founded = "2014";
        answers.share = "a third";
        answers.every = "8 months";
        answers.gravity = "1.004";
        answers.alcohol = "6";
    }
    engine::Age age() {
        AgeRequest request;
        request.name = "Barrel";
        const auto view = book->age(request);
        if (view) return view->age;
        ADD_FAILURE() << view.error().what;
        return {};
    }
    RememberView must(bool keep) {
        answers.keep = keep;
        const auto view = book->remember(answers);
        if (view) return *view;
        ADD_FAILURE() << view.error().where << ": " << view.error().what;
        return {};
    }
};

TEST_F(AnOldSolera, IsAWhatIfUntilItIsKeptAndThenWhatTheWhatIfShowed) {
    const RememberView what_if = must(false);
    EXPECT_FALSE(what_if.sitting.booked);
    EXPECT_EQ(book.held("Barrel"), Volume{});
    const RememberView kept = must(true);
    EXPECT_TRUE(kept.sitting.booked);
    EXPECT_EQ(book.held("Barrel"), Volume::from_litres(60));
    ASSERT_EQ(what_if.lots.size(), kept.lots.size());
    EXPECT_EQ(what_if.sitting.after[0].from_brew_day->mean_years, kept.sitting.after[0].from_brew_day->mean_years);
    // T/f from the last refill, which lies half an interval back on average; the founding cuts a little off.
    EXPECT_NEAR(age().mean_years, (8.0 / 12.0) * (3.0 - 1.0) + 4.0 / 12.0, 0.1);
    EXPECT_TRUE(age().assumed);
    for (const auto& part : age().parts) EXPECT_TRUE(part.assumed) << part.name;
}

TEST_F(AnOldSolera, StaysAssumedHoweverOftenItIsRead) {
    must(true);
    book.pass(60);
    for (int n = 0; n < 5; ++n) {
        book.must({reading("Barrel", "1.0040")});
        book.pass(60);
    }
    EXPECT_TRUE(age().assumed) << "a reading of today says nothing of the past";
    // A third out and in, until less than 1 % of what was remembered is left.
    for (int n = 1; n <= 12; ++n) {
        EXPECT_TRUE(age().assumed) << n;
        book.must({LoseLiquid{"Barrel", "a third", "served"}, wort("Barrel", "Known wort", ledger::Reason::refill)});
        book.pass(60);
    }
    EXPECT_FALSE(age().assumed) << "(2/3)^12 is 0.8 %";
}

TEST_F(AnOldSolera, IsNotBookedOnAnswersThatContradictEachOther) {
    answers.founded = "2024-03-14";
    answers.share = "half";
    answers.every = "73 days";  // five a year
    answers.original = "a third";
    answers.keep = true;
    const auto refused = book->remember(answers);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_NE(refused.error().what.find("10 refills of 50 % leave 0.1 %"), std::string::npos) << refused.error().what;
    EXPECT_FALSE(refused.error().facts.empty());
    EXPECT_EQ(book.held("Barrel"), Volume{});

    answers.original = "";
    answers.refill = "10 L";
    const auto volumes = book->remember(answers);
    ASSERT_FALSE(volumes);
    EXPECT_NE(volumes.error().what.find("10 L is 17 % of 60 L, not 50 %"), std::string::npos);
    answers.share = "";
    const auto alone = book->remember(answers);
    ASSERT_TRUE(alone) << "the usual refill alone will do";
    EXPECT_FALSE(alone->sitting.entries.empty());
    const auto twice = book->remember(answers);
    EXPECT_FALSE(twice) << "the vessel is full now";
}

TEST_F(AnOldSolera, IsRefusedWithoutTheAnswersItNeeds) {
    for (std::string RememberRequest::*field :
         {&RememberRequest::founded, &RememberRequest::share, &RememberRequest::every}) {
        RememberRequest without = answers;
        without.*field = "";
        const auto refused = book->remember(without);
        ASSERT_FALSE(refused);
        EXPECT_EQ(refused.error().kind, ErrorKind::bad_input);
    }
    answers.holds = "70 L";
    EXPECT_EQ(book->remember(answers).error().kind, ErrorKind::impossible);
    answers.holds = "";
    answers.vessel = "Nobody";
    EXPECT_EQ(book->remember(answers).error().kind, ErrorKind::not_found);
}

TEST_F(AnOldSolera, IsNarrowedByALaterFindThatSupersedes) {
    answers.every = "1 year";
    answers.last_refill = "2026-01-01";
    must(true);
    const engine::Age before = age();
    book.pass(60 * 24 * 30);
    book.must({LoseLiquid{"Barrel", "half", "served"}, wort("Barrel", "Known wort", ledger::Reason::refill)});
    answers.known = "2021=half";
    answers.seen = "2021-12-15";
    const RememberView what_if = must(false);
    const RememberView found = must(true);
    EXPECT_TRUE(found.sitting.booked);
    EXPECT_EQ(what_if.lots.size(), found.lots.size());
    EXPECT_EQ(book.held("Barrel"), Volume::from_litres(60)) << "what came later still fits";
    const engine::Age after = age();
    double then = 0.0;
    double brew = 0.0;
    for (const auto& part : after.parts) {
        const bool is_find = part.name == "Brew of 2021";
        if (is_find) {
            brew += part.share;
            EXPECT_NEAR(part.age_spread_years, (4.66 - 3.7) / 2.0, 0.03) << "within that year";
            EXPECT_TRUE(part.assumed) << "its share is still remembered";
        }
        if (is_find || part.age_years > 4.3) then += part.share;
    }
    EXPECT_GT(brew, 0.0);
    EXPECT_NEAR(brew / then, 0.5, 1e-6);
    EXPECT_LT(after.high_years - after.low_years, before.high_years - before.low_years);
    const auto checked = book->check();
    ASSERT_TRUE(checked);
    EXPECT_TRUE(checked->ok());
    // The old words stay readable.
    const auto entries = book->entries({.most = 100});
    int superseded = 0;
    for (const auto& entry : entries->entries) superseded += entry.live ? 0 : 1;
    EXPECT_GT(superseded, 0);
}

TEST_F(AnOldSolera, PartsALotThatStandsForManyWhenOneOfThemIsFound) {
    must(true);
    answers.known = "2016 = half";
    answers.seen = "2018-06-01";
    const RememberView found = must(true);
    EXPECT_TRUE(found.sitting.booked);
    EXPECT_EQ(book.held("Barrel"), Volume::from_litres(60));
    int named = 0;
    for (const auto& part : age().parts) named += part.name == "Brew of 2016" ? 1 : 0;
    EXPECT_EQ(named, 1);
    answers.known = "1999=half";
    EXPECT_EQ(book->remember(answers).error().kind, ErrorKind::impossible);
    answers.known = "2016";
    EXPECT_EQ(book->remember(answers).error().kind, ErrorKind::bad_input);
    answers.known = "2016=half";
    answers.seen = "";
    EXPECT_EQ(book->remember(answers).error().kind, ErrorKind::bad_input);
}

DesignRequest sixty_litres() {
    DesignRequest request;
    request.demand = "60 L";
    request.age = "3 years";
    request.wait = "6 years";
    return request;
}

TEST(ADesign, IsBookedAsVesselsAndAFirstSittingOnceItIsKept) {
    TestBook book;
    DesignRequest request = sixty_litres();
    request.vessels = {"30 L=40", "60 L=70"};
    request.draft = "2";
    request.name = "Amber";
    request.original_gravity = "1.048";
    const auto what_if = book->design(request);
    ASSERT_TRUE(what_if) << what_if.error().what;
    EXPECT_TRUE(what_if->reached);
    ASSERT_TRUE(what_if->sitting);
    EXPECT_FALSE(what_if->sitting->booked);
    EXPECT_TRUE(book->cellar({})->vessels.empty());
    request.keep = true;
    const auto kept = book->design(request);
    ASSERT_TRUE(kept && kept->sitting->booked);
    const engine::Design& design = kept->designs[1].design;
    const auto cellar = book->cellar({});
    EXPECT_EQ(cellar->vessels.size(), static_cast<std::size_t>(design.stages * design.abreast));
    for (const VesselSummary& vessel : cellar->vessels) {
        EXPECT_EQ(vessel.volume, design.vessel);
        EXPECT_EQ(vessel.role, ledger::VesselRole::solera);
        EXPECT_TRUE(vessel.name.starts_with("Amber")) << vessel.name;
    }
}

TEST(ADesign, ThatCannotBeReachedInTimeIsAnsweredWithTheNearest) {
    DesignRequest request = sixty_litres();
    request.wait = "2 years";
    const auto view = design_sum(request, Gallons::unset);
    ASSERT_TRUE(view);
    EXPECT_FALSE(view->reached);
    EXPECT_NE(view->answer.find("No design reaches a mean of 3 years within 2 years"), std::string::npos)
        << view->answer;
    EXPECT_LE(view->designs.front().design.age_at_wait, 2.0);
    EXPECT_EQ(view->designs.front().turns.size(), 8U);
    bool aged_reaches = false;
    for (const engine::FastStart& start : view->starts)
        aged_reaches = aged_reaches || (start.start == engine::Start::aged_full && start.turn_reached == 1);
    EXPECT_TRUE(aged_reaches) << "but begun with beer as old as wished it is there at once";
}

TEST(ADesign, IsRefusedWhereTheWishCannotBeMeant) {
    DesignRequest request = sixty_litres();
    request.demand = "";
    EXPECT_FALSE(design_sum(request, Gallons::unset));
    request = sixty_litres();
    request.age = "";
    EXPECT_FALSE(design_sum(request, Gallons::unset));
    request.older = {"3 years"};
    EXPECT_FALSE(design_sum(request, Gallons::unset));
    request.older = {"3 years=50 %"};
    EXPECT_TRUE(design_sum(request, Gallons::unset));
    request.demand = "1000000 L";
    EXPECT_EQ(design_sum(request, Gallons::unset).error().kind, ErrorKind::impossible);
    request = sixty_litres();
    request.draft = "99";
    TestBook book;
    EXPECT_EQ(book->design(request).error().kind, ErrorKind::bad_input);
}

// 60 L, a third out and in every year since 2021.
class ARunningSolera : public ::testing::Test {
protected:
    TestBook book;
    void SetUp() override {
        book.set_clock("2026-03-15T12:00:00.000Z");
        book.must({barrel("Amber", "60 L"), wort("Amber", "First fill")}, "2021-03-15 12:00");
        for (const char* day : {"2022-03-15 12:00", "2023-03-15 12:00", "2024-03-15 12:00", "2025-03-15 12:00"})
            book.must({LoseLiquid{"Amber", "a third", "served"}, wort("Amber", "Refill", ledger::Reason::refill)}, day);
    }
};

TEST_F(ARunningSolera, GoesOnAsTheSameMovesBookedWouldGoOn) {
    ChangeRequest request;
    request.vessel = "Amber";
    request.share = "a quarter";
    request.turns = "3";
    const auto view = book->change(request);
    ASSERT_TRUE(view) << view.error().what;
    EXPECT_NEAR(view->old_way.share, 1.0 / 3.0, 1e-6);
    EXPECT_NEAR(view->old_way.interval_years, 1.0, 0.003);
    ASSERT_EQ(view->new_way.turns.size(), 3U);
    EXPECT_EQ(book.held("Amber"), Volume::from_litres(60)) << "nothing is booked";
    EXPECT_EQ(book->entries({.most = 1000})->entries.size(), 10U);
    // Booked for real, with the clock moved on.
    for (const ChangeTurn& turn : view->new_way.turns) {
        book.set_clock(turn.day + "T12:00:00.000Z");
        AgeRequest asked;
        asked.name = "Amber";
        const auto age = book->age(asked);
        ASSERT_TRUE(age);
        // Brew days are whole days and the drafted instants are not at noon to the second.
        EXPECT_NEAR(age->age.mean_years, turn.age.mean_years, 1.0 / 365.25) << turn.day;
        book.must({LoseLiquid{"Amber", "a quarter", "served"}, wort("Amber", "Refill", ledger::Reason::refill)});
        EXPECT_EQ(turn.pulled, Volume::from_litres(15));
    }
}

TEST_F(ARunningSolera, GetsOlderWithAStageAboveAndGivesTheSame) {
    ChangeRequest request;
    request.vessel = "Amber";
    request.add_stages = {"30 L"};
    const auto view = book->change(request);
    ASSERT_TRUE(view) << view.error().what;
    ASSERT_EQ(view->new_way.turns.size(), 10U);
    EXPECT_EQ(view->new_way.stages.size(), 2U);
    EXPECT_EQ(view->new_way.turns.back().pulled, view->old_way.turns.back().pulled);
    // The tenth pull of a third a year, from a vessel that was settled nearly: 3 years, and 4.5 with 30 L more.
    EXPECT_NEAR(view->old_way.turns.back().age.mean_years, 3.0, 0.05);
    EXPECT_NEAR(view->new_way.turns.back().age.mean_years, 4.5, 0.15);
    request.add_stages = {"10 L"};
    EXPECT_FALSE(book->change(request)) << "the pull is more than the stage holds";
}

TEST_F(ARunningSolera, IsRefusedAChangeThatSaysNothing) {
    ChangeRequest request;
    request.vessel = "Amber";
    EXPECT_EQ(book->change(request).error().kind, ErrorKind::bad_input);
    book.must({barrel("Jar", "5 L"), wort("Jar", "Young")});
    request.vessel = "Jar";
    request.share = "half";
    EXPECT_EQ(book->change(request).error().kind, ErrorKind::impossible) << "the book knows no turn of it";
    request.usual_share = "a third";
    request.usual_every = "6 months";
    const auto view = book->change(request);
    ASSERT_TRUE(view);
    EXPECT_EQ(view->usual, "as said");
    request.share = "70 %";
    EXPECT_EQ(book->change(request)->cautions.size(), 1U);
}

}  // namespace
}  // namespace undercroft::testing
