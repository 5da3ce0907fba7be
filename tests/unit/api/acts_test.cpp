// Acts in JSON: read with the place of what is wrong, and written so that they are read back alike.
#include "api/acts.hpp"

#include <gtest/gtest.h>

namespace undercroft::testing {
namespace {

using api::Json;

Error error_of(const std::string& body) {
    const auto json = api::parse_json(body);
    if (!json) return json.error();
    const auto sitting = api::sitting_from(*json);
    if (!sitting) return sitting.error();
    ADD_FAILURE() << body << " was taken";
    return {};
}

std::string place_of(const std::string& acts) {
    return error_of("{\"acts\":" + acts + "}").where;
}

TEST(AnAct, InJsonIsReadBackAsItWasWritten) {
    const char* acts[] = {
        R"({"act":"vessel","name":"Oak tub","tag":"T","capacity":"30 L","ullage":"2 L","role":"solera","material":"oak","location":"yard","tare":"12 kg","shape":"lying","inner_height":"69 cm","head_diameter":"56 cm","dip_marks":["10 cm=8 L"]})",
        R"({"act":"retire","vessel":"#1"})",
        R"({"act":"lot","vessel":"#1","name":"Wort","volume":"20 L","kind":"beer","reason":"refill","to_full":true,"brewed":"2026","age_assumed":true,"original_gravity":"1.048","gravity":"1.010","alcohol":"5","ibu":"8","colour":"12","ph":"4","ta":"2 g/L","allergens":["gluten"],"cultures":["a","b"],"gear":["hose"]})",
        R"({"act":"move","reason":"top-up","from":"#1","to":[{"vessel":"#2","volume":"1 L"},{"vessel":"#3"}],"loss":"1 L","gear":["hose","pump"]})",
        R"({"act":"loss","vessel":"#1","volume":"1 L","cause":"spill"})",
        R"({"act":"add","vessel":"#1","kind":"spice","item":"hay","amount":"5 g","contained":true,"live":true,"cultures":["a"],"allergens":["b"],"hold_up":"5 %"})",
        R"({"act":"lift","vessel":"#1","item":"hay"})",
        R"({"act":"pitch","vessel":"#1","kind":"a","name":"b","killer":"killer","toxin":"K2","diastatic":"yes","suspected":true,"origin":"c"})",
        R"({"act":"reading","subject":"#1","gravity":"1.008","ph":"3.4","ta":"6 g/L","temperature":"18 C","dissolved_co2":"1 vol","weight":"3 kg","read_at":"20 C","instrument":"x","sample":"80 mL","gear":["thief"]})",
        R"({"act":"tasting","subject":"#1","taster":"Ines","scores":["sour=6"],"faults":["mousy"],"words":"lemon","liking":"7","sample":"50 mL","gear":["thief"]})",
        R"({"act":"package","from":"#1","run":"A-1","container":"c","count":"all","fill":"330 mL","head_space":"4 %","purged":true,"priming":"5 g/L","loss":"1 L","location":"shelf","store":"20 C","given_away":true,"limit":"10 bar","acknowledge":"why","gear":["hose"]})",
        R"({"act":"take","run":"A-1","count":"2","cause":"returned","person":"Bo","vessel":"#1","words":"dregs"})",
        R"({"act":"clean","vessel":"#1","words":"steam","method":"sanitised","kill":true,"agent":"heat","gear":["hose"]})",
        R"({"act":"treat","subject":"#1","method":"heat","temperature":"62 C","minutes":"20","pore":"0.45","so2":"30 mg/L","allergens":["fish"],"words":"bath"})",
        R"({"act":"confirm","subject":"#1","culture":"House sours","how":"plate"})",
        R"({"act":"end","vessel":"#1","to":[{"vessel":"#2","volume":"5 L"}],"dump":true,"words":"cracked"})",
        R"({"act":"split","vessel":"#1","into":"Second","volume":"20 L","tag":"S","capacity":"30 L","ullage":"1 L","material":"glass","location":"yard"})",
        R"({"act":"settle","subject":"#1","dip":"31 cm","ullage":"5 cm","weight":"60 kg","volume":"50 L","full":true,"count":"3","cause":"unknown","within":"3 mm"})",
        R"({"act":"calibrate","instrument":"meter","quantity":"ph","offset":"-0.06","reads":"3.52","truth":"3.46","since":"2026-01-01"})",
        R"({"act":"logger","subject":"#1","file":"wall.csv","maps":["When=date"],"instrument":"wall"})",
        R"({"act":"note","subject":"#1","words":"hoop"})",
        R"({"act":"interval","subject":"solera","what":"top-up","every":"6 weeks"})",
        R"({"act":"decide","vessel":"#1","technique":"sour cherry","dose":"160 g/L","days":"60","volume":"9 L","wants":["sour 5 to 7"],"words":"short of fruit"})",
        R"({"act":"target","subject":"#1","wants":["sour 5 to 7"],"like":"2025-06-01","words":"as turn 4"})",
        R"({"act":"label","run":"A-1","name":"Amber"})",
        R"({"act":"acknowledge","run":"A-1","words":"told them"})",
        R"({"act":"void","entry":"#12","reason":"twice"})",
        R"({"act":"correct","entry":"#12","reason":"misread","instead":{"act":"reading","subject":"#1","gravity":"1.007"}})",
    };
    EXPECT_EQ(std::size(acts), std::variant_size_v<app::Act>);
    for (const char* text : acts) {
        const Json json = Json::parse(text);
        const auto act = api::act_from(json, "acts[0]");
        ASSERT_TRUE(act) << text << ": " << act.error().where << ": " << act.error().what;
        // The same fields with the same values; their order is that of the list of fields.
        EXPECT_EQ(nlohmann::json::parse(api::json_of(*act).dump()), nlohmann::json::parse(text));
        EXPECT_EQ(api::json_of(*api::act_from(api::json_of(*act), "")), api::json_of(*act));
    }
}

TEST(AnAct, SaysWhereItIsWrong) {
    EXPECT_EQ(place_of(R"([{"act":"reading","subject":"#1","gravity":1.008}])"), "acts[0].gravity");
    EXPECT_EQ(place_of(R"([{"act":"note","words":"x"},{"act":"reading"}])"), "acts[1].subject");
    EXPECT_EQ(place_of(R"([{"act":"move","from":"#1","to":[{"vessel":"#2"},{"vessel":"#3","volum":"1 L"}]}])"),
              "acts[0].to[1].volum");
    EXPECT_EQ(place_of(R"([{"act":"tasting","subject":"#1","scores":["sour=6",4]}])"), "acts[0].scores[1]");
    EXPECT_EQ(place_of(R"([{"act":"correct","entry":"#1","instead":{"act":"reading","subject":7}}])"),
              "acts[0].instead.subject");
    EXPECT_EQ(place_of(R"([{"act":"correct","entry":"#1","instead":{"act":"correct"}}])"), "acts[0].instead.act");
    EXPECT_EQ(place_of(R"([17])"), "acts[0]");
    EXPECT_EQ(place_of(R"([{"vessel":"#1"}])"), "acts[0].act");
    EXPECT_EQ(place_of(R"([])"), "acts");
    EXPECT_EQ(error_of("[]").where, "body");
}

TEST(AnAct, NamesTheFieldThatWasMeant) {
    const Error error = error_of(R"({"acts":[{"act":"reading","subjct":"#1","gravity":"1.008"}]})");
    EXPECT_EQ(error.where, "acts[0].subjct");
    EXPECT_NE(error.next_step.find("subject"), std::string::npos);
}

TEST(ABody, ThatIsNoJsonOrSaysAThingTwiceIsRefused) {
    for (const char* body : {"", "{", "{}x", "{\"acts\":[}", "nul", "\"\xff\"", "1e999", "{\"a\":1,\"a\":2}",
                             "{\"acts\":[{\"act\":\"note\",\"act\":\"void\"}]}"})
        EXPECT_FALSE(api::parse_json(body)) << body;
    EXPECT_EQ(api::parse_json(std::string(300'000, '[')).error().where, "body");
    EXPECT_TRUE(api::parse_json("{\"a\":{\"a\":1},\"b\":{\"a\":1}}"));
}

TEST(WhatWasShown, ComesBackWithEveryFigure) {
    const auto posted = api::sitting_from(Json::parse(R"({"key":"k","acts":[{"act":"note","words":"x"}],"expected":
        {"sequence":12,"touched":[{"number":1,"name":"Amber","held":{"value":"54","unit":"L"},
        "volume":{"value":"53.920001","unit":"L"},"cultures":[{"name":"House","certainty":"likely"}]}]}})"));
    ASSERT_TRUE(posted) << posted.error().what;
    ASSERT_TRUE(posted->expected);
    EXPECT_EQ(posted->expected->sequence, 12);
    const app::Touched& touched = posted->expected->touched.at(0);
    EXPECT_EQ(touched.held.ul(), 54'000'000);
    EXPECT_EQ(touched.volume.ul(), 53'920'001);
    EXPECT_EQ(touched.cultures.at(0).certainty, "likely");
}

}  // namespace
}  // namespace undercroft::testing
