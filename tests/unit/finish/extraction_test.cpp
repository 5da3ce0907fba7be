// Strength of a spice over time: closed form, and what tastings on the way say.
#include "engine/finish/extraction.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace undercroft::engine::finish {
namespace {

TEST(Extraction, IsFirstOrder) {
    EXPECT_NEAR(extracted_share(14.0, 14.0), 0.9, 1e-12);
    EXPECT_NEAR(extracted_share(14.0, 7.0), 1.0 - std::sqrt(0.1), 1e-12);
    EXPECT_NEAR(extracted_share(14.0, 0.0), 0.0, 1e-12);
    // k = 2.303/t90 (data/flavourings.csv, column of rates): chips, cubes, staves.
    for (const auto& [t90, k] : {std::pair{14.0, 0.1645}, std::pair{56.0, 0.0411}, std::pair{150.0, 0.0154}})
        EXPECT_NEAR(1.0 - std::exp(-k), extracted_share(t90, 1.0), 1e-4);
}

TEST(Extraction, WithoutATastingIsThePrior) {
    const Extraction it = extraction_of({4.0, 1.9}, 14.0, {}, 0.0).value();
    EXPECT_NEAR(it.full.mean, 4.0, 1e-9);
    EXPECT_NEAR(it.full.sd, 1.9, 1e-9);
    EXPECT_NEAR(it.t90_days.mean, 14.0, 1e-6);
    EXPECT_FALSE(it.lift_days);
}

TEST(Extraction, AStrongFirstTasteMovesTheLiftForward) {
    const auto prior = extraction_of({4.0, 1.9}, 14.0, {}, 3.0).value();
    const auto strong = extraction_of({4.0, 1.9}, 14.0, {{4.7, 3.0, 0.5}}, 3.0).value();
    ASSERT_TRUE(prior.lift_days);
    ASSERT_TRUE(strong.lift_days);
    EXPECT_LT(*strong.lift_days, *prior.lift_days);
    EXPECT_NEAR(*strong.lift_days, 4.7, 1.2) << "it has what is wanted already";
    EXPECT_LT(*strong.lift_early_days, *strong.lift_days);
    const auto weak = extraction_of({4.0, 1.9}, 14.0, {{4.7, 0.3, 0.5}}, 3.0).value();
    EXPECT_GT(weak.chance_never, 0.5);
}

TEST(Extraction, ManyTastingsOfAKnownCurveFindIt) {
    std::vector<TastedOnTheWay> tastings;
    for (const double day : {1.0, 2.0, 4.0, 7.0, 10.0, 14.0, 20.0, 30.0})
        for (int i = 0; i < 4; ++i) tastings.push_back({day, 5.0 * extracted_share(9.0, day), 0.3});
    const Extraction it = extraction_of({4.0, 1.9}, 14.0, tastings, 4.0).value();
    EXPECT_NEAR(it.full.mean, 5.0, 0.15);
    EXPECT_NEAR(it.t90_days.mean, 9.0, 0.7);
    // 5 (1 - 10^(-t/9)) = 4 at t = 9 log10(5).
    EXPECT_NEAR(*it.lift_days, 9.0 * std::log10(5.0), 0.6);
}

TEST(Extraction, RefusesWhatCannotBe) {
    EXPECT_FALSE(extraction_of({4.0, 1.9}, 0.0, {}, 1.0));
    EXPECT_FALSE(extraction_of({4.0, 0.0}, 14.0, {}, 1.0));
    EXPECT_FALSE(extraction_of({4.0, 1.0}, 14.0, {{-1.0, 2.0, 0.5}}, 1.0));
    EXPECT_FALSE(extraction_of({4.0, 1.0}, 14.0, {{1.0, 12.0, 0.5}}, 1.0));
}

}  // namespace
}  // namespace undercroft::engine::finish
