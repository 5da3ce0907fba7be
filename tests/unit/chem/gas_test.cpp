#include "chem/gas.hpp"
#include "tests/support/celsius.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace undercroft::chem {
namespace {

using testing::celsius;

ClosedContainer bottle(double volumes, AirInHeadSpace air = AirInHeadSpace::trapped) {
    ClosedContainer container;
    container.co2_g_per_l = co2_g_per_l_of_volumes(volumes);
    container.head_space = 0.04;
    container.air = air;
    container.abv = 6.0;
    container.extract_g_per_l = 25.0;
    return container;
}

double total(const ClosedContainer& container, double t) {
    return pressure_in(container, celsius(t)).value().total.in_bar();
}

TEST(DissolvedCarbonDioxide, IsLessTheWarmerTheStrongerAndTheSweeterTheBeer) {
    for (double t = 0.0; t < 50.0; t += 0.25) {
        EXPECT_LT(co2_in_beer_by_composition(6, 30, celsius(t + 0.25)), co2_in_beer_by_composition(6, 30, celsius(t)));
        EXPECT_LT(co2_in_beer_for_safety(6, 30, celsius(t + 0.25)), co2_in_beer_for_safety(6, 30, celsius(t)));
        EXPECT_LT(co2_in_beer_by_chart(celsius(t + 0.25)), co2_in_beer_by_chart(celsius(t)));
        EXPECT_LT(co2_in_beer_by_composition(7, 30, celsius(t)), co2_in_beer_by_composition(6, 30, celsius(t)));
        EXPECT_LT(co2_in_beer_by_composition(6, 31, celsius(t)), co2_in_beer_by_composition(6, 30, celsius(t)));
    }
}

TEST(DissolvedCarbonDioxide, TakesNoStepAtFortyDegreesWhereTheModelChanges) {
    EXPECT_NEAR(co2_in_beer_by_composition(5, 40, celsius(40.0)),
                co2_in_beer_by_composition(5, 40, celsius(40.0 + 1e-9)), 1e-9);
}

TEST(DissolvedCarbonDioxide, ForSafetyIsNeverMoreThanEitherModelSays) {
    for (double t = 0.0; t <= 50.0; t += 1.0)
        for (double extract = 0.0; extract <= 120.0; extract += 20.0) {
            const double safe = co2_in_beer_for_safety(5, extract, celsius(t));
            EXPECT_LE(safe, co2_in_beer_by_chart(celsius(t)));
            EXPECT_LE(safe, co2_in_beer_by_composition(5, extract, celsius(t)));
        }
}

TEST(Volumes, OfCarbonDioxideAndGramsPerLitreAreInverses) {
    for (double v = 0.0; v < 6.0; v += 0.1) EXPECT_NEAR(co2_volumes_of_g_per_l(co2_g_per_l_of_volumes(v)), v, 1e-14);
}

TEST(KegPressure, GivesTheCarbonationItWasSetForAtAnyAltitude) {
    for (double t = 0.0; t <= 30.0; t += 1.5)
        for (double altitude = 0.0; altitude <= 2000.0; altitude += 500.0)
            for (double co2 = 2.0; co2 <= 9.0; co2 += 0.5) {
                const AbsolutePressure ambient = ambient_pressure_at(altitude);
                const GaugePressure set = pressure_for_carbonation(co2, celsius(t), ambient).value();
                EXPECT_NEAR(carbonation_under(set, celsius(t), ambient).value(), co2, 1e-12);
            }
}

TEST(KegPressure, RisesWithTemperatureWithCarbonationAndWithAltitude) {
    const auto needed = [](double co2, double t, double altitude) {
        return pressure_for_carbonation(co2, celsius(t), ambient_pressure_at(altitude)).value();
    };
    EXPECT_GT(needed(5.0, 6.0, 0.0), needed(5.0, 5.0, 0.0));
    EXPECT_GT(needed(5.1, 5.0, 0.0), needed(5.0, 5.0, 0.0));
    EXPECT_GT(needed(5.0, 5.0, 500.0), needed(5.0, 5.0, 0.0));
    EXPECT_LT(needed(1.0, 2.0, 0.0).in_bar(), 0.0) << "1 g/L is less than cold beer holds in the open";
}

TEST(KegPressure, RefusesWhatTheChartDoesNotCover) {
    EXPECT_EQ(pressure_for_carbonation(5.0, celsius(-1.0)).error().kind, ErrorKind::outside_model);
    EXPECT_EQ(pressure_for_carbonation(5.0, celsius(31.0)).error().kind, ErrorKind::outside_model);
    EXPECT_EQ(pressure_for_carbonation(-0.1, celsius(5.0)).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(pressure_for_carbonation(std::nan(""), celsius(5.0)).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(carbonation_under(GaugePressure::from_bar(-1.1), celsius(5.0)).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(
        carbonation_under(GaugePressure::from_bar(1.0), celsius(5.0), AbsolutePressure::from_bar(0.2)).error().where,
        "ambient pressure");
}

TEST(CarbonDioxideLeftOpen, IsLessTheWarmerTheBeerStoodAndTheHigherTheCellar) {
    for (double t = 0.0; t < 33.0; t += 1.0)
        EXPECT_GT(co2_left_after_fermentation(celsius(t)), co2_left_after_fermentation(celsius(t + 1.0)));
    EXPECT_EQ(co2_left_after_fermentation(celsius(34.0)), co2_left_after_fermentation(celsius(45.0)));
    EXPECT_EQ(co2_left_after_fermentation(celsius(0.0)), co2_left_after_fermentation(celsius(-2.0)));
    EXPECT_LT(co2_left_after_fermentation(celsius(18.0), ambient_pressure_at(1500.0)),
              co2_left_after_fermentation(celsius(18.0)));
}

TEST(BottlePressure, RisesWithTemperatureFromCellarToCar) {
    for (const double volumes : {0.0, 1.5, 2.5, 3.5, 4.5})
        for (const AirInHeadSpace air : {AirInHeadSpace::trapped, AirInHeadSpace::purged})
            for (double t = 4.0; t < 50.0; t += 0.25)
                EXPECT_GT(total(bottle(volumes, air), t + 0.25), total(bottle(volumes, air), t)) << volumes << " " << t;
}

TEST(BottlePressure, RisesWithCarbonDioxideStrengthExtractAndLessHeadSpace) {
    for (double t = 0.0; t <= 50.0; t += 5.0) {
        const ClosedContainer base = bottle(2.8);
        ClosedContainer gassier = base, stronger = base, sweeter = base;
        gassier.co2_g_per_l += 0.01;
        stronger.abv += 3.0;
        sweeter.extract_g_per_l += 30.0;
        EXPECT_GT(total(gassier, t), total(base, t));
        EXPECT_GE(total(stronger, t), total(base, t));
        EXPECT_GE(total(sweeter, t), total(base, t));
        if (t <= 20.0) continue;  // the beer must have grown for a small head space to matter more than its air
        for (double head_space = 0.03; head_space < 0.10; head_space += 0.005) {
            ClosedContainer fuller = base, emptier = base;
            fuller.head_space = head_space;
            emptier.head_space = head_space + 0.005;
            EXPECT_GT(total(fuller, t), total(emptier, t)) << t << " " << head_space;
        }
    }
}

TEST(BottlePressure, OfTrappedAirIsAboutOneBarMoreThanPurged) {
    const double gap = total(bottle(3.0), 20.0) - total(bottle(3.0, AirInHeadSpace::purged), 20.0);
    EXPECT_NEAR(gap, k_standard_atmosphere_bar - water_vapour_pressure(celsius(20.0)).in_bar(), 1e-12);
}

TEST(BottlePressure, IsTheSumOfItsPartsAboveTheAirAround) {
    ClosedContainer high_up = bottle(2.4);
    high_up.ambient = ambient_pressure_at(1200.0);
    const auto parts = pressure_in(high_up, celsius(28.0)).value();
    EXPECT_NEAR(parts.co2.in_bar() + parts.air.in_bar() + parts.vapour.in_bar() - high_up.ambient.in_bar(),
                parts.total.in_bar(), 1e-14);
    EXPECT_EQ(pressure_in(bottle(2.4, AirInHeadSpace::purged), celsius(28.0)).value().air.in_bar(), 0.0);
}

TEST(BottlePressure, KeepsAllTheCarbonDioxideThatWentIn) {
    const ClosedContainer container = bottle(3.0, AirInHeadSpace::purged);
    const double co2 = pressure_in(container, container.filled_at).value().co2.in_bar();
    const double in_beer = 0.96 * co2 * co2_in_beer_for_safety(6.0, 25.0, container.filled_at);
    const double in_gas = 0.04 * co2 * k_co2_g_per_mol / (0.08314462618 * 293.15);
    EXPECT_NEAR(in_beer + in_gas, 0.96 * container.co2_g_per_l, 1e-12);
}

TEST(BottlePressure, RefusesTooLittleHeadSpaceAndAsksForMoreInAWarmStore) {
    ClosedContainer full = bottle(2.5);
    full.head_space = 0.0199;
    EXPECT_EQ(pressure_in(full, celsius(20.0)).error().kind, ErrorKind::outside_model);
    full.head_space = 0.02;
    EXPECT_TRUE(pressure_in(full, celsius(35.0)).has_value());
    const auto warm = pressure_in(full, celsius(35.1));
    ASSERT_FALSE(warm.has_value());
    EXPECT_EQ(warm.error().where, "head space");
    full.head_space = 0.03;
    EXPECT_TRUE(pressure_in(full, celsius(50.0)).has_value());
}

TEST(BottlePressure, RefusesWhatCannotBeOrIsNotKnown) {
    const auto kind = [](const ClosedContainer& container, double t) {
        const auto answer = pressure_in(container, celsius(t));
        return answer.has_value() ? ErrorKind::not_found : answer.error().kind;
    };
    EXPECT_EQ(kind(bottle(2.5), -0.1), ErrorKind::outside_model);
    EXPECT_EQ(kind(bottle(2.5), 50.1), ErrorKind::outside_model);
    ClosedContainer odd = bottle(2.5);
    odd.co2_g_per_l = -1.0;
    EXPECT_EQ(kind(odd, 20.0), ErrorKind::bad_input);
    odd = bottle(2.5);
    odd.co2_g_per_l = std::nan("");
    EXPECT_EQ(kind(odd, 20.0), ErrorKind::bad_input);
    odd = bottle(2.5);
    odd.head_space = 1.0;
    EXPECT_EQ(kind(odd, 20.0), ErrorKind::bad_input);
    odd = bottle(2.5);
    odd.abv = 20.5;
    EXPECT_EQ(kind(odd, 20.0), ErrorKind::outside_model);
    odd = bottle(2.5);
    odd.extract_g_per_l = 201.0;
    EXPECT_EQ(kind(odd, 20.0), ErrorKind::outside_model);
    odd = bottle(2.5);
    odd.filled_at = celsius(60.0);
    EXPECT_EQ(kind(odd, 20.0), ErrorKind::outside_model);
    odd = bottle(2.5);
    odd.ambient = AbsolutePressure::from_bar(2.0);
    EXPECT_EQ(kind(odd, 20.0), ErrorKind::bad_input);
}

TEST(ClosedContainer, LosesAFifthOfItsAirWhenYeastHasEatenTheOxygen) {
    const auto with = pressure_in(bottle(2.5), celsius(20.0)).value();
    const auto without = pressure_in(bottle(2.5, AirInHeadSpace::without_oxygen), celsius(20.0)).value();
    EXPECT_NEAR(without.air.in_bar(), 0.7905 * with.air.in_bar(), 1e-12);
    EXPECT_EQ(without.co2.in_bar(), with.co2.in_bar());
    EXPECT_GT(without.total, pressure_in(bottle(2.5, AirInHeadSpace::purged), celsius(20.0)).value().total);
}

TEST(DissolvedCarbonDioxide, OfABeerNobodyMeasuredIsTheLargerOfTheTwoRules) {
    const double cold = co2_left_after_fermentation(celsius(8.0));
    const double warm = co2_left_after_fermentation(celsius(20.0));
    EXPECT_GT(cold, warm);
    EXPECT_EQ(co2_left_for_safety(celsius(20.0), celsius(8.0)), cold);
    EXPECT_EQ(co2_left_for_safety(celsius(8.0), celsius(20.0)), cold);
}

TEST(DissolvedCarbonDioxide, OfMalolacticBacteriaIsASixthOfAVolumeForAGram) {
    EXPECT_NEAR(co2_volumes_of_g_per_l(co2_of_malolactic(1.0)), 0.166, 0.001);
}

}  // namespace
}  // namespace undercroft::chem
