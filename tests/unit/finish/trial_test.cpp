// A measured glass scaled to the batch, and the next glass.
#include "engine/finish/trial.hpp"

#include <gtest/gtest.h>

namespace undercroft::engine::finish {
namespace {

TEST(ABenchTrial, ScalesByTheRatioOfVolumesAndCarriesThePipette) {
    // 0.4 mL of a tincture with 50 g/L of spice in 100 mL: 0.2 g/L, 4 g and 80 mL in 20 L.
    const Batch it = batch_of({100.0, 0.4, 0.02, 50.0, 40.0, 0.0}, 20.0).value();
    EXPECT_NEAR(it.g_per_l.mean, 0.2, 1e-12);
    EXPECT_NEAR(it.grams.mean, 4.0, 1e-12);
    EXPECT_NEAR(it.ml.mean, 80.0, 1e-9);
    EXPECT_NEAR(it.relative_sd, 0.05, 1e-12);
    EXPECT_NEAR(it.grams.sd, 0.2, 1e-12);
    EXPECT_NEAR(it.alcohol_change, 40.0 * 0.4 / 100.4, 1e-12);
}

TEST(ABenchTrial, OfAGlassTwiceAsLargeWithTwiceAsMuchIsTheSameDose) {
    const Batch small = batch_of({50.0, 0.5, 0.02, 20.0, 0.0, 1.0}, 10.0).value();
    const Batch large = batch_of({100.0, 1.0, 0.02, 20.0, 0.0, 1.0}, 10.0).value();
    EXPECT_NEAR(small.grams.mean, large.grams.mean, 1e-12);
    EXPECT_GT(small.relative_sd, large.relative_sd) << "a small glass is measured less well";
}

TEST(ABenchTrial, RefusesWhatIsNoTrial) {
    EXPECT_FALSE(batch_of({0.0, 0.4, 0.02, 50.0, 0.0, 1.0}, 20.0));
    EXPECT_FALSE(batch_of({100.0, 40.0, 0.02, 50.0, 0.0, 1.0}, 20.0));
    EXPECT_FALSE(batch_of({100.0, 0.4, 0.02, 0.0, 0.0, 1.0}, 20.0));
    EXPECT_FALSE(batch_of({100.0, 0.4, 0.02, 50.0, 0.0, 1.0}, 0.0));
}

TEST(TheNextGlass, DoublesWhatIsLikedAndHalvesWhatIsNot) {
    EXPECT_NEAR(next_dose({{0.2, 7.0}})->g_per_l, 0.4, 1e-12);
    EXPECT_NEAR(next_dose({{0.2, 3.0}})->g_per_l, 0.1, 1e-12);
}

TEST(TheNextGlass, IsTheTopOfTheParabolaThroughThree) {
    // 8 - 100 (x - 0.3)^2 at 0.1, 0.2 and 0.4.
    const auto next = next_dose({{0.1, 4.0}, {0.2, 7.0}, {0.4, 7.0}});
    ASSERT_TRUE(next);
    EXPECT_NEAR(next->g_per_l, 0.3, 1e-9);
    EXPECT_FALSE(next->enough);
    const auto done = next_dose({{0.1, 4.0}, {0.2, 7.0}, {0.4, 7.0}, {0.3, 8.0}});
    EXPECT_TRUE(done->enough) << done->why;
}

TEST(TheNextGlass, GoesBeyondTheBetterEndWhereThereIsNoTopYet) {
    EXPECT_GT(next_dose({{0.1, 3.0}, {0.2, 6.0}})->g_per_l, 0.2);
    EXPECT_LT(next_dose({{0.1, 6.0}, {0.2, 3.0}})->g_per_l, 0.1);
    EXPECT_GT(next_dose({{0.1, 3.0}, {0.2, 4.0}, {0.4, 8.0}})->g_per_l, 0.4);
    EXPECT_FALSE(next_dose({}));
    EXPECT_FALSE(next_dose({{0.1, 11.0}}));
}

}  // namespace
}  // namespace undercroft::engine::finish
