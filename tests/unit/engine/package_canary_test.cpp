// The canary bottle: what its readings do to the gas check of the whole run.
#include "engine/package/canary.hpp"

#include <gtest/gtest.h>

#include <string>

#include "engine/package/gas_check.hpp"
#include "tests/support/celsius.hpp"
#include "tests/support/reference_tables.hpp"

namespace undercroft::engine::package {
namespace {

using testing::celsius;
using testing::reference_tables;

// Sour beer with 1.5 points that a mixed culture may take some day, primed.
GasQuestion sour_run() {
    GasQuestion question;
    question.gravity = Gravity{1.0080, 0.0005};
    question.original_gravity = 1.050;
    question.cultures = {reference_tables().find_culture("mixed_sour").value()};
    question.container = reference_tables().find_container("bottle_330_heavy").value();
    question.makers_limit = GaugePressure::from_bar(8.0);
    question.head_space = 0.05;
    question.priming_g_per_l = 4.0;
    return question;
}

CanaryReading gauge(double days, double bar) {
    return {days, k_canary_kept, GaugePressure::from_bar(bar), {}};
}
CanaryReading squeeze(double days, int grade) {
    return {days, k_canary_kept, {}, grade};
}

GasSpread with(const std::vector<CanaryReading>& readings) {
    GasQuestion question = sour_run();
    question.canary = readings;
    return gas_spread(question, reference_tables()).value();
}

double middle_at_30(const GasSpread& spread) {
    for (const PressureBand& band : spread.pressure)
        if (band.at.in_celsius() == 30.0) return band.bar.mid;
    return 0.0;
}
// Gauge of a run's middle bottle at 30 °C when all has come, and with its priming alone.
double all_of_it() {
    return middle_at_30(with({}));
}
double priming_alone() {
    GasQuestion question = sour_run();
    question.cultures = {reference_tables().find_culture("none_killed").value()};
    return middle_at_30(gas_spread(question, reference_tables()).value());
}

TEST(Canary, ThatShowsLittleAfterALongTimeBringsTheBandDown) {
    const GasSpread before = with({});
    const GasSpread after = with({gauge(90, priming_alone()), gauge(365, priming_alone())});
    EXPECT_EQ(after.canary, CanaryVerdict::narrows);
    EXPECT_LT(after.volumes.high, before.volumes.high - 0.3);
    EXPECT_LT(after.at_store->bar.high, before.at_store->bar.high);
}

TEST(Canary, ThatShowsMuchBringsTheBandUp) {
    const GasSpread before = with({});
    const GasSpread after = with({gauge(365, 1.3 * all_of_it())});
    EXPECT_EQ(after.canary, CanaryVerdict::narrows);
    EXPECT_GT(after.volumes.mid, before.volumes.mid + 0.3);
}

TEST(Canary, EarlyQuietProvesLittleSinceSlowOrganismsWakeLate) {
    const GasSpread before = with({});
    const GasSpread after = with({gauge(14, priming_alone())});
    EXPECT_GT(after.volumes.high, before.volumes.high - 0.25);
}

TEST(Canary, OneThatShowsMoreThanAnythingExplainsForbidsTheRun) {
    GasQuestion question = sour_run();
    question.canary = {gauge(20, 19.0)};
    const GasCheck check = gas_check(question, reference_tables()).value();
    EXPECT_EQ(check.canary, CanaryVerdict::shows_more);
    EXPECT_EQ(check.verdict, Verdict::do_not);
}

TEST(Canary, OneThatShowsNothingLeaksAndChangesNothing) {
    const GasSpread before = with({});
    const GasSpread after = with({gauge(90, 0.0)});
    EXPECT_EQ(after.canary, CanaryVerdict::leaks);
    EXPECT_EQ(after.volumes.high, before.volumes.high);
}

TEST(Canary, SqueezesOrderAsGaugesDo) {
    double least = 0.0;
    for (const int grade : {3, 4, 5}) {
        const GasSpread told = with({squeeze(365, grade)});
        if (told.canary != CanaryVerdict::narrows) continue;
        EXPECT_GE(told.volumes.mid, least) << grade;
        least = told.volumes.mid;
    }
    EXPECT_GT(least, 0.0);
}

TEST(Canary, RunsTwiceAsFastForTenDegreesAndIsLookedAtThreeTimes) {
    EXPECT_DOUBLE_EQ(canary_speed(celsius(30.0), celsius(20.0)), 2.0);
    const std::vector<int> days = with({}).canary_days;
    ASSERT_EQ(days.size(), 3U);
    EXPECT_LT(days[0], days[1]);
    EXPECT_LT(days[1], days[2]);
}

TEST(Canary, RefusesWhatCannotBe) {
    for (const CanaryReading& wrong : {gauge(0, 1.0), gauge(14, 25.0), squeeze(14, 6), squeeze(14, -1),
                                       CanaryReading{14, celsius(12.0), GaugePressure::from_bar(1.0), {}},
                                       CanaryReading{14, k_canary_kept, {}, {}}}) {
        GasQuestion question = sour_run();
        question.canary = {wrong};
        const auto check = gas_check(question, reference_tables());
        ASSERT_FALSE(check);
        EXPECT_EQ(check.error().where, "canary");
    }
}

}  // namespace
}  // namespace undercroft::engine::package
