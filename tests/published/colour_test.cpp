// Colour scales and malt colour against published values.
#include "chem/colour.hpp"

#include <gtest/gtest.h>

#include <array>

namespace undercroft::chem {
namespace {

TEST(PublishedColour, ScalesOfEbcAndAsbcStandInTheRatioOfTheirFactors) {
    // EBC = 25 A430, SRM = 12.7 A430 (EBC Analytica 8.5, ASBC Beer-10): 1.9685, as printed.
    EXPECT_NEAR(k_ebc_per_srm, 1.9685, 5e-5);
    EXPECT_NEAR(ebc_of_srm(10.0), 19.7, 0.05);
    EXPECT_NEAR(srm_of_ebc(ebc_of_srm(7.3)), 7.3, 1e-12);
}

TEST(PublishedColour, OfMaltFollowsThePrintedPowerLaw) {
    // A letter in a trade journal of the 1990s (secondary reproduction): lb x degrees Lovibond in a US gallon, SRM,
    // EBC; printed to 0.01 and 0.1.
    struct Row {
        double units, srm, ebc;
    };
    constexpr Row rows[] = {{5, 4.50, 8.9}, {10, 7.24, 14.3}, {20, 11.65, 22.9}, {30, 15.38, 30.3}, {50, 21.83, 43.0}};
    for (const Row& row : rows) {
        EXPECT_NEAR(srm_of_malt_colour_units(row.units), row.srm, 0.006);
        EXPECT_NEAR(ebc_of_srm(srm_of_malt_colour_units(row.units)), row.ebc, 0.06);
    }
}

TEST(PublishedColour, TenPoundsOfMaltInFiveGallons) {
    // 10 lb of 3 degrees Lovibond in 5 US gal are 6 units; in kilograms, EBC and litres the same.
    const std::array malt{MaltPart{10.0 * 0.45359237, 2.65 * 3.0 - 1.2}};
    EXPECT_NEAR(srm_of_malt(malt, 5.0 * 3.785411784).value(), srm_of_malt_colour_units(6.0), 1e-9);
}

TEST(PublishedColour, TheAverageSpectrumIsOneAtTheWavelengthItIsReadAt) {
    // J. ASBC 2008 (from memory): at 430 nm the shape is 1, and at 700 nm a clear beer is below 0.039 of it.
    EXPECT_NEAR(absorbance_at(430.0, 12.7), 1.0, 1e-12);
    EXPECT_LT(absorbance_at(700.0, 12.7), 0.039);
    EXPECT_GT(absorbance_at(700.0, 12.7), 0.030);
    EXPECT_TRUE(clear_enough(1.0, 0.038));
    EXPECT_FALSE(clear_enough(1.0, 0.040));
}

}  // namespace
}  // namespace undercroft::chem
