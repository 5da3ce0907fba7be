// Tasting tests: what they refuse, and how verdict, power and numbers go together.
#include <gtest/gtest.h>

#include "engine/taste/counting.hpp"
#include "engine/taste/ranking.hpp"

namespace undercroft::engine::taste {
namespace {

CountingQuestion triangle(int answers, int right) {
    CountingQuestion q;
    q.answers = answers;
    q.right = right;
    return q;
}

TEST(CountingTest, GivesNoVerdictBelowSixAnswersHoweverClear) {
    const CountingAnswer answer = counting_test(triangle(5, 5)).value();
    EXPECT_LT(answer.p, 0.05);
    EXPECT_EQ(answer.verdict, CountingVerdict::too_few);
    EXPECT_EQ(counting_test(triangle(6, 6)).value().verdict, CountingVerdict::different);
}

TEST(CountingTest, TurnsAtTheCountThatIsNeeded) {
    for (int answers = 6; answers <= 60; ++answers) {
        const auto needed = needed_right(CountingTest::triangle, answers, 0.05);
        ASSERT_TRUE(needed);
        EXPECT_EQ(counting_test(triangle(answers, *needed)).value().verdict, CountingVerdict::different);
        EXPECT_EQ(counting_test(triangle(answers, *needed - 1)).value().verdict, CountingVerdict::not_shown);
    }
}

TEST(CountingTest, EnoughAnswersShowItFourTimesOfFive) {
    CountingQuestion q = triangle(24, 10);
    const auto enough = counting_test(q).value().answers_for_80;
    ASSERT_TRUE(enough);
    q.answers = *enough;
    EXPECT_GE(counting_test(q).value().power, 0.80);
    q.discriminators = 0.5;
    EXPECT_LT(*counting_test(q).value().answers_for_80, *enough) << "what more people notice needs fewer";
}

TEST(CountingTest, TwoSidedTakesEitherForPreferred) {
    CountingQuestion q;
    q.test = CountingTest::paired;
    q.sides = Sides::two;
    q.answers = 20;
    q.right = 4;
    const CountingAnswer few = counting_test(q).value();
    q.right = 16;
    EXPECT_DOUBLE_EQ(counting_test(q).value().p, few.p);
    EXPECT_EQ(few.verdict, CountingVerdict::different);
    EXPECT_FALSE(few.noticed);
}

TEST(CountingTest, RefusesWhatCannotBe) {
    const auto where = [](const CountingQuestion& q) {
        const auto answer = counting_test(q);
        return answer ? std::string("answered") : answer.error().where;
    };
    EXPECT_EQ(where(triangle(0, 0)), "tasters");
    EXPECT_EQ(where(triangle(10, 11)), "right");
    EXPECT_EQ(where(triangle(10, -1)), "right");
    CountingQuestion q = triangle(10, 5);
    q.alpha = 0.0;
    EXPECT_EQ(where(q), "alpha");
    q = triangle(10, 5);
    q.discriminators = 1.5;
    EXPECT_EQ(where(q), "noticing");
    q = triangle(10, 5);
    q.sides = Sides::two;
    EXPECT_EQ(where(q), "sides");
}

TEST(RankingTest, RefusesATasterTwiceAndSetsThatDiffer) {
    const Ranking ines{"Ines", {{"A", 1}, {"B", 2}, {"C", 3}}};
    const Ranking marit{"Marit", {{"A", 2}, {"B", 1}, {"C", 3}}};
    const Ranking other{"Tobias", {{"A", 2}, {"B", 1}}};
    EXPECT_TRUE(ranking_test({ines, marit}));
    EXPECT_FALSE(ranking_test({ines, marit}).value().verdict) << "two tasters prove nothing";
    EXPECT_EQ(ranking_test({ines}).error().where, "ranks");
    EXPECT_NE(ranking_test({ines, marit, ines}).error().what.find("Ines stands there twice"), std::string::npos);
    EXPECT_NE(ranking_test({ines, marit, other}).error().what.find("did not rank the same"), std::string::npos);
    EXPECT_EQ(ranking_test({ines, {"Marit", {{"A", 1}, {"A", 2}, {"B", 3}}}}).error().where, "ranks");
    EXPECT_EQ(ranking_test({ines, marit}, 0.0).error().where, "alpha");
}

TEST(RankingTest, OfTiesThroughoutShowsNothing) {
    std::vector<Ranking> all;
    for (int i = 0; i < 5; ++i) all.push_back({"T" + std::to_string(i), {{"A", 1}, {"B", 1}, {"C", 1}}});
    const RankingAnswer answer = ranking_test(all).value();
    EXPECT_DOUBLE_EQ(answer.p, 1.0);
    EXPECT_FALSE(answer.different);
}

}  // namespace
}  // namespace undercroft::engine::taste
