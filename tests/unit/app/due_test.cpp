// What is due, and what settles it. Days come from data/tasks.csv, data/flavourings.csv and data/cultures.csv; the
// intervals of readings and pulls are common practice, no source.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class ACellarInUse : public ::testing::Test {
protected:
    TestBook book;  // its clock stands at 2026-03-14

    RegisterVessel vessel(const std::string& name, const std::string& role, const std::string& material = "steel") {
        RegisterVessel act;
        act.name = name;
        act.capacity = "60 L";
        act.role = role;
        act.material = material;
        return act;
    }
    EnterLot wort(const std::string& into, const std::string& volume, const std::string& brewed = "") {
        EnterLot act;
        act.vessel = into;
        act.name = "Wort";
        act.volume = volume;
        act.original_gravity = "1.048";
        act.gravity = "1.012";
        act.brewed = brewed;
        return act;
    }
    PitchCulture culture(const std::string& into, const std::string& kind = "mixed_sour") {
        PitchCulture act;
        act.vessel = into;
        act.kind = kind;
        return act;
    }
    TakeReading reading(const std::string& of, const std::string& gravity, const std::string& temperature = "18 C") {
        TakeReading act;
        act.subject = of;
        act.gravity = gravity;
        act.temperature = temperature;
        return act;
    }
    MoveLiquid pull(const std::string& from, const std::string& volume, const std::string& to) {
        MoveLiquid act;
        act.reason = ledger::Reason::pull;
        act.from = from;
        act.to = {{to, volume}};
        return act;
    }
    EnterLot refill(const std::string& into, const std::string& volume, const std::string& brewed) {
        EnterLot act = wort(into, volume, brewed);
        act.reason = ledger::Reason::refill;
        return act;
    }
    std::optional<DueLine> due(const std::string& subject, const std::string& what) {
        const auto view = book->due("10 years");
        if (!view) {
            ADD_FAILURE() << view.error().what;
            return std::nullopt;
        }
        for (const DueLine& line : view->lines)
            if (line.subject == subject && line.what == what) return line;
        return std::nullopt;
    }
    std::string day_due(const std::string& subject, const std::string& what) {
        const auto line = due(subject, what);
        return line ? line->day : "";
    }
};

TEST_F(ACellarInUse, a_solera_is_read_every_six_weeks_and_a_keg_never) {
    book.must({vessel("Amber", "solera"), vessel("Keg", "serving"), wort("Amber", "58 L"), wort("Keg", "20 L")},
              "2026-02-01");
    EXPECT_EQ(day_due("Amber", "reading"), "2026-03-15");
    EXPECT_FALSE(due("Keg", "reading"));
    book.must({reading("Amber", "1.010")}, "2026-03-01");
    EXPECT_EQ(day_due("Amber", "reading"), "2026-04-12");
    EXPECT_NE(due("Amber", "reading")->why.find("2026-03-01"), std::string::npos);
    EXPECT_TRUE(due("Amber", "reading")->command.starts_with("undercroft read Amber"));
}

TEST_F(ACellarInUse, the_keepers_interval_comes_before_that_of_the_role_and_never_ends_it) {
    book.must({vessel("Amber", "solera"), wort("Amber", "58 L"), reading("Amber", "1.010")}, "2026-03-01");
    book.must({SetInterval{"solera", "reading", "10 days"}}, "2026-03-02");
    EXPECT_EQ(day_due("Amber", "reading"), "2026-03-11");
    EXPECT_EQ(due("Amber", "reading")->days, -3);
    book.must({SetInterval{"Amber", "reading", "3 weeks"}}, "2026-03-03");
    EXPECT_EQ(day_due("Amber", "reading"), "2026-03-22");
    book.must({SetInterval{"Amber", "reading", "never"}}, "2026-03-04");
    EXPECT_FALSE(due("Amber", "reading"));
    book.must({VoidEntry{"last", ""}});
    EXPECT_EQ(day_due("Amber", "reading"), "2026-03-22");
}

TEST_F(ACellarInUse, an_interval_of_nothing_known_is_refused) {
    book.must({vessel("Amber", "solera")}, "2026-03-01");
    EXPECT_FALSE(book.book({SetInterval{"Amber", "painting", "6 weeks"}}));
    EXPECT_FALSE(book.book({SetInterval{"Amber", "reading", "6"}}));
    EXPECT_FALSE(book.book({SetInterval{"Ambre vat", "reading", "6 weeks"}}));
    book.must({vessel("solera", "solera")});
    const auto both = book.book({SetInterval{"solera", "reading", "6 weeks"}});
    ASSERT_FALSE(both);
    EXPECT_EQ(both.error().kind, ErrorKind::bad_input);
}

// data/flavourings.csv: coriander seed, 4 days to 90 %; tasks.csv: first taste after a third of it, out at twice.
TEST_F(ACellarInUse, a_bag_is_tasted_at_a_third_lifted_at_nine_tenths_and_overdue_at_twice) {
    AddAddition spice;
    spice.vessel = "Jar";
    spice.item = "coriander seed";
    spice.amount = "8 g";
    spice.contained = true;
    book.must({vessel("Jar", "finishing"), wort("Jar", "12 L"), spice}, "2026-03-08");
    EXPECT_EQ(day_due("Jar", "tasting"), "2026-03-09");
    const auto lift = due("Jar", "lift");
    ASSERT_TRUE(lift);
    EXPECT_EQ(lift->day, "2026-03-14");  // since the 12th; its window is open until the 16th
    EXPECT_EQ(lift->until, "2026-03-16");
    EXPECT_EQ(lift->command, "undercroft lift Jar coriander seed");
    book.set_clock("2026-03-20T10:00:00.000Z");
    EXPECT_EQ(due("Jar", "lift")->days, -4);
    EXPECT_TRUE(due("Jar", "lift")->urgent);
    book.must({LiftAddition{"Jar", "coriander"}});
    EXPECT_FALSE(due("Jar", "lift"));
    EXPECT_FALSE(due("Jar", "tasting"));
}

// data/cultures.csv: a mixed sour culture asks for 3 readings over 56 days, 90 when it stood below 15 C.
TEST_F(ACellarInUse, a_watch_tells_the_day_it_is_complete_and_then_asks_for_the_gas_check) {
    book.must({vessel("Jar", "finishing"), wort("Jar", "12 L"), culture("Jar")}, "2026-01-01");
    book.must({reading("Jar", "1.0042")}, "2026-01-10");
    book.must({reading("Jar", "1.0034")}, "2026-01-20");  // still falling: the watch begins again
    book.must({reading("Jar", "1.0034")}, "2026-02-10");
    EXPECT_EQ(day_due("Jar", "watch"), "2026-03-17");
    EXPECT_EQ(day_due("Jar", "reading"), "2026-02-24");
    EXPECT_FALSE(due("Jar", "gas"));
    book.set_clock("2026-03-18T10:00:00.000Z");
    book.must({reading("Jar", "1.0033")}, "2026-03-17");
    EXPECT_FALSE(due("Jar", "watch"));
    EXPECT_FALSE(due("Jar", "reading"));
    EXPECT_EQ(day_due("Jar", "gas"), "2026-03-18");
}

TEST_F(ACellarInUse, a_cold_watch_takes_longer) {
    book.must({vessel("Jar", "finishing"), wort("Jar", "12 L"), culture("Jar")}, "2026-01-01");
    book.must({reading("Jar", "1.0034", "12 C")}, "2026-01-20");
    EXPECT_EQ(day_due("Jar", "watch"), "2026-04-20");  // 90 days
}

TEST_F(ACellarInUse, a_first_pull_waits_for_the_vessels_kind) {
    book.must({vessel("Steel", "solera"), wort("Steel", "50 L"), culture("Steel")}, "2026-01-01");
    book.must({vessel("Wood", "solera", "oak"), wort("Wood", "50 L"), culture("Wood")}, "2026-01-01");
    EXPECT_EQ(due("Steel", "pull")->from, "2026-10-02");  // 9 months
    EXPECT_EQ(due("Wood", "pull")->from, "2027-01-01");   // a year
    EXPECT_EQ(due("Wood", "pull")->until, "2028-01-01");
}

TEST_F(ACellarInUse, later_pulls_follow_its_own_turns_and_the_brew_comes_before) {
    book.set_clock("2026-03-14T10:00:00.000Z");
    book.must({vessel("Amber", "solera"), vessel("Sink", "serving"), wort("Amber", "50 L"), culture("Amber")},
              "2022-01-01");
    for (const char* day : {"2023-01-01", "2023-10-28", "2024-08-23", "2025-06-19"}) {  // 300 days apart
        book.must({pull("Amber", "15 L", "Sink")}, day);
        book.must({refill("Amber", "15 L", iso_text(add_days(*parse_iso_day(day), -10)))}, day);
        book.must({LoseLiquid{"Sink", "all", "served"}}, day);
    }
    const auto line = due("Amber", "pull");
    ASSERT_TRUE(line);
    EXPECT_EQ(line->from, "2026-02-14");  // 240 days after the last: a fifth early
    EXPECT_EQ(line->until, "2026-06-14");
    EXPECT_EQ(line->day, "2026-04-15");
    EXPECT_EQ(day_due("Amber", "brew"), "2026-04-05");  // as far ahead as its refills were
    book.set_clock("2026-06-20T10:00:00.000Z");
    EXPECT_EQ(due("Amber", "pull")->days, -6);  // the window has closed
    book.set_clock("2026-03-14T10:00:00.000Z");
    book.must({SetInterval{"Amber", "pull", "1 year"}});
    EXPECT_EQ(day_due("Amber", "pull"), "2026-06-19");
    EXPECT_EQ(day_due("Amber", "brew"), "2026-06-09");
}

TEST_F(ACellarInUse, a_gap_left_by_a_pull_is_urgent_until_it_is_refilled) {
    book.must({vessel("Amber", "solera"), vessel("Jar", "finishing"), wort("Amber", "58 L"), culture("Amber")},
              "2025-01-01");
    book.must({pull("Amber", "18 L", "Jar")}, "2026-03-13");
    const auto gap = due("Amber", "refill");
    ASSERT_TRUE(gap);
    EXPECT_TRUE(gap->urgent);
    EXPECT_EQ(gap->days, -1);
    EXPECT_EQ(book->due("1 day")->lines.front().what, "refill");
    book.must({refill("Amber", "18 L", "2026-03-01")});
    EXPECT_FALSE(due("Amber", "refill"));
    EXPECT_EQ(due("Amber", "check")->from, "2026-03-21");  // a week later, when the layers have mixed
    EXPECT_EQ(day_due("Amber", "check"), "2026-03-28");
}

TEST_F(ACellarInUse, wood_is_topped_up_by_the_quarter_and_steel_when_there_is_room) {
    book.must({vessel("Wood", "solera", "oak"), vessel("Steel", "solera"), wort("Wood", "60 L"), wort("Steel", "60 L")},
              "2026-01-01");
    EXPECT_EQ(day_due("Wood", "top_up"), "2026-04-02");
    EXPECT_FALSE(due("Steel", "top_up"));
    book.must({LoseLiquid{"Steel", "4 L", "evaporation"}});
    EXPECT_EQ(due("Steel", "top_up")->days, 0);
}

// data/tasks.csv: first_open 14 to 60 days after packaging, condition_sour typically 42; pressure_recheck at 3, 6 and
// 12 months.
TEST_F(ACellarInUse, bottles_are_opened_when_conditioned_and_checked_again_at_three_months) {
    PackageRun run;
    run.from = "Jar";
    run.container = "bottle_sparkling_750";
    run.count = "10";
    run.run = "R-1";
    run.acknowledge = "invented";
    book.must({vessel("Jar", "finishing"), wort("Jar", "12 L"), culture("Jar"), reading("Jar", "1.0030"), run},
              "2026-01-01");
    EXPECT_EQ(day_due("R-1", "open"), "2026-02-12");
    TakeBottles open;
    open.run = "R-1";
    open.cause = "opened";
    book.must({open}, "2026-02-20");
    EXPECT_FALSE(due("R-1", "open"));
    EXPECT_EQ(day_due("R-1", "recheck"), "2026-04-02");
    EXPECT_FALSE(due("R-1", "gas"));
    // The keeper's own plan stands beside it.
    book.must({SetInterval{"R-1", "tasting", "30 days"}});
    EXPECT_EQ(day_due("R-1", "open"), "2026-03-22");
    EXPECT_EQ(day_due("R-1", "recheck"), "2026-04-02");
    book.must({SetInterval{"R-1", "tasting", "never"}});
    EXPECT_FALSE(due("R-1", "open"));
    book.must({reading("R-1", "1.0010")});
    EXPECT_TRUE(due("R-1", "gas")->urgent);  // it fell in the bottle
    open.count = "9";
    book.must({open});
    EXPECT_FALSE(due("R-1", "gas"));  // none left
}

TEST_F(ACellarInUse, of_a_chain_the_youngest_is_brewed_for_and_only_the_oldest_is_pulled) {
    book.must({vessel("Old", "solera"), vessel("Young", "solera"), vessel("Sink", "serving"), wort("Old", "60 L"),
               wort("Young", "60 L"), culture("Old"), culture("Young")},
              "2023-01-01");
    MoveLiquid down = pull("Young", "10 L", "Old");
    down.reason = ledger::Reason::refill;
    for (const char* day : {"2024-01-01", "2025-01-01"})
        book.must(
            {pull("Old", "10 L", "Sink"), down, refill("Young", "10 L", iso_text(add_days(*parse_iso_day(day), -12))),
             LoseLiquid{"Sink", "all", "served"}},
            day);
    EXPECT_TRUE(due("Old", "pull"));
    EXPECT_FALSE(due("Young", "pull"));
    EXPECT_FALSE(due("Old", "brew"));
    EXPECT_TRUE(due("Young", "brew"));
    EXPECT_FALSE(due("Young", "refill"));
}

TEST_F(ACellarInUse, the_cellar_shows_at_most_five_and_nothing_about_a_past_day) {
    std::vector<Act> acts;
    for (int i = 0; i < 7; ++i) {
        acts.push_back(vessel("V" + std::to_string(i), "solera"));
        acts.push_back(wort("V" + std::to_string(i), "60 L"));
    }
    book.must(acts, "2026-01-01");
    EXPECT_EQ(book->cellar({})->today.size(), 5U);
    EXPECT_TRUE(book->cellar({"2026-02-01", ""})->today.empty());
    EXPECT_GE(book->due("14 days")->lines.size(), 7U);
}

}  // namespace
}  // namespace undercroft::testing
