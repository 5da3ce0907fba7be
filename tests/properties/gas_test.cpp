// What must hold for any closed container.
#include "chem/gas.hpp"

#include <gtest/gtest.h>

#include "tests/properties/always.hpp"
#include "tests/properties/split_mix.hpp"

namespace undercroft::chem {
namespace {

using testing::expect_for_seeds;
using testing::SplitMix64;

ClosedContainer random_container(SplitMix64& random) {
    ClosedContainer container;
    container.co2_g_per_l = random.uniform(0.5, 12.0);
    container.head_space = random.uniform(0.03, 0.5);
    container.air = static_cast<AirInHeadSpace>(random.between(0, 2));
    container.abv = random.uniform(0.0, 15.0);
    container.extract_g_per_l = random.uniform(0.0, 120.0);
    container.filled_at = Temperature::from_celsius(random.uniform(0.0, 25.0));
    container.ambient = ambient_pressure_at(random.uniform(0.0, 3000.0));
    return container;
}

double total(const ClosedContainer& container, double celsius) {
    return pressure_in(container, Temperature::from_celsius(celsius)).value().total.in_bar();
}

TEST(GasProperties, PressureRisesWithTemperatureAtFixedGas) {
    // From 4 °C, where water is densest: below it the liquid shrinks as it warms.
    expect_for_seeds("pressure over temperature", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const ClosedContainer container = random_container(random);
        double t = 4.0;
        double before = total(container, t);
        int steps = 0;
        while ((t += random.uniform(0.1, 4.0)) <= 50.0) {
            const double after = total(container, t);
            EXPECT_GT(after, before) << seed << " at " << t;
            before = after;
            ++steps;
        }
        return steps;
    });
}

TEST(GasProperties, PressureRisesWithGasAndWithTheAirLeftIn) {
    expect_for_seeds("pressure over gas and air", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        ClosedContainer container = random_container(random);
        const double t = random.uniform(0.0, 50.0);
        const double before = total(container, t);
        ClosedContainer more = container;
        more.co2_g_per_l += random.uniform(0.01, 2.0);
        EXPECT_GT(total(more, t), before) << seed;
        container.air = AirInHeadSpace::purged;
        const double purged = total(container, t);
        container.air = AirInHeadSpace::without_oxygen;
        const double eaten = total(container, t);
        container.air = AirInHeadSpace::trapped;
        EXPECT_GT(eaten, purged) << seed;
        EXPECT_GT(total(container, t), eaten) << seed;
        return 1;
    });
}

TEST(GasProperties, CarbonationAndItsPressureAreInverses) {
    expect_for_seeds("carbonation and pressure", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const Temperature t = Temperature::from_celsius(random.uniform(0.0, 30.0));
        const AbsolutePressure ambient = ambient_pressure_at(random.uniform(0.0, 3000.0));
        const double co2 = random.uniform(0.0, 12.0);
        const GaugePressure pressure = pressure_for_carbonation(co2, t, ambient).value();
        EXPECT_NEAR(carbonation_under(pressure, t, ambient).value(), co2, 1e-12) << seed;
        return 1;
    });
}

}  // namespace
}  // namespace undercroft::chem
