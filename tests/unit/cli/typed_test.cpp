// How characters become words, amounts and options.
#include "cli/typed.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

namespace undercroft::cli {
namespace {

using Words = std::vector<std::string>;

Words joined(std::string_view line) {
    const auto words = split_line(line);
    EXPECT_TRUE(words) << line;
    return join_amounts(*words);
}

TEST(Typed, a_number_and_its_unit_are_one_amount) {
    EXPECT_EQ(joined("pull Amber 18 L Jar"), (Words{"pull", "Amber", "18 L", "Jar"}));
    EXPECT_EQ(joined("5 us gal"), (Words{"5 us gal"}));
    EXPECT_EQ(joined("16 imp fl oz"), (Words{"16 imp fl oz"}));
    EXPECT_EQ(joined("5.2 % vol"), (Words{"5.2 % vol"}));
    EXPECT_EQ(joined("1 1/2 gal"), (Words{"1 1/2 gal"}));
    EXPECT_EQ(joined("1,5 L 330mL"), (Words{"1,5 L", "330mL"}));
}

TEST(Typed, a_third_is_one_amount_and_a_mark_behind_a_fraction_stays_a_vessel) {
    EXPECT_EQ(joined("pull Amber a third Jar"), (Words{"pull", "Amber", "a third", "Jar"}));
    EXPECT_EQ(joined("pull A 1/3 C"), (Words{"pull", "A", "1/3", "C"}));
    EXPECT_EQ(joined("pull A 1/2 gal C"), (Words{"pull", "A", "1/2 gal", "C"}));
    EXPECT_EQ(joined("pull A 18 L C"), (Words{"pull", "A", "18 L", "C"}));
}

TEST(Typed, quotes_keep_names_whole_and_a_number_in_a_quoted_name_stays_in_it) {
    EXPECT_EQ(joined("rack \"Jar 23\" --to 'Old \"Peat\" Row' 5 L"),
              (Words{"rack", "Jar 23", "--to", "Old \"Peat\" Row", "5 L"}));
    EXPECT_EQ(*split_line(R"(note it\'s \"done\" "a \"b\" \ c" '')"),
              (Words{"note", "it's", "\"done\"", "a \"b\" \\ c", ""}));
    EXPECT_EQ(*split_line("  \t "), Words{});
}

TEST(Typed, an_open_quote_is_refused) {
    const auto words = split_line("note the \"lock was dry");
    ASSERT_FALSE(words);
    EXPECT_EQ(words.error().kind, ErrorKind::bad_input);
    EXPECT_NE(words.error().what.find("never closed"), std::string::npos);
}

TEST(Typed, a_negative_amount_is_no_option) {
    EXPECT_FALSE(is_option_word("-3"));
    EXPECT_FALSE(is_option_word("-0,5 L"));
    EXPECT_FALSE(is_option_word("-.5"));
    EXPECT_FALSE(is_option_word("-"));
    EXPECT_FALSE(is_option_word("--"));
    EXPECT_TRUE(is_option_word("--to"));
    EXPECT_TRUE(is_option_word("-x"));
}

Result<Typed> typed_of(const std::string& line) {
    TRY(const Words words, split_line(line));
    TRY(const Found found, find_command(words));
    return read_typed(*found.command, std::span(words).subspan(found.length));
}

TEST(Typed, options_may_stand_anywhere_and_take_amounts_below_zero) {
    const auto typed = typed_of("read --temperature -1 C Amber --ph=3.42 1.008");
    ASSERT_TRUE(typed);
    EXPECT_EQ(typed->words, (Words{"Amber", "1.008"}));
    EXPECT_EQ(typed->one("--temperature"), "-1 C");
    EXPECT_EQ(typed->one("--ph"), "3.42");
    EXPECT_EQ(typed->one("--ta"), "");
}

TEST(Typed, after_two_strokes_everything_is_a_word) {
    const auto typed = typed_of("note --about Amber -- --sour is no option");
    ASSERT_TRUE(typed);
    EXPECT_EQ(typed->rest(0), "--sour is no option");
}

TEST(Typed, an_unknown_option_names_the_nearest) {
    const auto typed = typed_of("read Amber --temprature 18 C");
    ASSERT_FALSE(typed);
    EXPECT_EQ(typed.error().kind, ErrorKind::bad_input);
    ASSERT_FALSE(typed.error().facts.empty());
    EXPECT_EQ(typed.error().facts[0].value, "--temperature");
}

TEST(Typed, an_option_said_twice_or_without_its_value_is_refused) {
    EXPECT_FALSE(typed_of("read Amber --ph 3.4 --ph 3.5"));
    EXPECT_FALSE(typed_of("read Amber --ph"));
    EXPECT_FALSE(typed_of("read Amber --ph --ta 7 g/L"));
    EXPECT_FALSE(typed_of("blend Keg --from Jar"));
    EXPECT_FALSE(typed_of("pitch Amber kveik --suspected=yes"));
    EXPECT_TRUE(typed_of("blend Keg --from Jar 5 L --from Amber 3 L"));
}

TEST(Typed, an_unknown_command_names_the_nearest) {
    const auto typed = typed_of("pul Amber");
    ASSERT_FALSE(typed);
    ASSERT_FALSE(typed.error().facts.empty());
    EXPECT_EQ(typed.error().facts[0].value, "pull");
    EXPECT_FALSE(typed_of("trace Amber"));
    EXPECT_TRUE(typed_of("trace back Amber"));
}

// The rows promise that their examples are lines the program reads.
TEST(Commands, every_example_is_read_as_its_own_command) {
    for (const Command& command : commands()) {
        const auto words = split_line(command.example);
        ASSERT_TRUE(words) << command.example;
        const auto found = find_command(*words);
        ASSERT_TRUE(found) << command.example;
        EXPECT_EQ(found->command->name, command.name);
        // Two examples hold more than their own options: an act, and the common --book.
        if (command.name == "correct" || command.name == "demo") continue;
        EXPECT_TRUE(read_typed(command, std::span(*words).subspan(found->length))) << command.example;
    }
}

TEST(Commands, the_page_of_the_command_line_names_every_command_and_option) {
    std::ifstream stream(std::string(UNDERCROFT_SOURCE_DIR) + "/docs/cli.md");
    const std::string page{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    for (const Command& command : commands()) {
        EXPECT_NE(page.find("`" + std::string(command.name)), std::string::npos) << command.name;
        for (const Option& option : command.options)
            EXPECT_NE(page.find(option.name), std::string::npos) << command.name << option.name;
    }
}

TEST(Commands, no_two_share_a_name_and_every_option_says_what_it_is_for) {
    std::vector<std::string> names;
    for (const Command& command : commands()) {
        names.emplace_back(command.name);
        EXPECT_FALSE(command.about.empty()) << command.name;
        std::set<std::string_view> seen;
        for (const Option& option : command.options) {
            EXPECT_TRUE(seen.insert(option.name).second) << command.name << " " << option.name;
            EXPECT_TRUE(option.name.starts_with("--")) << option.name;
            EXPECT_EQ(option.takes == Takes::nothing, option.value.empty()) << command.name << " " << option.name;
            EXPECT_FALSE(option.about.empty()) << command.name << " " << option.name;
            if (command.role != Role::act) continue;
            for (const Option& own : sitting_options()) EXPECT_NE(option.name, own.name) << command.name;
        }
    }
    std::sort(names.begin(), names.end());
    EXPECT_EQ(std::adjacent_find(names.begin(), names.end()), names.end());
}

}  // namespace
}  // namespace undercroft::cli
