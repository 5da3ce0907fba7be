// What answers look like: invented views in, text and JSON out.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "render/json.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"

namespace undercroft::render {
namespace {

using Json = nlohmann::json;

app::BookLine kiln_lane() {
    app::BookLine book;
    book.name = "Kiln Lane";
    book.zone = "Europe/Lisbon";
    book.invented = true;
    book.sequence = 412;
    return book;
}

engine::Age amber_age() {
    engine::Age age;
    age.mean_years = 2.13;
    age.low_years = 2.0;
    age.high_years = 2.3;
    age.youngest_years = 0.3;
    age.youngest_name = "Autumn wort";
    age.youngest_share = 0.333;
    age.beer_share = 0.96;
    age.parts = {{0, "Founding wort", 0.41, 4.2, 0.2, true},
                 {1, "Autumn wort", 0.333, 0.3, 0.0, false},
                 {2, "Spring wort", 0.25, 1.4, 0.0, false},
                 {3, "Tiny one", 0.004, 2.2, 0.0, false},
                 {4, "Tiny two", 0.003, 2.8, 0.0, false}};
    age.others = {{"plum", ledger::LotKind::fruit, 0.04}};
    return age;
}

app::VesselSummary amber() {
    app::VesselSummary vessel;
    vessel.number = 1;
    vessel.name = "The Amber";
    vessel.tag = "A";
    vessel.material = "steel";
    vessel.capacity = Volume::from_litres(60);
    vessel.full = Volume::from_litres(54);
    vessel.volume = Volume::from_ul(36'500'001);
    vessel.fill = 0.676;
    vessel.age = amber_age();
    vessel.last = {{"gravity", "1.0080", "SG", "2026-03-02", 12}, {"ph", "3.42", "pH", "2026-03-02", 12}};
    return vessel;
}

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

void expect_narrow(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(width_of(line), k_columns) << line;
}

TEST(Lines, width_counts_characters_and_not_bytes_or_marks) {
    EXPECT_EQ(width_of("\u00B0C"), 2U);
    EXPECT_EQ(width_of("e\u0301"), 1U);
    EXPECT_EQ(clipped("Adega d\u00E3o", 7), "Adega \u2026");
    EXPECT_EQ(wrapped("- ", "a b\nc"), "- a b\n  c\n");
}

TEST(Strata, are_as_long_as_the_vessel_is_full_and_oldest_first) {
    const std::string picture = strata(amber_age(), 0.5, 20);
    EXPECT_EQ(width_of(picture), 20U);
    EXPECT_TRUE(picture.starts_with("\u2588\u2588\u2588\u2588")) << picture;  // 0.41 of ten columns is four
    EXPECT_TRUE(picture.ends_with("\u00B7\u00B7\u00B7\u00B7\u00B7\u00B7\u00B7\u00B7\u00B7\u00B7")) << picture;
    EXPECT_EQ(strata(engine::Age{}, 0.0, 3), "\u00B7\u00B7\u00B7");
}

TEST(Text, the_cellar_fits_the_terminal_and_says_that_it_is_invented) {
    app::CellarView view;
    view.book = kiln_lane();
    view.on = "2026-03-14";
    view.vessels = {amber()};
    view.runs = {{7,
                  "AMB-26-1",
                  "The Amber",
                  "Crown bottle",
                  Volume::from_ul(330'000),
                  24,
                  18,
                  {{"opened", 6}},
                  0,
                  "2026-02-01",
                  "Shelf 2",
                  amber_age(),
                  0.1}};
    view.in = Volume::from_litres(100);
    view.out = Volume::from_litres(40);
    view.on_hand = Volume::from_litres(60);
    const std::string text = text_of(view);
    expect_narrow(text);
    for (const char* part : {"Kiln Lane: the cellar on 2026-03-14", "entry #412", "Invented demo cellar", "The Amber",
                             "36.5 L", "54 L", "2.1 years", "33 %, 4 months", "1.0080, 12 days ago", "AMB-26-1",
                             "24 x 0.33 L", "In 100 L = out 40 L + on hand 60 L"})
        EXPECT_TRUE(has(text, part)) << part << " in\n" << text;
}

TEST(Text, one_vessel_shows_spreads_certainty_and_a_caution_nobody_can_miss) {
    app::HoldingView view;
    view.book = kiln_lane();
    view.on = "2026-03-14";
    view.vessel = amber();
    view.from_brew_day = amber_age();
    view.estimates = {{"gravity", "SG", 4, {1.008, 0.0005, engine::Provenance::read, {}, "read 1.0080 on 2026-03-02"}},
                      {"alcohol", "% vol", 1, {6.14, 0.3, engine::Provenance::mixed, {}, "mixed from three lots"}}};
    app::CultureLine culture;
    culture.name = "Wine yeast";
    culture.kind = "wine_killer_k2";
    culture.killer = ledger::KillerPhenotype::killer;
    culture.toxin = ledger::ToxinType::k2;
    culture.certainty = ledger::Certainty::likely;
    culture.since = "2025-10-01";
    view.cultures = {culture};
    view.allergens = {{"gluten", std::nullopt}, {"sulphite", 12.0}};
    view.cautions = {{"gas.room",
                      "20 L give 1.3 kg of CO2: air the room before you go down, and do not go alone into a "
                      "cellar that has been closed for days."}};
    const std::string text = text_of(view);
    expect_narrow(text);
    for (const char* part :
         {"!! CAUTION\n!! - 20 L give", "\u00B1 0.0005", "1.0080", "read 1.0080 on 2026-03-02", "likely",
          "killer, toxin", "gluten (amount unknown), sulphite 12.0 mg/L", "Founding wort (assumed)",
          "2 lots of less than 0.5 % each", "4.0 % of the whole is plum (fruit)"})
        EXPECT_TRUE(has(text, part)) << part << " in\n" << text;
    EXPECT_LT(text.find("4 months  Autumn wort\n"), text.find("Founding wort (assumed)"));  // youngest on top
}

app::SittingView pull_of_18() {
    app::SittingView view;
    view.book = kiln_lane();
    view.key = "0190f3c8-0000-7000-8000-000000000001";
    view.when = "2026-03-14 18:30";
    view.entries = {
        {0, "", "move", "2026-03-14", "18:30", "18 L pulled from The Amber into Jar 23", "Ines", true, "", ""}};
    view.changes = {{"The Amber", "volume", "54 L", "36 L"},
                    {"The Amber", "mean age", "2.1 years", "2.1 years"},
                    {"Jar 23", "volume", "", "18 L"}};
    view.remarks = {"0.4 L had evaporated unseen: booked with the top-up"};
    return view;
}

TEST(Text, a_what_if_says_first_that_nothing_was_booked) {
    const std::string text = text_of(pull_of_18());
    expect_narrow(text);
    EXPECT_TRUE(text.starts_with("What if: nothing was booked.\n")) << text;
    for (const char* part : {"before", "after", "54 L", "36 L", "[Ines]", "* 0.4 L had evaporated"})
        EXPECT_TRUE(has(text, part)) << part << " in\n" << text;
}

TEST(Text, a_booked_sitting_is_acknowledged_on_one_line) {
    app::SittingView view = pull_of_18();
    view.booked = true;
    view.entries[0].number = 12;
    view.entries.push_back(view.entries[0]);
    view.entries[1].number = 13;
    EXPECT_EQ(acknowledgement(view), "booked 0190f3c8-0000-7000-8000-000000000001 entries #12-#13\n");
    EXPECT_TRUE(has(text_of(view), "Booked entries #12-#13."));
    view.already = true;
    EXPECT_EQ(acknowledgement(view), "already booked 0190f3c8-0000-7000-8000-000000000001 entries #12-#13\n");
}

TEST(Text, a_gas_check_says_what_is_missing_and_what_to_ask_the_maker) {
    app::GasCheckView view;
    view.container = "Crown bottle 330 mL";
    view.verdict = "do_not";
    view.verdict_words = "This can reach 9.1 bar at 25 \u00B0C within 12 months.";
    view.reasons = {"nobody has said what this bottle is made for"};
    view.gas = {{"dissolved", 0.858, "vol", "20 \u00B0C at 1.013 bar", "Weiss 1974"}};
    view.total_volumes = 4.1;
    view.total_g_per_l = 8.1;
    view.pressure = {{"CO2", 8.6, "bar", "by 5.3", ""}};
    view.total_gauge_bar = 9.1;
    view.limit_needed_bar = 11.4;
    view.by_temperature = {{4.0, 3.2}, {25.0, 9.1}};
    const std::string text = text_of(view);
    expect_narrow(text);
    for (const char* part : {"DO NOT PACKAGE\n  This can reach 9.1 bar", "- nobody has said", "ask its maker for",
                             "[1] Weiss 1974", "CO2  8.60  bar  by 5.3", "3.20 bar"})
        EXPECT_TRUE(has(text, part)) << part << " in\n" << text;
}

TEST(Text, an_error_is_a_sentence_aligned_facts_and_a_next_step) {
    const Error error{ErrorKind::impossible,
                      "Jar 23",
                      "This takes 18 L from Jar 23.",
                      {{"held", "11 L"}, {"short by", "7 L"}},
                      "Check the reading, or pull less."};
    EXPECT_EQ(text_of(error),
              "This takes 18 L from Jar 23.\n  held      11 L\n  short by  7 L\nCheck the reading, or pull less.\n");
    const Json json = Json::parse(json_of(error));
    EXPECT_EQ(json["error"]["kind"], "impossible");
    EXPECT_EQ(json["error"]["facts"][1]["value"], "7 L");
}

TEST(Json, amounts_are_exact_texts_and_estimates_say_where_they_come_from) {
    app::HoldingView view;
    view.book = kiln_lane();
    view.vessel = amber();
    view.from_brew_day = amber_age();
    view.estimates = {{"gravity", "SG", 4, {1.008, 0.0005, engine::Provenance::read, Instant{0}, "read"}}};
    const std::string text = json_of(view);
    EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 1);
    const Json json = Json::parse(text);
    EXPECT_EQ(json["book"]["sequence"], 412);
    EXPECT_EQ(json["book"]["invented"], true);
    EXPECT_EQ(json["vessel"]["volume"], (Json{{"value", "36.500001"}, {"unit", "L"}}));
    EXPECT_EQ(json["estimates"][0]["mean"], 1.008);
    EXPECT_EQ(json["estimates"][0]["provenance"], "read");
    EXPECT_EQ(json["estimates"][0]["read_at"], "1970-01-01T00:00:00.000Z");
    EXPECT_EQ(json["age_from_brew_day"]["parts"][0]["name"], "Founding wort");
    EXPECT_TRUE(json["run"].is_null());
    EXPECT_TRUE(json["cautions"].is_array());
}

TEST(Json, a_sitting_holds_what_it_touches_before_and_after) {
    app::SittingView view = pull_of_18();
    app::HoldingView holding;
    holding.vessel = amber();
    view.before = {holding};
    view.after = {holding};
    const Json json = Json::parse(json_of(view));
    EXPECT_EQ(json["booked"], false);
    EXPECT_EQ(json["before"][0]["vessel"]["name"], "The Amber");
    EXPECT_EQ(json["changes"][2]["after"], "18 L");
    EXPECT_EQ(json["entries"][0]["by"], "Ines");
}

TEST(Json, bytes_that_are_no_text_do_not_break_an_answer) {
    EXPECT_TRUE(Json::accept(json_of(Error{ErrorKind::not_found, "", "no vessel \xff\xfe", {}, ""})));
}

}  // namespace
}  // namespace undercroft::render
