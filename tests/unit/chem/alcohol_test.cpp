#include "chem/alcohol.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "chem/extract.hpp"

namespace undercroft::chem {
namespace {

TEST(EthanolWater, PercentByVolumeAndByMassAreInverses) {
    for (double v = 0.0; v <= 100.0; v += 0.25)
        EXPECT_NEAR(percent_volume_of_percent_mass(percent_mass_of_percent_volume(v)), v, 1e-11);
    EXPECT_EQ(percent_mass_of_percent_volume(0.0), 0.0);
    EXPECT_NEAR(percent_mass_of_percent_volume(100.0), 100.0, 1e-12);
}

TEST(EthanolWater, GetsLighterWithStrengthAndWithWarmth) {
    for (double t = 5.0; t <= 40.0; t += 5.0)
        for (double p = 0.0; p < 0.995; p += 0.01) {
            const Temperature here = Temperature::from_celsius(t);
            EXPECT_LT(ethanol_water_density(p + 0.01, here), ethanol_water_density(p, here));
            EXPECT_LT(ethanol_water_density(p + 0.01, here),
                      ethanol_water_density(p + 0.01, Temperature::from_celsius(t - 1.0)));
        }
}

TEST(EthanolWater, WithoutEthanolIsWater) {
    for (double t = 0.0; t <= 40.0; t += 1.0)
        // Two formulas for water, 1975 and ITS-90, differ by this much.
        EXPECT_NEAR(ethanol_water_density(0.0, Temperature::from_celsius(t)),
                    water_density(Temperature::from_celsius(t)), 0.02);
    EXPECT_NEAR(ethanol_water_density(1.0, Temperature::from_celsius(20.0)), k_ethanol_density_at_20, 0.001);
}

TEST(RealExtract, AndApparentExtractAreInversesAtAnyStrength) {
    for (double a = 0.0; a <= 12.0; a += 0.1)
        for (double re = 0.0; re <= 20.0; re += 0.5)
            EXPECT_NEAR(real_extract_of(apparent_extract_of(re, a), a), re, 1e-12);
}

TEST(RealExtract, OfUnfermentedWortIsItsExtract) {
    for (double p = 0.0; p <= 25.0; p += 0.5) {
        EXPECT_EQ(real_extract_of(p, 0.0), p);
        EXPECT_EQ(original_extract_of(0.0, p), p);
    }
}

TEST(Attenuation, OfWortThatHasNotMovedIsNothing) {
    const auto wort = attenuation_of(1.048, 1.048).value();
    EXPECT_EQ(wort.alcohol_by_mass, 0.0);
    EXPECT_EQ(wort.alcohol_by_volume, 0.0);
    EXPECT_EQ(wort.real_extract, wort.original_extract);
    EXPECT_EQ(wort.real_degree, 0.0);
    EXPECT_EQ(wort.apparent_degree, 0.0);
}

TEST(Attenuation, ClosesBallingsMassBalance) {
    for (double og = 1.020; og <= 1.110; og += 0.010)
        for (double g = 0.998; g < og; g += 0.003) {
            const auto beer = attenuation_of(og, g).value();
            EXPECT_NEAR(original_extract_of(beer.alcohol_by_mass, beer.real_extract), beer.original_extract, 1e-12);
            EXPECT_NEAR(apparent_extract_of(beer.real_extract, beer.alcohol_by_mass), beer.apparent_extract, 1e-12);
            EXPECT_GT(beer.apparent_degree, beer.real_degree);
        }
}

TEST(Attenuation, MakesMoreAlcoholTheLowerTheGravity) {
    for (double og = 1.030; og <= 1.110; og += 0.010) {
        double last = -1.0;
        for (double g = og; g > 0.999; g -= 0.0005) {
            const double alcohol = attenuation_of(og, g).value().alcohol_by_mass;
            EXPECT_GT(alcohol, last);
            last = alcohol;
        }
    }
}

TEST(Attenuation, OfABeerLighterThanWaterPassesAHundredPercentApparentNeverReal) {
    const auto dry = attenuation_of(1.050, 0.998).value();
    EXPECT_GT(dry.apparent_degree, 100.0);
    EXPECT_LT(dry.real_degree, 90.0);
    EXPECT_LT(dry.apparent_extract, 0.0);
    EXPECT_GT(dry.real_extract, 0.0);
}

TEST(Attenuation, RefusesAGravityAboveTheOriginal) {
    EXPECT_EQ(attenuation_of(1.040, 1.041).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(attenuation_of(1.000, 0.999).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(attenuation_of(std::nan(""), 1.010).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(attenuation_of(1.040, std::nan("")).error().kind, ErrorKind::bad_input);
}

TEST(Attenuation, RefusesAGravityThatNoFermentationReachesAndSaysTheLowest) {
    const auto impossible = attenuation_of(1.040, 0.985);
    ASSERT_FALSE(impossible.has_value());
    EXPECT_EQ(impossible.error().kind, ErrorKind::outside_model);
    EXPECT_NE(impossible.error().what.find("0.991"), std::string::npos) << impossible.error().what;
}

TEST(Composition, OfWaterIsNothingAndReadsOne) {
    EXPECT_NEAR(gravity_of(Composition{}), 1.0, 1e-15);
    EXPECT_EQ(abv_of(Composition{}), 0.0);
    EXPECT_EQ(composition_of(1.0, 1.0), Composition{});
    EXPECT_EQ(composition_of(0.999, 0.990), Composition{});
}

TEST(Composition, ReadsTheGravityItCameFrom) {
    for (double og = 1.020; og <= 1.110; og += 0.005)
        for (double g = 0.999; g <= og; g += 0.001) EXPECT_NEAR(gravity_of(composition_of(og, g)), g, 1e-14);
}

TEST(Composition, AgreesWithTheAttenuationOfTheSameBeer) {
    const auto beer = attenuation_of(1.057, 1.009).value();
    const Composition litre = composition_of(1.057, 1.009);
    EXPECT_NEAR(abv_of(litre), beer.alcohol_by_volume, 1e-12);
    EXPECT_NEAR(litre.real_extract_g_per_l / litre.ethanol_g_per_l, beer.real_extract / beer.alcohol_by_mass, 1e-12);
    EXPECT_NEAR(original_extract_of(litre), beer.original_extract, 1e-11);
}

TEST(Composition, OfAGravityAboveTheOriginalIsTheUnfermentedWort) {
    EXPECT_EQ(composition_of(1.040, 1.050), composition_of(1.040, 1.040));
    EXPECT_EQ(composition_of(1.040, 1.040).ethanol_g_per_l, 0.0);
}

TEST(Composition, OfAGravityOutOfReachHasNoExtractLeft) {
    const Composition all_gone = composition_of(1.040, 0.980);
    EXPECT_EQ(all_gone.real_extract_g_per_l, 0.0);
    EXPECT_GT(gravity_of(all_gone), 0.980);
    EXPECT_NEAR(original_extract_of(all_gone), plato_of_gravity(1.040), 1e-11);
}

TEST(Composition, OfKnownStrengthReadsItsGravityAndItsStrength) {
    for (double abv = 0.0; abv <= 14.0; abv += 0.5)
        for (double g = 1.000; g <= 1.060; g += 0.004) {
            const Composition beer = composition_from_gravity_and_abv(g, abv);
            EXPECT_NEAR(gravity_of(beer), g, 1e-14);
            EXPECT_NEAR(abv_of(beer), abv, 1e-12);
        }
    EXPECT_EQ(composition_from_gravity_and_abv(0.960, 5.0).real_extract_g_per_l, 0.0);
}

TEST(Composition, GetsHeavierWithExtractAndLighterWithEthanol) {
    for (double ethanol = 0.0; ethanol <= 130.0; ethanol += 2.0)
        for (double extract = 0.0; extract <= 250.0; extract += 10.0) {
            const double gravity = gravity_of({ethanol, extract});
            EXPECT_GT(gravity_of({ethanol, extract + 0.1}), gravity);
            EXPECT_LT(gravity_of({ethanol + 0.1, extract}), gravity);
        }
}

TEST(Composition, OfABlendReadsBetweenItsParts) {
    const Composition strong = composition_of(1.090, 1.020);
    const Composition thin = composition_of(1.035, 1.002);
    const Composition half{(strong.ethanol_g_per_l + thin.ethanol_g_per_l) / 2.0,
                           (strong.real_extract_g_per_l + thin.real_extract_g_per_l) / 2.0};
    // Ethanol contracts, extract does not quite add: 0.0003 covers what per-litre mixing leaves out here.
    EXPECT_NEAR(gravity_of(half), 1.011, 3e-4);
    EXPECT_NEAR(abv_of(half), (abv_of(strong) + abv_of(thin)) / 2.0, 1e-12);
}

TEST(Fermenting, InTwoStepsEndsWhereOneStepDoes) {
    const Composition wort = composition_of(1.064, 1.064);
    for (double g = 1.050; g > 1.0; g -= 0.005) {
        const Composition direct = fermented_to(wort, 1.001);
        const Composition by_way = fermented_to(fermented_to(wort, g), 1.001);
        EXPECT_NEAR(by_way.ethanol_g_per_l, direct.ethanol_g_per_l, 1e-10);
        EXPECT_NEAR(by_way.real_extract_g_per_l, direct.real_extract_g_per_l, 1e-10);
    }
}

TEST(Fermenting, EndsAtTheReadingFromAnyBlend) {
    for (double ethanol = 5.0; ethanol <= 80.0; ethanol += 5.0)
        for (double extract = 5.0; extract <= 120.0; extract += 5.0) {
            const Composition before{ethanol, extract};
            const double read = gravity_of(before) - 0.0015;
            const Composition after = fermented_to(before, read);
            EXPECT_NEAR(gravity_of(after), read, 1e-13);
            EXPECT_GT(after.ethanol_g_per_l, ethanol);
            EXPECT_LT(after.real_extract_g_per_l, extract);
        }
}

TEST(Fermenting, ToTheGravityItHasChangesNothing) {
    const Composition beer{41.0, 33.0};
    const Composition same = fermented_to(beer, gravity_of(beer));
    EXPECT_NEAR(same.ethanol_g_per_l, 41.0, 1e-10);
    EXPECT_NEAR(same.real_extract_g_per_l, 33.0, 1e-10);
}

TEST(Fermenting, StopsWhenNoExtractIsLeft) {
    const Composition all_gone = fermented_to({40.0, 6.0}, 0.950);
    EXPECT_EQ(all_gone.real_extract_g_per_l, 0.0);
    // 6 g more gone: half of it ethanol, in a litre that hardly shrank.
    EXPECT_NEAR(all_gone.ethanol_g_per_l, 40.0 + 6.0 * k_ethanol_per_extract, 0.03);
}

TEST(Fermenting, GoesBackForAReadingAboveButNeverBelowNoEthanol) {
    const Composition beer = composition_of(1.050, 1.010);
    const Composition back = fermented_to(beer, 1.020);
    EXPECT_NEAR(gravity_of(back), 1.020, 1e-13);
    EXPECT_LT(back.ethanol_g_per_l, beer.ethanol_g_per_l);
    const Composition wort = fermented_to(beer, 1.080);
    EXPECT_EQ(wort.ethanol_g_per_l, 0.0);
    EXPECT_NEAR(gravity_of(wort), 1.050, 1e-13);
}

TEST(Fermenting, MakesTheCarbonDioxideOfBallingForTheExtractThatWent) {
    // A litre of wort of 12 °P gives a little less than a litre of beer; the extract gone from one to the other counts.
    const double og = gravity_of_plato(12.0);
    const Composition wort = composition_of(og, og);
    const Composition beer = composition_of(og, 1.008);
    const double litres_of_beer =
        og * k_water_density_at_20 / (1.008 * k_water_density_at_20 + k_lost_per_ethanol * beer.ethanol_g_per_l);
    const double extract_gone = wort.real_extract_g_per_l - beer.real_extract_g_per_l * litres_of_beer;
    EXPECT_NEAR(co2_made_between(wort, beer), extract_gone * k_co2_per_extract, 1e-10);
    EXPECT_EQ(co2_made_between(beer, beer), 0.0);
    EXPECT_LT(co2_made_between(beer, wort), 0.0);
}

}  // namespace
}  // namespace undercroft::chem
