// A jar on a kitchen scale, against the balance of what ferments.
#include "engine/package/weighing.hpp"

#include <gtest/gtest.h>

namespace undercroft::engine::package {
namespace {

std::vector<FitPoint> falling(double from, double a_day, int days) {
    std::vector<FitPoint> weights;
    for (int day = 0; day <= days; ++day) weights.push_back({static_cast<double>(day), from - a_day * day});
    return weights;
}

TEST(Weighing, AGramOfCarbonDioxideFromALitreIsHalfAVolume) {
    // common practice, no source
    const Weighing found = weighed(falling(9000.0, 5.0, 10), {}, 5.0).value();
    EXPECT_NEAR(found.co2_g_per_l_a_day, 1.0, 1e-9);
    EXPECT_NEAR(found.co2_g_per_l_a_day / 1.9768, 0.506, 0.001);
    // Half a volume for 0.001 of gravity, so thirty days at it are about 0.030.
    EXPECT_NEAR(found.gravity_a_month, 0.0304, 0.0001);
    // Balling 1865: 2.0665 g of extract give 0.9565 g of CO2.
    EXPECT_NEAR(found.extract_g_per_l_a_day, 2.1605, 0.001);
}

TEST(Weighing, TakesOffWhatTheTwinEvaporates) {
    const Weighing found = weighed(falling(9000.0, 1.2, 14), falling(8000.0, 0.7, 14), 5.0).value();
    EXPECT_NEAR(found.grams_a_day, 0.5, 1e-9);
    EXPECT_NEAR(found.co2_g_per_l_a_day, 0.1, 1e-9);
    EXPECT_GT(found.co2_most_a_day, found.co2_g_per_l_a_day);
}

TEST(Weighing, OfAStillJarIsBoundedByWhatTheScaleTellsApart) {
    const Weighing week = weighed(falling(9000.0, 0.0, 7), {}, 5.0, 1.0).value();
    const Weighing month = weighed(falling(9000.0, 0.0, 30), {}, 5.0, 1.0).value();
    EXPECT_EQ(week.co2_g_per_l_a_day, 0.0);
    EXPECT_GT(week.co2_most_a_day, 0.0);
    EXPECT_LT(month.co2_most_a_day, week.co2_most_a_day / 4.0) << "longer watched is surer";
    const Weighing fine = weighed(falling(9000.0, 0.0, 7), {}, 5.0, 0.1).value();
    EXPECT_NEAR(fine.co2_most_a_day, week.co2_most_a_day / 10.0, 1e-12);
}

TEST(Weighing, TakesTheStepOfTheScaleFromWhatItShowed) {
    EXPECT_DOUBLE_EQ(scale_step({{0, 9412.0}, {1, 9411.0}, {2, 9410.0}}), 1.0);
    EXPECT_DOUBLE_EQ(scale_step({{0, 9412.3}, {1, 9411.0}}), 0.1);
    EXPECT_DOUBLE_EQ(scale_step({{0, 9410.0}, {1, 9405.0}}), 5.0);
    EXPECT_DOUBLE_EQ(scale_step({{0, 29400.0}, {1, 29300.0}}), 100.0);
    const std::vector<FitPoint> coarse = {{0, 9100.0}, {5, 9100.0}, {10, 9100.0}};
    EXPECT_DOUBLE_EQ(weighed(coarse, {}, 5.0).value().co2_most_a_day,
                     weighed(coarse, {}, 5.0, 100.0).value().co2_most_a_day);
}

TEST(Weighing, IsRefusedWhereItTellsNothing) {
    EXPECT_EQ(weighed(falling(9000.0, 1.0, 1), {}, 5.0).error().where, "weight");
    EXPECT_EQ(weighed(falling(9000.0, 1.0, 10), falling(8000.0, 0.1, 1), 5.0).error().where, "twin");
    EXPECT_EQ(weighed(falling(9000.0, 1.0, 10), {}, 0.0).error().where, "volume");
    EXPECT_EQ(weighed(falling(9000.0, -3.0, 10), {}, 5.0).error().where, "weight") << "it grew heavier";
}

}  // namespace
}  // namespace undercroft::engine::package
