// Ages and soleras as text and JSON: what must be said is said, and JSON holds the same numbers.
#include "render/ages.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "app/ages.hpp"
#include "render/lines.hpp"

namespace undercroft::render {
namespace {

using Json = nlohmann::json;

bool says(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

app::AgeView amber_ages() {
    app::AgeView view;
    view.book.name = "Kiln Lane";
    view.book.sequence = 12;
    view.on = "2026-03-14";
    view.kind = "vessel";
    view.subject = "The Amber";
    view.state = "now";
    view.state_words = "as it stands on 2026-03-14, 12 days after the refill of 2026-03-02";
    view.volume = Volume::from_litres(56);
    view.age.from = engine::AgeFrom::entry;
    view.age.mean_years = 2.6;
    view.age.low_years = 2.2;
    view.age.high_years = 3.0;
    view.age.youngest_years = 0.03;
    view.age.youngest_share = 0.4;
    view.age.youngest_name = "Spring wort";
    view.age.beer_share = 1.0;
    view.age.assumed = true;
    view.age.effective_vintages = 1.9;
    view.age.parts = {{0, "Remembered", 0.6, 4.3, 0.7, true}, {1, "Spring wort", 0.4, 0.03, 0.0, false}};
    view.profile = engine::profile_of(view.age, {3.0});
    view.after_refill = app::AgeAtTurn{"2026-03-02", view.age};
    return view;
}

TEST(AnAge, NamesItsConventionAndCarriesTheRangeOfWhatIsAssumed) {
    const std::string text = text_of(amber_ages());
    EXPECT_TRUE(says(text, "from the day it came in")) << text;
    EXPECT_TRUE(says(text, "as it stands on 2026-03-14, 12 days"));
    EXPECT_TRUE(says(text, "2.2 years to 3 years by what is assumed"));
    EXPECT_TRUE(says(text, "95 %  4.3 years  3.6 years to 5 years by what is assumed"));
    EXPECT_TRUE(says(text, "after the refill of 2026-03-02"));
    EXPECT_FALSE(says(text, "in the bottle"));
    const Json json = Json::parse(json_of(amber_ages()));
    EXPECT_EQ(json["age"]["from"], "entry");
    EXPECT_EQ(json["percentiles"][4]["percent"], 95);
    EXPECT_NEAR(json["percentiles"][4]["years"]["old"].get<double>(), 5.0, 1e-12);
    EXPECT_NEAR(json["older"][0]["share"]["middle"].get<double>(), 0.6, 1e-12);
    EXPECT_TRUE(json["before_pull"].is_null());
    EXPECT_TRUE(json["years_in_container"].is_null());
}

TEST(AnAge, OfBottlesKeepsTheirTimeInGlassApart) {
    app::AgeView view = amber_ages();
    view.kind = "run";
    view.state = "when_packaged";
    view.years_in_container = 1.5;
    const std::string text = text_of(view);
    EXPECT_TRUE(says(text, "in the bottle since   18 months")) << text;
    EXPECT_TRUE(says(text, "about 4.1 years"));
    EXPECT_EQ(Json::parse(json_of(view))["years_in_container"], 1.5);
}

TEST(ASolera, IsATableAPlotAndItsClosedForms) {
    app::SoleraRequest request;
    request.vessels = {"60 L", "60 L", "60 L"};
    request.pull = "20 L";
    request.every = "1 year";
    const auto view = app::solera_sum(request, Gallons::unset);
    ASSERT_TRUE(view);
    const std::string text = text_of(*view);
    EXPECT_TRUE(says(text, "before the pull")) << text;
    EXPECT_TRUE(says(text, "vessels perfectly mixed"));
    EXPECT_TRUE(says(text, "3.96 years"));  // 107/27 at the fourth turn
    EXPECT_TRUE(says(text, "where it settles, 9.00 years"));
    EXPECT_TRUE(says(text, "it does not dilute"));
    const Json json = Json::parse(json_of(*view));
    EXPECT_NEAR(json["turns"][3]["mean_years"].get<double>(), 107.0 / 27.0, 1e-12);
    EXPECT_NEAR(json["limit_years"].get<double>(), 9.0, 1e-9);
    EXPECT_EQ(json["turns"].size(), 10U);
    EXPECT_EQ(json["stages"][0]["value"], "60");
}

TEST(ASolera, ThatNeverSettlesSaysSo) {
    app::SoleraRequest request;
    request.vessels = {"60 L"};
    request.pull = "half";
    request.every = "1 year";
    request.mixing = "0";
    request.drawn = "above";
    const auto view = app::solera_sum(request, Gallons::unset);
    ASSERT_TRUE(view);
    EXPECT_TRUE(says(text_of(*view), "does not settle"));
    EXPECT_TRUE(Json::parse(json_of(*view))["turns_to_settle"].is_null());
}

TEST(ASpoiltRefill, IsGoneAfterSevenTurnsOfAHalf) {
    app::SoleraRequest request;
    request.vessels = {"60 L"};
    request.pull = "half";
    request.every = "2 years";
    const auto view = app::solera_sum(request, Gallons::unset);
    ASSERT_TRUE(view);
    ASSERT_GE(view->carried_over.size(), 3U);
    EXPECT_NEAR(view->carried_over[0].value, 50.0, 1e-9);
    EXPECT_EQ(view->carried_over[1].value, 7.0);  // 2^-7 is below 1 %, 14 years
    EXPECT_EQ(view->carried_over[2].value, 100.0);
}

TEST(Designs, SayWhatTheyYieldHowOldAndWhatTheyCost) {
    app::DesignRequest request;
    request.demand = "60 L";
    request.age = "3 years";
    request.wait = "6 years";
    const auto view = app::design_sum(request, Gallons::unset);
    ASSERT_TRUE(view);
    const std::string text = text_of(*view);
    EXPECT_TRUE(says(text, "with a mean of 3 years within 6 years")) << text;
    EXPECT_TRUE(says(text, "its first eight turns"));
    EXPECT_TRUE(says(text, "begun faster"));
    EXPECT_TRUE(says(text, "no source"));
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = text.find('\n', at);
        EXPECT_LE(width_of(std::string_view(text).substr(at, end - at)), k_columns) << text.substr(at, end - at);
        at = end + 1;
    }
    const Json json = Json::parse(json_of(*view));
    EXPECT_EQ(json["designs"][0]["turns"].size(), 8U);
    EXPECT_TRUE(json["reached"].get<bool>());
    EXPECT_TRUE(json["sitting"].is_null());
    EXPECT_EQ(json["starts"][0]["start"], "plain");
}

}  // namespace
}  // namespace undercroft::render
