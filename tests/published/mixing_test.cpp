// Contraction, dilution and the limits of attenuation against published values.
#include "chem/mixing.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "chem/extract.hpp"

namespace undercroft::chem {
namespace {

TEST(PublishedMixing, HalfALitreOfEthanolAndHalfALitreOfWaterAreLessThanALitre) {
    // The textbook's 50 mL + 50 mL: 96 to 97 mL (common in textbooks of physical chemistry, from memory).
    const MixedSpirit mix = mixed_spirit(std::array{PouredSpirit{100.0, 0.5}, PouredSpirit{0.0, 0.5}}).value();
    EXPECT_NEAR(mix.litres, 0.9635, 0.002);
    EXPECT_NEAR(mix.shrinks, 0.0365, 0.002);
    EXPECT_NEAR(mix.abv, 50.0 / mix.litres, 0.01);  // all the ethanol is still there
}

TEST(PublishedMixing, BringingSpiritOfNinetySixToForty) {
    // Tables of distillers (from memory): to bring 100 L of 96 % vol to 40 % vol takes 147 to 148 L of water, not 140.
    double low = 100.0;
    double high = 200.0;
    for (int i = 0; i < 60; ++i) {
        const double water = 0.5 * (low + high);
        const auto mix = mixed_spirit(std::array{PouredSpirit{96.0, 100.0}, PouredSpirit{0.0, water}}).value();
        (mix.abv > 40.0 ? low : high) = water;
    }
    EXPECT_NEAR(low, 147.0, 1.5);
}

TEST(PublishedMixing, BeersShrinkByLessThanADipStickShows) {
    const Composition strong = composition_of(1.080, 1.010);
    const Composition weak = composition_of(1.040, 1.008);
    const Mixed mix = mixed(std::array{Poured{strong, 20.0}, Poured{weak, 30.0}, Poured{{}, 5.0}}).value();
    EXPECT_LT(std::abs(mix.shrinks), 0.001);
    // Ethanol and extract are all there.
    EXPECT_NEAR(mix.composition.ethanol_g_per_l * mix.litres, strong.ethanol_g_per_l * 20 + weak.ethanol_g_per_l * 30,
                1e-8);
    EXPECT_NEAR(mix.composition.real_extract_g_per_l * mix.litres,
                strong.real_extract_g_per_l * 20 + weak.real_extract_g_per_l * 30, 1e-8);
}

TEST(PublishedMixing, WaterOfFruitThinsInProportion) {
    // 20 L of 6 % vol and 5 L of water of fruit: 4.8 % vol.
    const Composition beer = composition_from_gravity_and_abv(1.006, 6.0);
    const Mixed mix = mixed(std::array{Poured{beer, 20.0}, Poured{{}, 5.0}}).value();
    EXPECT_NEAR(abv_of(mix.composition), 4.8, 0.005);
}

TEST(PublishedMixing, AttenuationOfTheWorkedPairs) {
    // Original 12 °P, apparent degree 79.17 %: apparent extract 2.5, 3.97 % mass (worked out apart from this program).
    const Attenuation beer = at_attenuation(gravity_of_plato(12.0), 79.1667).value();
    EXPECT_NEAR(beer.apparent_extract, 2.5, 0.001);
    EXPECT_NEAR(beer.alcohol_by_mass, 3.969, 0.001);
}

TEST(PublishedMixing, NothingFermentsPastTheLastGramOfExtract) {
    for (const double og : {1.020, 1.050, 1.100}) {
        const Attenuation dry = at_the_limit(og).value();
        EXPECT_NEAR(dry.real_extract, 0.0, 1e-4) << og;
        EXPECT_GT(dry.apparent_degree, 118.0);  // of wort of usual strength the limit is near 122 % apparent
        EXPECT_LT(dry.apparent_degree, 126.0);
        EXPECT_FALSE(at_attenuation(og, dry.apparent_degree + 0.5));
    }
    EXPECT_FALSE(at_the_limit(1.0));
}

}  // namespace
}  // namespace undercroft::chem
