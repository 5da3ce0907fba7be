// At a keyboard `log` and `round` ask before they book; elsewhere nobody is asked.
#include "cli/jotted.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "cli/run.hpp"
#include "cli/seeded.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::cli {
namespace {

class AKeyboard : public ::testing::Test {
protected:
    void SetUp() override {
        std::vector<app::Act> acts;
        for (const char* name : {"Amber", "Jar"}) {
            app::RegisterVessel vessel;
            vessel.name = name;
            vessel.capacity = "20 L";
            acts.emplace_back(vessel);
            app::EnterLot lot;
            lot.vessel = name;
            lot.name = "Wort";
            lot.volume = "10 L";
            lot.original_gravity = "1.048";
            acts.emplace_back(lot);
        }
        m_book.must(acts);
    }

    // Over a copy of the book: what is booked is told by what is said.
    std::string said(const std::vector<std::string>& arguments, const std::string& typed, bool at_terminal = true) {
        std::istringstream in(typed);
        std::ostringstream out;
        Host host{
            .in = in,
            .out = out,
            .err = out,
            .tables = testing::reference_tables(),
            .surroundings = {[this] { return m_book.now(); }, seeded_random16(1), store::commitment_of},
            .version = "1",
            .book = "here",
            .zone_here = "UTC",
            .open_book = [this](const std::string&, For) -> Result<OpenBook> {
                return OpenBook{
                    std::make_unique<ledger::MemoryJournal>(testing::invented_facts(), *m_book.journal().entries(),
                                                            *m_book.journal().persons()),
                    nullptr};
            },
            .create_book = [](const std::string& path, const ledger::BookFacts&) -> Result<OpenBook> {
                return fail(ErrorKind::storage, path, "No.");
            },
            .zone = [](const std::string&) -> Result<std::unique_ptr<Zone>> { return std::make_unique<UtcZone>(); },
            .demo_scripts = {},
            .at_terminal = at_terminal};
        m_code = run(arguments, host);
        return out.str();
    }
    static bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

    testing::TestBook m_book;
    int m_code = -1;
};

TEST_F(AKeyboard, is_asked_before_a_line_is_booked) {
    EXPECT_TRUE(has(said({"log", "Amber 1.008"}, "y\n"), "\nBook it? [y/N] booked "));
    EXPECT_FALSE(has(said({"log", "Amber 1.008"}, "n\n"), "] booked "));
    EXPECT_FALSE(has(said({"log", "Amber 1.008"}, ""), "] booked "));
    EXPECT_EQ(m_code, k_ok);
    EXPECT_FALSE(has(said({"log", "Amber 1.008", "--what-if"}, "y\n"), "Book it?"));
    EXPECT_FALSE(has(said({"log", "Amber 1.008", "--json"}, "y\n"), "Book it?"));
    EXPECT_FALSE(has(said({"log", "Amber 1.008"}, "y\n", false), "Book it?"));
}

TEST_F(AKeyboard, is_led_from_vessel_to_vessel_and_may_mend_a_line) {
    const std::string told = said({"round"}, "18\n1.010 18 C\nsame\ny\n");
    EXPECT_TRUE(has(told, "a round on")) << told;
    EXPECT_TRUE(has(told, "18 C, 18 P or 18 L") || has(told, "18 C")) << told;
    EXPECT_TRUE(has(told, "read Amber 1.010 --temperature \"18 C\"")) << told;
    EXPECT_TRUE(has(told, "] booked ")) << told;
    EXPECT_FALSE(has(told, "read Jar")) << told;
}

TEST_F(AKeyboard, that_says_nothing_books_nothing) {
    const std::string told = said({"round"}, "");
    EXPECT_TRUE(has(told, "a round on"));
    EXPECT_FALSE(has(told, "Book it?"));
    EXPECT_FALSE(has(said({"round"}, "same\n\n"), "Book it?"));
    EXPECT_EQ(m_code, k_ok);
}

TEST_F(AKeyboard, gets_the_list_twice_never) {
    const std::string list = said({"round", "--list"}, "1.010\n", false);
    EXPECT_EQ(list, said({"round"}, "", false));
    EXPECT_EQ(list.find("a round on"), list.rfind("a round on"));
}

}  // namespace
}  // namespace undercroft::cli
