#include "chem/extract.hpp"
#include "tests/support/celsius.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace undercroft::chem {
namespace {

using testing::celsius;

TEST(Extract, WaterHasNone) {
    EXPECT_NEAR(plato_of_gravity(1.0), 0.0, 1e-12);
    EXPECT_NEAR(gravity_of_plato(0.0), 1.0, 1e-15);
}

TEST(Extract, OfADryBeerLighterThanWaterIsNegative) {
    EXPECT_LT(plato_of_gravity(0.998), -0.5);
    // 0.001 of gravity is a quarter of a degree on both sides of water: nothing is clamped.
    EXPECT_NEAR(plato_of_gravity(1.0) - plato_of_gravity(0.999), plato_of_gravity(1.001) - plato_of_gravity(1.0),
                0.002);
}

TEST(Extract, RisesWithGravityThroughEverySeam) {
    for (double s = 0.900; s < 1.300; s += 0.00005) EXPECT_GT(plato_of_gravity(s + 0.00005), plato_of_gravity(s)) << s;
}

TEST(Extract, TakesNoStepAtTheSeams) {
    for (const double seam : {1.000, 1.010, 1.083, 1.087})
        EXPECT_NEAR(plato_of_gravity(seam - 1e-12), plato_of_gravity(seam + 1e-12), 1e-8) << seam;
}

TEST(Extract, ComesBackFromGravityAndGravityFromExtract) {
    for (double s = 0.950; s <= 1.200; s += 0.00037) EXPECT_NEAR(gravity_of_plato(plato_of_gravity(s)), s, 1e-14);
    for (double p = -10.0; p <= 45.0; p += 0.037) EXPECT_NEAR(plato_of_gravity(gravity_of_plato(p)), p, 1e-12);
}

TEST(Extract, OfJuiceIsTheSameScaleAsPlato) {
    // Two tables of one thing: published fits part by 5e-5 SG at 20 °Bx and 1.2e-4 at 40.
    for (double brix = 0.0; brix <= 40.0; brix += 0.5)
        EXPECT_NEAR(gravity_of_brix(brix), gravity_of_plato(brix), brix <= 20.0 ? 5.1e-5 : 1.2e-4) << brix;
    for (double brix = 0.0; brix <= 84.5; brix += 0.5)
        EXPECT_GT(gravity_of_brix(brix + 0.5), gravity_of_brix(brix)) << brix;
}

TEST(Water, AtTwentyDegreesIsTheConstantUsedForGravity) {
    EXPECT_NEAR(water_density(celsius(20.0)), k_water_density_at_20, 5e-5);
    EXPECT_DOUBLE_EQ(sucrose_density(0.0, celsius(13.0)), water_density(celsius(13.0)));
}

TEST(Hydrometer, ReadAtItsOwnTemperatureOfTwentyIsLeftAlone) {
    for (double s = 0.985; s < 1.2; s += 0.01)
        EXPECT_NEAR(gravity_at_20(s, celsius(20.0), celsius(20.0)).value(), s, 1e-13);
}

TEST(Hydrometer, ReadsTooLowInWarmBeerAndTooHighInCold) {
    const auto corrected = [](double s, double t) { return gravity_at_20(s, celsius(t), celsius(20.0)).value(); };
    for (double s = 0.990; s < 1.1; s += 0.01) {
        for (double t = 0.0; t < 20.0; t += 2.0) EXPECT_LT(corrected(s, t), s) << t;
        for (double t = 22.0; t <= 40.0; t += 2.0) EXPECT_GT(corrected(s, t), s) << t;
        // Water is densest at 4 °C; from there on the correction grows.
        for (double t = 6.0; t <= 38.0; t += 2.0) EXPECT_GT(corrected(s, t + 2.0), corrected(s, t)) << t;
    }
}

TEST(Hydrometer, OfSixtyFahrenheitReadsPureWaterAsOneAtSixtyFahrenheit) {
    const Temperature sixty = Temperature::from_fahrenheit(60.0);
    EXPECT_NEAR(gravity_at_20(1.0, sixty, sixty).value(), 1.0, 1e-12);
}

TEST(Hydrometer, CannotBeCorrectedOutsideZeroToFortyDegrees) {
    for (const double t : {-0.1, 40.1, 64.0}) {
        const auto read = gravity_at_20(1.010, celsius(t), celsius(20.0));
        ASSERT_FALSE(read.has_value()) << t;
        EXPECT_EQ(read.error().kind, ErrorKind::outside_model);
        EXPECT_EQ(gravity_at_20(1.010, celsius(20.0), celsius(t)).error().where, "calibrated at");
    }
    EXPECT_TRUE(gravity_at_20(1.010, celsius(0.0), celsius(40.0)).has_value());
}

TEST(Hydrometer, RefusesAReadingNoHydrometerShows) {
    for (const double reading : {0.9, 1.3, std::nan("")})
        EXPECT_EQ(gravity_at_20(reading, celsius(20.0), celsius(20.0)).error().kind, ErrorKind::outside_model);
}

}  // namespace
}  // namespace undercroft::chem
