// What is jotted in one line is the same as what is typed act by act.
#include "app/jot.hpp"

#include <gtest/gtest.h>

#include "cli/sitting.hpp"
#include "cli/spelling.hpp"
#include "cli/typed.hpp"
#include "tests/properties/always.hpp"
#include "tests/properties/split_mix.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::cli {
namespace {

using testing::TestBook;

void fill(TestBook& book) {
    std::vector<app::Act> acts;
    for (const char* line :
         {"vessel \"The Amber\" --capacity 60 L --role solera --tag A", "vessel \"Jar 12\" --capacity 13 L",
          "vessel \"Jar 5\" --capacity 5.5 L", "vessel \"Keg 1\" --capacity 20 L --role serving",
          "lot Founding 50 L --into Amber --og 1.048 --gravity 1.012",
          "lot Spare 12 L --into \"Keg 1\" --og 1.046 --gravity 1.008",
          "lot Old 4 L --into \"Jar 5\" --og 1.046 --gravity 1.006",
          "package Keg bottle_sparkling_750 4 --run AMB-1 --acknowledge invented"}) {
        const auto sitting = read_sitting(*split_line(line));
        ASSERT_TRUE(sitting) << line << sitting.error().what;
        acts.insert(acts.end(), sitting->request.acts.begin(), sitting->request.acts.end());
    }
    book.must(acts, "2026-03-01");
}

// The lines a jotting is understood as; the words of the refusal when it is not.
std::vector<std::string> understood(TestBook& book, const std::string& text, const app::JotHabits& habits = {}) {
    const auto acts = app::read_jotting(text, *book->names(), habits);
    if (!acts) {
        std::string told = acts.error().what;
        for (const Fact& fact : acts.error().facts) told += " | " + fact.label + ": " + fact.value;
        return {told};
    }
    std::vector<std::string> lines;
    for (const app::Act& act : *acts) lines.push_back(spelling_of(act));
    return lines;
}

using Lines = std::vector<std::string>;

class AJotting : public ::testing::Test {
protected:
    void SetUp() override { fill(book); }
    TestBook book;
};

TEST_F(AJotting, carries_its_subject_over) {
    EXPECT_EQ(
        understood(book,
                   "Amber 1.008 pH 3.42 18 C; pulled 18 L to Jar 12; topped up Amber 0.4 L from Keg 1; "
                   "tasted sour 6, lemon"),
        (Lines{"read \"The Amber\" 1.008 --ph 3.42 --temperature \"18 C\"", "pull \"The Amber\" \"18 L\" \"Jar 12\"",
               "top-up \"The Amber\" \"0.4 L\" --from \"Keg 1\"", "taste \"The Amber\" --score sour=6 lemon"}));
}

TEST_F(AJotting, reads_figures_in_any_order_and_spelling) {
    EXPECT_EQ(
        understood(book, "A: 18\u00B0C, pH3,42, TA 6.2 g/L, SG 1,008, CO2 1.1 vol, sample 80 mL"),
        (Lines{"read \"The Amber\" 1,008 --ph 3,42 --ta \"6.2 g/L\" --temperature \"18 \u00B0C\" --co2 \"1.1 vol\" "
               "--sample \"80 mL\""}));
    EXPECT_EQ(understood(book, "jar 12 3.42 pH 2.1 P"), (Lines{"read \"Jar 12\" \"2.1 P\" --ph 3.42"}));
    EXPECT_EQ(understood(book, "Amber 1.008", {"Ines", "100 mL"}),
              (Lines{"read \"The Amber\" 1.008 --sample \"100 mL\""}));
}

TEST_F(AJotting, moves_to_many_vessels) {
    EXPECT_EQ(understood(book, "pulled from Amber 6 L to Jar 12, 2 L to Jar 5 and the rest to Keg 1, lost 0.3 L"),
              (Lines{"pull \"The Amber\" \"6 L\" \"Jar 12\" \"2 L\" \"Jar 5\" rest \"Keg 1\" --loss \"0.3 L\""}));
    EXPECT_EQ(understood(book, "racked Jar 5 to Jar 12"), (Lines{"rack \"Jar 5\" --to \"Jar 12\" all"}));
    EXPECT_EQ(understood(book, "Amber pulled a third to Jar 12"), (Lines{"pull \"The Amber\" \"a third\" \"Jar 12\""}));
}

TEST_F(AJotting, tells_of_brews_bottles_bags_and_the_rest) {
    EXPECT_EQ(
        understood(book,
                   "Amber refilled 18 L of Spring wort, OG 1.048, gravity 1.014, brewed 2026-02-20; "
                   "added coriander seed 8 g in a bag; lifted coriander; lost 0.2 L evaporation; "
                   "gave 2 AMB-1 to Ines; opened AMB-1, soft; Keg 1: served 2 L; note: leaks"),
        (Lines{"refill \"The Amber\" \"18 L\" --lot \"Spring wort\" --brewed 2026-02-20 --og 1.048 --gravity 1.014",
               "add \"The Amber\" \"coriander seed\" \"8 g\" --bag", "lift \"The Amber\" coriander",
               "loss \"The Amber\" \"0.2 L\" evaporation", "take AMB-1 2 given --to Ines", "take AMB-1 opened soft",
               "loss \"Keg 1\" \"2 L\" served", "note --about \"Keg 1\" leaks"}));
}

TEST_F(AJotting, refuses_what_can_mean_two_things_with_both) {
    const auto refused = [&](const std::string& text, std::initializer_list<const char*> parts) {
        const Lines told = understood(book, text);
        ASSERT_EQ(told.size(), 1U) << text;
        for (const char* part : parts) EXPECT_NE(told[0].find(part), std::string::npos) << text << " -> " << told[0];
    };
    refused("Amber 18", {"18 C", "18 F", "18 L", "clause: Amber 18"});
    refused("Amber 3.42", {"a pH", "3.42 P"});
    refused("Amber 1.05", {"1.050"});
    refused("Amber 6.2 g/L", {"TA 6.2 g/L", "CO2 6.2 g/L"});
    refused("Amber 3 kg", {"weight 3 kg", "added 3 kg"});
    refused("Amber 100 mL", {"sample 100 mL"});
    refused("Jar 1.008", {"Jar 12", "Jar 5"});
    refused("Amber 1.008; Amber 1.008 1.009", {"twice", "clause: Amber 1.008 1.009"});
}

TEST_F(AJotting, names_the_clause_it_cannot_read_and_what_was_expected) {
    const auto refused = [&](const std::string& text, std::initializer_list<const char*> parts) {
        const Lines told = understood(book, text);
        ASSERT_EQ(told.size(), 1U) << text;
        for (const char* part : parts) EXPECT_NE(told[0].find(part), std::string::npos) << text << " -> " << told[0];
    };
    refused("Amber 1.008; danced a little", {"danced a little", "clause: danced a little", "expected: a reading"});
    refused("1.008", {"Which vessel"});
    refused("Amber pulled 18 L", {"Where does it go"});
    refused("Amber pulled 18 L to Jar 99", {"Jar 99", "clause"});
    refused("Amber topped up 0.4 L", {"From where"});
    refused("Amber lost 0.4 L", {"To what"});
    refused("Amber tasted", {"taste of"});
    refused("note --then", {"option"});
    refused(" ; ;", {"nothing to log"});
}

// Any of what people write, some of it impossible in the cellar.
std::string some_jotting(testing::SplitMix64& random) {
    static const std::vector<std::string> k_subjects = {"Amber", "A", "Jar 12", "jar 5:", "Keg 1", "The Amber", ""};
    static const std::vector<std::string> k_clauses = {
        "1.008 pH 3.42 18 C",
        "1,0085, 64 F",
        "TA 6.2",
        "2.1 P at 17 C, sample 60 mL",
        "tasted sour 6 funk 4, liking 7, lemon, a \"little\" hay",
        "tasted by Marit, fault buttery, bread \\ crust",
        "tasted -5 points, 12 L",
        "pulled 6 L to Jar 12",
        "pulled a third to Jar 12, 1 L to Jar 5",
        "pulled 2 L to Jar 5, rest to Keg 1",
        "topped up 0.4 L from Keg 1",
        "topped up from Keg 1",
        "topped up Amber 1 L from Jar 5",
        "refilled 3 L from Keg 1",
        "refilled 4 L of Spring wort, OG 1.048, gravity 1.012",
        "racked 1 L to Jar 5",
        "racked to Jar 12",
        "lost 0.2 L evaporation",
        "served 1 L",
        "added 3 kg plum",
        "added coriander seed 8 g in a bag",
        "lifted coriander seed",
        "cleaned hot water, twice",
        "opened AMB-1, gushed a bit",
        "gave 2 AMB-1 to Ines",
        "note: shims = two; 100 % sure",
        "note # 12",
    };
    std::string text;
    for (std::int64_t i = random.between(1, 4); i > 0; --i) {
        const auto& subject =
            k_subjects[static_cast<std::size_t>(random.between(0, static_cast<std::int64_t>(k_subjects.size()) - 1))];
        const auto& clause =
            k_clauses[static_cast<std::size_t>(random.between(0, static_cast<std::int64_t>(k_clauses.size()) - 1))];
        text += (text.empty() ? "" : "; ") + subject + (subject.empty() ? "" : " ") + clause;
    }
    return text;
}

TEST(AnyJotting, typed_as_the_acts_it_is_shown_as_books_the_same_bodies) {
    int booked = 0;
    testing::expect_for_seeds("jotted and typed", testing::cases_to_run(),
                              [&booked](std::uint64_t seed) -> std::size_t {
                                  testing::SplitMix64 random{seed};
                                  TestBook jotted;
                                  TestBook typed;
                                  fill(jotted);
                                  fill(typed);
                                  const std::string text = some_jotting(random);
                                  const auto acts = app::read_jotting(text, *jotted->names(), {"Tobias", "50 mL"});
                                  if (!acts) return 0;
                                  std::vector<std::string> tokens;
                                  for (const app::Act& act : *acts) {
                                      if (!tokens.empty()) tokens.emplace_back("--then");
                                      const auto words = split_line(spelling_of(act));
                                      RC_ASSERT(words.has_value());
                                      tokens.insert(tokens.end(), words->begin(), words->end());
                                  }
                                  RC_LOG() << text << "\n";
                                  const auto sitting = read_sitting(tokens);
                                  RC_ASSERT(sitting.has_value());
                                  const auto one = jotted.book(*acts);
                                  const auto other = typed.book(sitting->request.acts);
                                  RC_ASSERT(one.has_value() == other.has_value());
                                  if (!one) {
                                      RC_ASSERT(one.error().what == other.error().what);
                                      return 0;
                                  }
                                  const auto left = jotted.journal().entries();
                                  const auto right = typed.journal().entries();
                                  RC_ASSERT(left->size() == right->size());
                                  for (std::size_t i = 0; i < left->size(); ++i)
                                      RC_ASSERT((*left)[i].body == (*right)[i].body);
                                  ++booked;
                                  return acts->size();
                              });
    EXPECT_GT(booked, testing::cases_to_run() / 6);
}

// Any words at all: an answer or a refusal, never a fall.
TEST(AnyJotting, of_words_thrown_together_is_read_or_refused) {
    static const std::vector<std::string> k_words = {
        "Amber", "A",      "Jar",    "12",        "5",       "AMB-1",  "Keg",    "pulled", "to",   "from",
        "the",   "rest",   "a",      "third",     "half",    "1.008",  "3.42",   "18",     "C",    "L",
        "g/L",   "pH",     "TA",     "sample",    "at",      "by",     "fault",  "sour",   "6",    "sour=6",
        "x=",    ",",      ":",      ";",         ";",       "\"",     "=",      "1/2",    "us",   "gal",
        "30%",   "topped", "up",     "refilled",  "of",      "OG",     "racked", "tasted", "lost", "spill",
        "added", "in",     "bag",    "lifted",    "cleaned", "opened", "gave",   "note",   "and",  "--to",
        "-5",    "\xff",   "\u00B0", "18\u00B0C", "0.4L",    "full",   "brewed", ""};
    TestBook book;
    fill(book);
    const app::Names names = *book->names();
    int read = 0;
    testing::expect_for_seeds("words thrown together", testing::cases_to_run() * 20,
                              [&](std::uint64_t seed) -> std::size_t {
                                  testing::SplitMix64 random{seed};
                                  std::string text;
                                  for (std::int64_t i = random.between(0, 12); i > 0; --i)
                                      text += k_words[static_cast<std::size_t>(
                                                  random.between(0, static_cast<std::int64_t>(k_words.size()) - 1))] +
                                              (random.one_in(6) ? "" : " ");
                                  const auto acts = app::read_jotting(text, names, {});
                                  const auto look = app::read_look("Amber", text, {});
                                  if (!acts) {
                                      RC_ASSERT(!acts.error().what.empty());
                                      return 0;
                                  }
                                  for (const app::Act& act : *acts) RC_ASSERT(!spelling_of(act).empty());
                                  read += 1;
                                  return acts->size() + (look ? look->size() : 0);
                              });
    EXPECT_GT(read, 0);
}

}  // namespace
}  // namespace undercroft::cli
