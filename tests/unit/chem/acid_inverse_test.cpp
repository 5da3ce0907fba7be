#include "chem/acid_inverse.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace undercroft::chem {
namespace {

constexpr double k_lactic = 90.078;

AcidReadings read(double ph, double ta_as_lactic) {
    AcidReadings readings;
    readings.ph = {ph, k_ph_reading_sd};
    readings.ta = {ta_as_lactic / k_lactic, k_ta_reading_sd};
    return readings;
}

TEST(AcidInverse, OfAnEverydaySourBeerFindsAnEverydayBeer) {
    const AcidSystem system;
    const InferredAcids found = infer_acids(system, read(3.4, 6.0), usual_prior(6.0)).value();
    EXPECT_EQ(found.fit, InferredAcids::Fit::likely);
    EXPECT_NEAR(found.ph, 3.4, 0.03);
    EXPECT_NEAR(found.ta * k_lactic, 6.0, 0.1);
    EXPECT_GT(found.mix.g_per_l(Acid::lactic), 3.0);
    EXPECT_LT(found.mix.g_per_l(Acid::lactic), 6.0);
    // Two readings leave half a gram open between lactic acid, acetic acid and buffer.
    EXPECT_GT(found.unknown[InferredAcids::lactic].sd * k_lactic, 0.3);
    EXPECT_LT(found.unknown[InferredAcids::lactic].sd * k_lactic, 1.5);
}

TEST(AcidInverse, AMeasuredAceticAcidNarrowsTheLactic) {
    const AcidSystem system;
    AcidReadings readings = read(3.4, 6.0);
    const double open = infer_acids(system, readings, usual_prior(6.0)).value().unknown[InferredAcids::lactic].sd;
    readings.acetic = {0.6 / 60.052, 0.03 / 60.052};
    const InferredAcids found = infer_acids(system, readings, usual_prior(6.0)).value();
    EXPECT_LT(found.unknown[InferredAcids::lactic].sd, open);
    EXPECT_NEAR(found.mix.g_per_l(Acid::acetic), 0.6, 0.05);
}

TEST(AcidInverse, CovarianceIsThatOfManyDrawnReadings) {
    // Sharp readings, so that the linear spread is the whole of it; acetic acid and buffer as good as known.
    const AcidSystem system;
    AcidPrior prior = usual_prior(6.0);
    prior.buffer_sd = 1e-4;
    prior.acetic.sd = 1e-6;
    AcidReadings readings = read(3.5, 5.0);
    readings.ph->sd = 0.01;
    readings.ta->sd = 0.02 / k_lactic;
    const InferredAcids middle = infer_acids(system, readings, prior).value();
    // Move each reading by its spread, and add what that moves in quadrature.
    double variance = 0.0;
    for (const bool of_ph : {true, false}) {
        AcidReadings moved = readings;
        (of_ph ? moved.ph : moved.ta)->value += (of_ph ? moved.ph : moved.ta)->sd;
        const double by = infer_acids(system, moved, prior).value().mix[Acid::lactic] - middle.mix[Acid::lactic];
        variance += by * by;
    }
    const double sd = middle.unknown[InferredAcids::lactic].sd;
    EXPECT_NEAR(std::sqrt(variance), sd, 0.02 * sd);  // the prior and the curvature take a per cent
}

TEST(AcidInverse, ReadingsNoMixGivesAreAnsweredWithTheNearestPairThatOneDoes) {
    // Free H+ of pH 2.6 alone is 2.7 mmol/L, 0.25 g/L as lactic acid, and beer's buffer adds more.
    const AcidSystem system;
    const InferredAcids found = infer_acids(system, read(2.6, 0.1), usual_prior(5.0)).value();
    EXPECT_EQ(found.fit, InferredAcids::Fit::impossible);
    EXPECT_GT(found.ph, 2.6);
    EXPECT_GT(found.ta * k_lactic, 0.1);
    EXPECT_NEAR(found.ph_off, 2.6 - found.ph, 1e-12);
    EXPECT_NEAR(found.ta_off, 0.1 / k_lactic - found.ta, 1e-12);
    // It is a pair some mix gives, and that mix is the answer.
    EXPECT_NEAR(system.ph(found.mix).value(), found.ph, 1e-9);
    EXPECT_NEAR(system.titratable(found.mix).value(), found.ta, 1e-12);
    // No pair on a grid of mixes lies nearer, in spreads of the readings.
    const auto distance = [&](double ph, double ta) {
        return std::hypot((ph - 2.6) / k_ph_reading_sd, (ta - 0.1 / k_lactic) / k_ta_reading_sd);
    };
    const double nearest = distance(found.ph, found.ta);
    for (double lactic = 0.0; lactic < 0.01; lactic += 0.001)
        for (double buffer = 0.2; buffer < 0.4; buffer += 0.02)
            for (double strong = -0.02; strong < 0.01; strong += 0.001) {
                AcidMix mix = found.mix;
                mix[Acid::lactic] = lactic;
                mix[Acid::acetic] = 0.0;
                mix.buffer = {k_wort_buffer.low * buffer, k_wort_buffer.high * buffer};
                mix.strong_ions = strong;
                EXPECT_GT(distance(system.ph(mix).value(), system.titratable(mix).value()), nearest - 1e-3);
            }
}

TEST(AcidInverse, ReadingsFarFromAnyBeerButPossibleAreCalledUnusual) {
    // Much acid held up by much potassium.
    const AcidSystem system;
    const InferredAcids found = infer_acids(system, read(4.6, 14.0), usual_prior(5.0)).value();
    EXPECT_EQ(found.fit, InferredAcids::Fit::unusual);
    EXPECT_NEAR(found.ph, 4.6, 0.05);
    EXPECT_NEAR(found.ta * k_lactic, 14.0, 0.2);
}

TEST(AcidInverse, WantsAReading) {
    const AcidSystem system;
    EXPECT_EQ(infer_acids(system, {}, usual_prior(5.0)).error().kind, ErrorKind::bad_input);
    AcidReadings readings = read(3.4, 6.0);
    readings.ph->sd = 0.0;
    EXPECT_EQ(infer_acids(system, readings, usual_prior(5.0)).error().kind, ErrorKind::bad_input);
    readings.ph = {15.0, 0.05};
    EXPECT_EQ(infer_acids(system, readings, usual_prior(5.0)).error().kind, ErrorKind::bad_input);
}

TEST(AcidInverse, TaAloneIsEnoughToBegin) {
    const AcidSystem system;
    AcidReadings readings = read(3.4, 6.0);
    readings.ph.reset();
    const InferredAcids found = infer_acids(system, readings, usual_prior(5.0)).value();
    EXPECT_NEAR(found.ta * k_lactic, 6.0, 0.2);
    EXPECT_EQ(found.ph_off, 0.0);
}

}  // namespace
}  // namespace undercroft::chem
