// The gas check, end to end, against published pressures and what the trade reckons with.
#include "engine/package/gas_check.hpp"
#include "tests/support/celsius.hpp"
#include "tests/support/reference_tables.hpp"

#include <gtest/gtest.h>

namespace undercroft::engine::package {
namespace {

using testing::celsius;

using testing::reference_tables;

// A dead beer of 5 % vol and 40 g/L extract with all its gas measured: only the pressure is left to work out.
GasQuestion still_beer(double volumes) {
    GasQuestion question;
    question.gravity = Gravity{1.0120, 0.0};
    question.abv = 5.0;
    question.extract_g_per_l = 40.0;
    question.cultures = {reference_tables().find_culture("none_killed").value()};
    question.measured_co2_g_per_l = chem::co2_g_per_l_of_volumes(volumes);
    question.head_space = 0.04;
    return question;
}

double total_at(const GasQuestion& question, double t) {
    GasQuestion warm = question;
    warm.store = celsius(t);
    return gas_check(warm, reference_tables()).value().total.value().in_bar();
}

TEST(PublishedGasCheck, ThreeVolumesInABottleComeToTheWorkedTotals) {
    // Worked out apart from this program on the safety basis: 4 % head space filled at 20 °C, air trapped. Two
    // decimals.
    const GasQuestion bottle = still_beer(3.0);
    EXPECT_NEAR(total_at(bottle, 20.0), 3.75, 0.0051);
    EXPECT_NEAR(total_at(bottle, 30.0), 4.98, 0.0051);
    EXPECT_NEAR(total_at(bottle, 35.0), 5.65, 0.0051);
    EXPECT_NEAR(total_at(bottle, 50.0), 8.23, 0.0051);
    GasQuestion purged = bottle;
    purged.air = chem::AirInHeadSpace::purged;
    EXPECT_NEAR(total_at(purged, 20.0), 2.76, 0.0051);
    EXPECT_NEAR(total_at(purged, 30.0), 3.89, 0.0051);
    EXPECT_NEAR(total_at(purged, 35.0), 4.49, 0.0051);
}

TEST(PublishedGasCheck, TheCurveOverTemperatureIsTheTableOfBottlePressures) {
    // Rows of the same independent table, air trapped, bar gauge; two decimals. At 12 and 50 °C beside the steps of 5.
    struct Row {
        double volumes, at_0, at_5, at_20, at_25, at_30, at_40, at_50;
    };
    constexpr Row rows[] = {{2.0, 1.17, 1.45, 2.50, 2.91, 3.36, 4.33, 5.67},
                            {2.5, 1.49, 1.84, 3.12, 3.63, 4.17, 5.34, 6.95},
                            {3.5, 2.13, 2.61, 4.37, 5.06, 5.79, 7.36, 9.51},
                            {4.5, 2.78, 3.39, 5.62, 6.49, 7.40, 9.38, 12.06}};
    for (const Row& row : rows) {
        const GasCheck check = gas_check(still_beer(row.volumes), reference_tables()).value();
        const auto on_curve = [&](double t) {
            for (const auto& [temperature, pressure] : check.by_temperature) {
                if (temperature == celsius(t)) return pressure.in_bar();
            }
            ADD_FAILURE() << t;
            return 0.0;
        };
        EXPECT_NEAR(on_curve(0), row.at_0, 0.0051);
        EXPECT_NEAR(on_curve(5), row.at_5, 0.0051);
        EXPECT_NEAR(on_curve(20), row.at_20, 0.0051);
        EXPECT_NEAR(on_curve(25), row.at_25, 0.0051);
        EXPECT_NEAR(on_curve(30), row.at_30, 0.0051);
        EXPECT_NEAR(on_curve(40), row.at_40, 0.0051);
        EXPECT_NEAR(on_curve(50), row.at_50, 0.0051);
    }
}

TEST(PublishedGasCheck, EveryContainersPlannedTotalsComeOutOfTheWholeCheck) {
    // data/containers.csv: total pressure of its planning ceiling at 20, 30 and 40 °C, with its own head space (3 % at
    // least) and air or purge; derived apart from this program. Two decimals.
    int compared = 0;
    for (const tables::ContainerKind& kind : reference_tables().containers) {
        if (!kind.total_bar_at_plan_max_20_c) continue;
        GasQuestion question = still_beer(kind.plan_max_volumes);
        question.head_space.reset();
        question.container = &kind;
        EXPECT_NEAR(total_at(question, 20.0), *kind.total_bar_at_plan_max_20_c, 0.011) << kind.id;
        EXPECT_NEAR(total_at(question, 30.0), *kind.total_bar_at_plan_max_30_c, 0.011) << kind.id;
        EXPECT_NEAR(total_at(question, 40.0), *kind.total_bar_at_plan_max_40_c, 0.011) << kind.id;
        ++compared;
    }
    EXPECT_GE(compared, 15);
}

TEST(PublishedGasCheck, AMakersFigureToAskForIsTheTotalOverEightTenths) {
    const tables::ContainerKind* bottle = reference_tables().find_container("bottle_sparkling_750").value();
    GasQuestion question = still_beer(bottle->plan_max_volumes);
    question.head_space.reset();
    question.container = bottle;
    question.store = celsius(30.0);
    const GasCheck check = gas_check(question, reference_tables()).value();
    EXPECT_NEAR(check.total.value().in_bar() / 0.8, bottle->limit_needed_bar_if_30_c.value(), 0.05);  // one decimal
    // What is asked for covers 95 in 100 bottles: the measured CO2 is off by 4 % either way.
    EXPECT_GT(check.limit_needed.value().in_bar(), check.total.value().in_bar() / 0.8);
    EXPECT_LT(check.limit_needed.value().in_bar(), check.total.value().in_bar() / 0.8 * 1.12);
    EXPECT_EQ(check.verdict, Verdict::wait);
}

// --- common practice, no source ----------------------------------------------------------------

double volumes_of(const GasCheck& check, const char* name) {
    for (const Term& term : check.gas) {
        if (term.name == name) return term.value;
    }
    ADD_FAILURE() << name;
    return 0.0;
}

TEST(CommonPracticeInPackaging, FourGramsOfSugarALitreMakeAboutOneVolume) {
    // common practice, no source
    GasQuestion question = still_beer(0.9);
    question.priming_g_per_l = 4.0;
    EXPECT_NEAR(volumes_of(gas_check(question, reference_tables()).value(), "priming sugar"), 1.0, 0.1);
}

TEST(CommonPracticeInPackaging, AThousandthOfGravityMakesAboutHalfAVolume) {
    // common practice, no source: "half a volume"; for safety a little more is counted, never less.
    GasQuestion question = still_beer(0.9);
    question.cultures = {reference_tables().find_culture("mixed_sour").value()};
    question.original_gravity = 1.050;
    question.gravity = Gravity{1.0010, 0.0};
    const double lower = volumes_of(gas_check(question, reference_tables()).value(), "fermentables left");
    question.gravity = Gravity{1.0020, 0.0};
    const double step = volumes_of(gas_check(question, reference_tables()).value(), "fermentables left") - lower;
    // Trade pages say 0.57 for safety where dextrins ferment without growth; no less may be counted.
    EXPECT_GE(step, 0.57 - 1e-9);
    EXPECT_NEAR(step, 0.5, 0.1);
}

TEST(CommonPracticeInPackaging, AFinishedBeerAtTwentyDegreesHoldsSomeNineTenthsOfAVolume) {
    // common practice, no source; 0.86 by the fit for 68 °F, 0.84 by the SI chart.
    GasQuestion question = still_beer(0.0);
    question.measured_co2_g_per_l.reset();
    EXPECT_NEAR(volumes_of(gas_check(question, reference_tables()).value(), "dissolved already"), 0.86, 0.01);
    // A beer that worked at 8 °C keeps 1.29 volumes: the larger counts.
    question.coolest_while_working = celsius(8.0);
    EXPECT_NEAR(volumes_of(gas_check(question, reference_tables()).value(), "dissolved already"), 1.29, 0.01);
}

}  // namespace
}  // namespace undercroft::engine::package
