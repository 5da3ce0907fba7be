#include "chem/sugar.hpp"

#include <gtest/gtest.h>

#include "chem/alcohol.hpp"
#include "chem/extract.hpp"
#include "chem/gas.hpp"

namespace undercroft::chem {
namespace {

constexpr Sugar k_all[] = {Sugar::glucose,
                           Sugar::fructose,
                           Sugar::sucrose,
                           Sugar::maltose,
                           Sugar::lactose,
                           Sugar::maltotriose,
                           Sugar::dextrose_monohydrate,
                           Sugar::maltose_monohydrate,
                           Sugar::lactose_monohydrate};

TEST(SugarFermented, BecomesItsOwnMassOfEthanolAndCarbonDioxide) {
    for (const Sugar sugar : k_all)
        EXPECT_NEAR(co2_in_theory(sugar) + ethanol_in_theory(sugar), hexose_equivalent(sugar), 1e-12);
}

TEST(SugarFermented, WithGrowthGivesLessThanTheory) {
    for (const Sugar sugar : k_all) {
        EXPECT_LT(co2_with_growth(sugar), co2_in_theory(sugar));
        EXPECT_LT(ethanol_with_growth(sugar), ethanol_in_theory(sugar));
        EXPECT_GT(co2_with_growth(sugar), 0.9 * co2_in_theory(sugar));
    }
}

// g CO2 per litre, by the extract relations, when `extract` fermented at those yields takes 0.001 off the gravity.
double co2_of_one_point(double original_gravity, double gravity, double ethanol_yield, double co2_yield) {
    const Composition before = composition_of(original_gravity, gravity);
    const double density = gravity * k_water_density_at_20;
    const auto gravity_after = [&](double extract) {
        const double mass = density - (1.0 - ethanol_yield) * extract;
        const double alcohol = 100.0 * (before.ethanol_g_per_l + ethanol_yield * extract) / mass;
        const double real_extract = 100.0 * (before.real_extract_g_per_l - extract) / mass;
        return gravity_of_plato(apparent_extract_of(real_extract, alcohol));
    };
    double few = 0.0;
    double many = 5.0;
    for (int i = 0; i < 60; ++i) {
        const double extract = (few + many) / 2.0;
        (gravity_after(extract) > gravity - 0.001 ? few : many) = extract;
    }
    return few * co2_yield;
}

TEST(GravityPoint, OfDextrinsWithoutGrowthNeverGivesMoreThanTheSafetyFigure) {
    constexpr double unit = 162.141;  // a glucose inside a chain
    for (double og = 1.030; og <= 1.085; og += 0.005)
        for (double g = 1.002; g <= 1.012; g += 0.002) {
            const double volumes =
                co2_volumes_of_g_per_l(co2_of_one_point(og, g, 2.0 * 46.069 / unit, 2.0 * 44.009 / unit));
            EXPECT_LT(volumes, k_volumes_per_gravity_point_safety) << og << " " << g;
            EXPECT_GT(volumes, 0.97 * k_volumes_per_gravity_point_safety) << og << " " << g;
        }
}

TEST(GravityPoint, OfYeastAtWorkGivesTheDisplayFigure) {
    for (double og = 1.030; og <= 1.085; og += 0.005)
        for (double g = 1.002; g <= 1.012; g += 0.002) {
            const double volumes =
                co2_volumes_of_g_per_l(co2_made_between(composition_of(og, g), composition_of(og, g - 0.001)));
            // 0.497 to 0.509 over common beers; one figure stands for them within 2 %.
            EXPECT_NEAR(volumes, k_volumes_per_gravity_point_display, 0.010) << og << " " << g;
        }
}

TEST(EthanolMadeFromSugar, TakesAboutTheRoomThatTheSugarTook) {
    EXPECT_NEAR(k_ml_per_gram_ethanol_made * ethanol_in_theory(Sugar::sucrose), 1000.0 * k_litres_per_gram_sugar,
                0.015);
}

}  // namespace
}  // namespace undercroft::chem
