// What lines of acts ask the book for.
#include "cli/sitting.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "cli/typed.hpp"

namespace undercroft::cli {
namespace {

using namespace std::chrono_literals;
const Day k_as_of{2026y, std::chrono::March, 14d};

Result<TypedSitting> sitting_of(const std::string& line) {
    TRY(const std::vector<std::string> words, split_line(line));
    return read_sitting(words);
}

template <class Act>
Act only(const std::string& line) {
    const auto sitting = sitting_of(line);
    EXPECT_TRUE(sitting) << line << ": " << (sitting ? "" : sitting.error().what);
    if (!sitting || sitting->request.acts.size() != 1) return {};
    const Act* act = std::get_if<Act>(&sitting->request.acts[0]);
    EXPECT_NE(act, nullptr) << line;
    return act == nullptr ? Act{} : *act;
}

std::string refusal(const std::string& line) {
    const auto sitting = sitting_of(line);
    EXPECT_FALSE(sitting) << line;
    if (sitting) return {};
    EXPECT_EQ(sitting.error().kind, ErrorKind::bad_input) << line;
    return sitting.error().what;
}

bool says(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

TEST(Acts, a_pull_goes_to_one_vessel_or_several) {
    const auto one = only<app::MoveLiquid>("pull Amber 18 L \"Jar 23\"");
    EXPECT_EQ(one.reason, ledger::Reason::pull);
    EXPECT_EQ(one.from, "Amber");
    ASSERT_EQ(one.to.size(), 1U);
    EXPECT_EQ(one.to[0].vessel, "Jar 23");
    EXPECT_EQ(one.to[0].volume, "18 L");

    const auto two = only<app::MoveLiquid>("pull Amber a third J 5 L \"Jar 5\" --loss 200 mL");
    ASSERT_EQ(two.to.size(), 2U);
    EXPECT_EQ(two.to[0].volume, "a third");
    EXPECT_EQ(two.to[1].vessel, "Jar 5");
    EXPECT_EQ(two.loss, "200 mL");

    EXPECT_TRUE(says(refusal("pull Amber 18 L"), "where it goes"));
    EXPECT_TRUE(says(refusal("pull Amber 18 L Jar 23"), "pairs"));
}

TEST(Acts, a_refill_brings_a_new_lot_or_comes_from_a_vessel_but_not_both) {
    const auto lot = only<app::EnterLot>("refill Amber 18 L --lot \"Spring wort\" --og 1.048 --ibu 8 --culture kveik");
    EXPECT_EQ(lot.reason, ledger::Reason::refill);
    EXPECT_EQ(lot.vessel, "Amber");
    EXPECT_EQ(lot.name, "Spring wort");
    EXPECT_EQ(lot.volume, "18 L");
    EXPECT_EQ(lot.original_gravity, "1.048");
    EXPECT_EQ(lot.cultures, std::vector<std::string>{"kveik"});
    EXPECT_FALSE(lot.to_full);

    const auto move = only<app::MoveLiquid>("refill Stair-3 10 L --from Stair-2");
    EXPECT_EQ(move.reason, ledger::Reason::refill);
    EXPECT_EQ(move.from, "Stair-2");
    EXPECT_EQ(move.to[0].vessel, "Stair-3");

    EXPECT_TRUE(says(refusal("refill Amber 18 L"), "Where does it come from"));
    EXPECT_TRUE(says(refusal("refill Amber 18 L --lot X --from Y"), "not both"));
    EXPECT_TRUE(says(refusal("refill Amber 18 L --from Y --og 1.048"), "known already"));
    EXPECT_TRUE(says(refusal("refill Amber --lot X"), "How much"));
}

TEST(Acts, a_top_up_without_a_volume_goes_until_full) {
    EXPECT_TRUE(only<app::EnterLot>("top-up Peat --lot Water --kind water").to_full);
    EXPECT_FALSE(only<app::EnterLot>("top-up Peat 2 L --lot Water --kind water").to_full);
    const auto both = only<app::MoveLiquid>("top-up Peat 2 L --from Jar --to-full");
    EXPECT_TRUE(both.to_full);
    EXPECT_EQ(both.to[0].volume, "2 L");
}

TEST(Acts, racking_takes_all_unless_it_says_how_much) {
    EXPECT_EQ(only<app::MoveLiquid>("rack Jar --to Keg").to[0].volume, "all");
    EXPECT_EQ(only<app::MoveLiquid>("rack Jar --to Keg 18 L --loss 0.5 L").to[0].volume, "18 L");
    EXPECT_EQ(only<app::MoveLiquid>("rack Jar --to Keg --to-full").to[0].volume, "");
    EXPECT_TRUE(says(refusal("rack Jar"), "--to VESSEL"));
}

TEST(Acts, a_blend_is_one_move_a_stock) {
    const auto sitting = sitting_of("blend Keg --from A 5 L --from B 3 L");
    ASSERT_TRUE(sitting);
    ASSERT_EQ(sitting->request.acts.size(), 2U);
    const auto& second = std::get<app::MoveLiquid>(sitting->request.acts[1]);
    EXPECT_EQ(second.reason, ledger::Reason::blend);
    EXPECT_EQ(second.from, "B");
    EXPECT_EQ(second.to[0].vessel, "Keg");
    EXPECT_EQ(second.to[0].volume, "3 L");
}

TEST(Acts, a_reading_takes_a_bare_gravity_and_every_quantity) {
    const auto reading = only<app::TakeReading>(
        "read Amber 1.008 --ph 3.42 --ta 7.2 --temperature 18 C --co2 1.1 vol --read-at 24 C "
        "--instrument \"narrow hydrometer\" --sample 100 mL");
    EXPECT_EQ(reading.gravity, "1.008");
    EXPECT_EQ(reading.ph, "3.42");
    EXPECT_EQ(reading.ta, "7.2");
    EXPECT_EQ(reading.temperature, "18 C");
    EXPECT_EQ(reading.dissolved_co2, "1.1 vol");
    EXPECT_EQ(reading.read_at, "24 C");
    EXPECT_EQ(reading.sample, "100 mL");
    EXPECT_EQ(only<app::TakeReading>("read Amber 3.1 P").gravity, "3.1 P");
    EXPECT_TRUE(says(refusal("read Amber"), "What was read"));
    EXPECT_TRUE(says(refusal("read Amber 1.008 --gravity 1.010"), "twice"));
    EXPECT_TRUE(says(refusal("read The Amber 1.008"), "quotes"));
}

TEST(Acts, scores_of_a_tasting_may_stand_among_its_words) {
    const auto tasting = only<app::TasteIt>("taste Amber sour=6 lemon, hay --score funk=4,5 --liking 7 --fault mousy");
    EXPECT_EQ(tasting.scores, (std::vector<std::string>{"funk=4,5", "sour=6"}));
    EXPECT_EQ(tasting.words, "lemon, hay");
    EXPECT_EQ(tasting.liking, "7");
    EXPECT_EQ(tasting.faults, std::vector<std::string>{"mousy"});
    EXPECT_TRUE(says(refusal("taste Amber"), "What was it like"));
}

TEST(Acts, names_of_several_words_need_no_quotes_where_only_one_can_be_meant) {
    const auto added = only<app::AddAddition>("add \"Jar 23\" sour cherry frozen 3 kg --bag");
    EXPECT_EQ(added.item, "sour cherry frozen");
    EXPECT_EQ(added.amount, "3 kg");
    EXPECT_TRUE(added.contained);
    EXPECT_EQ(only<app::LiftAddition>("lift J oak cubes").item, "oak cubes");
    EXPECT_EQ(only<app::PitchCulture>("pitch Amber mixed sour culture --suspected").kind, "mixed sour culture");
    EXPECT_EQ(only<app::RegisterVessel>("vessel Old Peat Row --capacity 110 L --material oak").name, "Old Peat Row");
    EXPECT_EQ(only<app::EnterLot>("lot Founding wort 54 L --into Amber --brewed 2019..2021 --assumed").name,
              "Founding wort");
    EXPECT_EQ(only<app::LoseLiquid>("loss Old Peat Row 1.5 L evaporation").vessel, "Old Peat Row");
}

TEST(Acts, bottles_leave_one_by_one_unless_counted) {
    const auto one = only<app::TakeBottles>("take AMB-1 opened lovely with cheese");
    EXPECT_EQ(one.count, "");
    EXPECT_EQ(one.cause, "opened");
    EXPECT_EQ(one.words, "lovely with cheese");
    const auto two = only<app::TakeBottles>("take AMB-1 2 given --to Ines");
    EXPECT_EQ(two.count, "2");
    EXPECT_EQ(two.person, "Ines");
    EXPECT_TRUE(says(refusal("take AMB-1"), "cause"));
}

TEST(Acts, packaging_ends_with_a_count_or_all) {
    const auto run =
        only<app::PackageRun>("package J swing top 24 --priming 5 g/L --limit 9 bar --acknowledge \"made for 9 bar\"");
    EXPECT_EQ(run.container, "swing top");
    EXPECT_EQ(run.count, "24");
    EXPECT_EQ(run.priming, "5 g/L");
    EXPECT_EQ(run.limit, "9 bar");
    EXPECT_EQ(run.acknowledge, "made for 9 bar");
    EXPECT_EQ(only<app::PackageRun>("package J bottle_swing_500 all").count, "all");
    EXPECT_TRUE(says(refusal("package J bottle_swing_500 crate"), "How many"));
}

TEST(Acts, served_beer_is_a_loss_with_that_cause) {
    const auto served = only<app::LoseLiquid>("draw Keg 1 2 L");
    EXPECT_EQ(served.vessel, "Keg 1");
    EXPECT_EQ(served.cause, "served");
}

TEST(Acts, a_correction_holds_the_act_that_stands_instead) {
    const auto correct = only<app::Correct>("correct #12 --reason \"misread\" read Amber 1.010 --ph 3.4");
    EXPECT_EQ(correct.entry, "#12");
    EXPECT_EQ(correct.reason, "misread");
    ASSERT_NE(correct.instead, nullptr);
    EXPECT_EQ(std::get<app::TakeReading>(*correct.instead).gravity, "1.010");
    EXPECT_TRUE(says(refusal("correct 12"), "instead"));
    EXPECT_TRUE(says(refusal("correct 12 void last"), "cannot stand"));
    EXPECT_TRUE(says(refusal("correct 12 correct 11 read A 1.01"), "cannot stand"));
    EXPECT_TRUE(says(refusal("correct 12 blend K --from A 1 L --from B 1 L"), "makes 2"));
    EXPECT_EQ(only<app::VoidEntry>("void last --reason oops").entry, "last");
}

TEST(Sittings, acts_joined_by_then_are_one_sitting_with_options_beside_any) {
    const auto sitting =
        sitting_of("read Amber 1.008 --when 2026-03-14 18:30 --then pull Amber 18 L Jar --by Ines --what-if");
    ASSERT_TRUE(sitting);
    EXPECT_EQ(sitting->request.acts.size(), 2U);
    EXPECT_EQ(sitting->request.when, "2026-03-14 18:30");
    EXPECT_EQ(sitting->request.by, "Ines");
    EXPECT_TRUE(sitting->what_if);
    EXPECT_EQ(sitting_of("read Amber 1.008 --when today 9:15")->request.when, "today 9:15");
    EXPECT_EQ(sitting_of("read A 1.008 --when 2026-03-14 --ph 3.4")->request.when, "2026-03-14");
}

TEST(Sittings, a_sitting_has_one_time_and_no_empty_side) {
    EXPECT_TRUE(says(refusal("read A 1.01 --when 2026-03-14 --then read B 1.01 --when 2026-03-15"), "one --when"));
    EXPECT_TRUE(says(refusal("read A 1.01 --when 2026-03-14 --after 12"), "not both"));
    EXPECT_TRUE(says(refusal("read A 1.01 --then"), "empty"));
    EXPECT_TRUE(says(refusal("cellar --then read A 1.01"), "not an act"));
}

TEST(Script, sittings_are_parted_by_blank_lines_and_heads) {
    std::istringstream in(
        "# The first visit.\n"
        "\n"
        "sitting 2025-03-14 18:30 by Ines Vale\n"
        "\n"
        "read Amber 1.008\n"
        "# a remark does not end it\n"
        "pull Amber 18 L \"Jar 23\"\n"
        "sitting D-30\n"
        "read Amber 1.010\n"
        "\n"
        "read Jar 1.006 --by Tomas\n");
    Script script(in, "Nobody", k_as_of);
    auto first = script.next();
    ASSERT_TRUE(first && *first);
    EXPECT_EQ((*first)->typed.request.when, "2025-03-14 18:30");
    EXPECT_EQ((*first)->typed.request.by, "Ines Vale");
    EXPECT_EQ((*first)->typed.request.acts.size(), 2U);
    EXPECT_EQ((*first)->first_line, 3);
    EXPECT_EQ((*first)->last_line, 7);
    auto second = script.next();
    ASSERT_TRUE(second && *second);
    EXPECT_EQ((*second)->typed.request.when, "2026-02-12");  // 30 days before 2026-03-14
    EXPECT_EQ((*second)->typed.request.by, "Nobody");
    EXPECT_EQ((*second)->first_line, 8);
    auto third = script.next();
    ASSERT_TRUE(third && *third);
    EXPECT_EQ((*third)->typed.request.when, "");
    EXPECT_EQ((*third)->typed.request.by, "Tomas");
    auto end = script.next();
    ASSERT_TRUE(end);
    EXPECT_FALSE(*end);
}

TEST(Script, days_before_stand_anywhere_but_only_as_whole_words) {
    std::istringstream in("lot Old 54 L --into Amber --brewed D-730..D-365 --when D-1\nnote D-day D-\n");
    Script script(in, "", k_as_of);
    const auto sitting = script.next();
    ASSERT_TRUE(sitting && *sitting);
    EXPECT_EQ(std::get<app::EnterLot>((*sitting)->typed.request.acts[0]).brewed, "2024-03-14..2025-03-14");
    EXPECT_EQ((*sitting)->typed.request.when, "2026-03-13");
    EXPECT_EQ(std::get<app::WriteNote>((*sitting)->typed.request.acts[1]).words, "D-day D-");
}

TEST(Script, an_error_names_its_line) {
    for (const auto& [text, line] : std::vector<std::pair<std::string, std::string>>{
             {"read Amber 1.008\nread\n", "2"},
             {"\n\nfrobnicate\n", "3"},
             {"sitting 2025-03-14\nsitting 2025-03-15\nread A 1.01\n", "2"},
             {"sitting 2025-03-14 18:30 Ines\nread A 1.01\n", "1"},
             {"note \"open\nread A 1.01\n", "1"}}) {
        std::istringstream in(text);
        Script script(in, "", k_as_of);
        const auto sitting = script.next();
        ASSERT_FALSE(sitting) << text;
        ASSERT_FALSE(sitting.error().facts.empty()) << text;
        EXPECT_EQ(sitting.error().facts[0], (Fact{"line", line})) << text;
    }
}

TEST(Script, days_before_a_day_nobody_said_are_refused) {
    std::istringstream in("sitting D-3\nread A 1.01\n");
    Script script(in, "", std::nullopt);
    EXPECT_FALSE(script.next());
}

}  // namespace
}  // namespace undercroft::cli
