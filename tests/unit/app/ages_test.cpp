// How old things are, asked of a book as a keeper asks.
#include <gtest/gtest.h>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

RegisterVessel solera(const std::string& name, const std::string& capacity, const std::string& tag = "") {
    RegisterVessel act;
    act.name = name;
    act.tag = tag;
    act.capacity = capacity;
    act.role = "solera";
    return act;
}

EnterLot beer(const std::string& vessel, const std::string& name, const std::string& volume,
              const std::string& brewed = "") {
    EnterLot act;
    act.vessel = vessel;
    act.name = name;
    act.volume = volume;
    act.brewed = brewed;
    act.original_gravity = "1.048";
    act.gravity = "1.006";
    return act;
}

struct Asked {
    std::string on, from, state;
    std::vector<std::string> older_than;
};

AgeRequest about(const std::string& name, const Asked& asked) {
    AgeRequest request;
    request.name = name;
    request.on = asked.on;
    request.from = asked.from;
    request.state = asked.state;
    request.older_than = asked.older_than;
    return request;
}

// 60 L brewed on 2020-02-14, a third out and in in March 2022, bottled from on 2023-03-14.
class AVesselWithATurn : public ::testing::Test {
protected:
    TestBook book;
    void SetUp() override {
        book.must({solera("Amber", "60 L", "A"), beer("Amber", "Founding wort", "60 L", "2020-02-14")}, "2020-03-14");
        book.must({LoseLiquid{"Amber", "a third", "served"}}, "2022-03-14");
        EnterLot refill = beer("Amber", "Spring wort", "");
        refill.reason = ledger::Reason::refill;
        refill.to_full = true;
        book.must({refill}, "2022-03-15");
        PackageRun run;
        run.from = "Amber";
        run.run = "AMB-23-1";
        run.container = "bottle_330_heavy";
        run.count = "30";
        run.limit = "20 bar";
        run.acknowledge = "a test of ages";
        book.must({run}, "2023-03-14");
    }
    AgeView ask(AgeRequest request) {
        const auto view = book->age(request);
        if (view) return *view;
        ADD_FAILURE() << view.error().what;
        return {};
    }
};

constexpr double k_day = 1.0 / 365.25;  // brew days are whole days, entries stand at noon

TEST_F(AVesselWithATurn, IsAsOldAsItsPartsOnAnyDayByTheConventionThatIsNamed) {
    const AgeView view = ask(about("A", {"2023-03-14", "", "", {"2 years", "8 months"}}));
    EXPECT_EQ(view.state, "now");
    EXPECT_NE(view.state_words.find("12 months after the refill of 2022-03-15"), std::string::npos) << view.state_words;
    const double old = 3.0 + 28.0 * k_day;
    EXPECT_NEAR(view.age.mean_years, (2.0 * old + 1.0) / 3.0, 1.5 * k_day);
    EXPECT_NEAR(view.profile.older[0].share.middle, 2.0 / 3.0, 1e-6);  // a third is taken to the microlitre
    EXPECT_NEAR(view.profile.older[1].share.middle, 1.0, 1e-9);
    EXPECT_NEAR(view.profile.percentiles[0].years.middle, 1.0, 1.5 * k_day);
    EXPECT_NEAR(view.profile.percentiles[2].years.middle, old, 1.5 * k_day);

    const AgeView entry = ask(about("Amber", {"2023-03-14", "entry", "", {}}));
    EXPECT_NEAR(entry.age.mean_years, (2.0 * 3.0 + 1.0) / 3.0, 1.5 * k_day);
    EXPECT_EQ(entry.profile.older.size(), 4U);
}

TEST_F(AVesselWithATurn, WasOlderBeforeThePullThanAfterTheRefill) {
    const AgeView before = ask(about("Amber", {"", "entry", "before", {}}));
    // Packaging in 2023 was the last pull: the vessel waits for its refill.
    EXPECT_EQ(before.state_words, "before the pull of 2023-03-14");
    const AgeView then = ask(about("Amber", {"2022-12-01", "entry", "before", {}}));
    EXPECT_EQ(then.state_words, "before the pull of 2022-03-14");
    EXPECT_NEAR(then.age.mean_years, 2.0, 1.5 * k_day);
    EXPECT_EQ(then.volume, Volume::from_litres(60));
    const AgeView after = ask(about("Amber", {"2022-12-01", "entry", "after", {}}));
    EXPECT_EQ(after.state_words, "after the refill of 2022-03-15");
    EXPECT_NEAR(after.age.mean_years, 4.0 / 3.0, 1.5 * k_day);
    ASSERT_TRUE(after.before_pull && after.after_refill);
    EXPECT_EQ(after.before_pull->age.mean_years, then.age.mean_years);
}

TEST_F(AVesselWithATurn, HasNoTurnBeforeItsFirstPull) {
    EXPECT_FALSE(book->age(about("Amber", {"2021-01-01", "", "before", {}})));
    EXPECT_FALSE(book->age(about("Amber", {"2021-01-01", "", "after", {}})));
    const AgeView now = ask(about("Amber", {"2021-01-01", "", "", {}}));
    EXPECT_FALSE(now.before_pull || now.after_refill);
    EXPECT_EQ(now.state_words, "as it stands on 2021-01-01");
}

TEST_F(AVesselWithATurn, GivesItsBottlesTheAgeItHadAndTheirTimeInGlassApart) {
    const AgeView run = ask(about("AMB-23-1", {"2025-03-14", "entry", "", {}}));
    EXPECT_EQ(run.kind, "run");
    EXPECT_EQ(run.state, "when_packaged");
    EXPECT_NEAR(run.age.mean_years, 7.0 / 3.0, 1.5 * k_day);
    EXPECT_NEAR(run.years_in_container, 2.0, 1.5 * k_day);
    EXPECT_FALSE(book->age(about("AMB-23-1", {"", "", "before", {}}))) << "bottles are not refilled";
}

TEST_F(AVesselWithATurn, IsRefusedWhereTheQuestionCannotBeMeant) {
    EXPECT_EQ(book->age(about("Amber", {"", "birth", "", {}})).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(book->age(about("Amber", {"", "", "during", {}})).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(book->age(about("Amber", {"", "", "", {"3"}})).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(book->age(about("Nobody", {"", "", "", {}})).error().kind, ErrorKind::not_found);
    EXPECT_EQ(book->age(about("Amber", {"2030-01-01", "", "", {}})).error().kind, ErrorKind::bad_input);
    book.must({solera("Jar", "5 L")});
    EXPECT_EQ(book->age(about("Jar", {"", "", "", {}})).error().kind, ErrorKind::impossible);
}

TEST_F(AVesselWithATurn, CountsALaterPullBeforeTheRefillToTheSameTurn) {
    book.must({LoseLiquid{"Amber", "10 L", "served"}}, "2024-01-01");
    EXPECT_EQ(ask(about("Amber", {"", "", "before", {}})).state_words, "before the pull of 2023-03-14");
}

TEST_F(AVesselWithATurn, LooksAsItWasKnownThen) {
    book.set_clock("2026-04-01T10:00:00.000Z");
    EnterLot late = beer("Amber", "Found in the notebook", "5 L", "2010-01-01");
    book.must({late}, "2023-06-01");
    AgeRequest request = about("Amber", {"2024-01-01", "", "", {}});
    EXPECT_GT(ask(request).age.mean_years, 4.0) << "5 L of 14 years";
    request.known_on = "2026-03-20";
    EXPECT_LT(ask(request).age.mean_years, 3.5) << "nobody knew of it then";
    request.state = "after";
    EXPECT_EQ(ask(request).state_words, "after the refill of 2022-03-15");
}

TEST(ARememberedRange, IsCarriedByEveryPercentile) {
    TestBook book;
    EnterLot old = beer("Barrel", "Old sour", "30 L", "2020..2023");
    old.age_assumed = true;
    book.must({solera("Barrel", "30 L"), old});
    const auto view = book->age(about("Barrel", {"", "", "", {"3 years"}}));
    ASSERT_TRUE(view);
    for (const auto& row : view->profile.percentiles) {
        EXPECT_NEAR(row.years.young, 2.2, 0.01);  // from 31 December 2023 to 14 March 2026
        EXPECT_NEAR(row.years.old, 6.2, 0.01);    // from 1 January 2020
    }
    EXPECT_EQ(view->profile.older[0].share.young, 0.0);
    EXPECT_EQ(view->profile.older[0].share.old, 1.0);
    EXPECT_TRUE(view->age.assumed);
}

}  // namespace
}  // namespace undercroft::testing
