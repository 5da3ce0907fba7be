// The density formula of OIML R22 against an independent table, and its printed landmarks.
#include "chem/ethanol_water.hpp"

#include <gtest/gtest.h>

namespace undercroft::chem {
namespace {

const Temperature k_at_20 = Temperature::from_celsius(20.0);

TEST(PublishedEthanolWater, DensityAgreesWithPerrysTable) {
    // Perry's Chemical Engineers' Handbook, 7th ed., 20 °C, kg/L counting water at 4 °C as 1 (secondary reproduction).
    struct Row {
        double percent_mass, density;
    };
    constexpr Row rows[] = {{0, 0.99823}, {1, 0.99636}, {2, 0.99453}, {3, 0.99275},  {4, 0.99103}, {5, 0.98938},
                            {6, 0.98780}, {8, 0.98478}, {9, 0.98331}, {10, 0.98187}, {12, 0.97910}};
    for (const Row& row : rows)
        // 3e-5 kg/L: the spread between the two tables, three units of Perry's last digit.
        EXPECT_NEAR(ethanol_water_density(row.percent_mass / 100.0, k_at_20), row.density * 999.972, 0.033);
}

TEST(PublishedEthanolWater, StrengthByVolumeAgainstByMass) {
    // OIML R22 tables at 20 °C: % vol, % mass, kg/m3 (formula worked out apart from this program).
    struct Row {
        double percent_volume, percent_mass, density;
    };
    constexpr Row rows[] = {{1, 0.7919, 996.697},  {3, 2.3825, 993.806},   {5, 3.9818, 991.055},
                            {6, 4.7846, 989.728},  {7, 5.5893, 988.432},   {10, 8.0149, 984.710},
                            {11, 8.8271, 983.521}, {15, 12.0929, 978.971}, {20, 16.2135, 973.557},
                            {40, 33.2996, 948.045}};
    for (const Row& row : rows) {
        EXPECT_NEAR(percent_mass_of_percent_volume(row.percent_volume), row.percent_mass, 6e-5);
        EXPECT_NEAR(percent_volume_of_percent_mass(row.percent_mass), row.percent_volume, 1e-4);
        EXPECT_NEAR(ethanol_water_density(row.percent_mass / 100.0, k_at_20), row.density, 6e-4);
    }
}

TEST(PublishedEthanolWater, ChangesWithTemperature) {
    // The same formula, worked out apart from this program: kg/m3 of 5 and 10 % vol.
    struct Row {
        double percent_volume, celsius, density;
    };
    constexpr Row rows[] = {{5, 0, 992.841},   {5, 5, 992.908},  {5, 15, 991.980}, {5, 25, 989.858},
                            {5, 30, 988.407},  {10, 0, 987.117}, {10, 5, 987.020}, {10, 15, 985.782},
                            {10, 25, 983.373}, {10, 30, 981.795}};
    for (const Row& row : rows)
        EXPECT_NEAR(ethanol_water_density(percent_mass_of_percent_volume(row.percent_volume) / 100.0,
                                          Temperature::from_celsius(row.celsius)),
                    row.density, 6e-4);
}

TEST(PublishedEthanolWater, PureEthanolWeighsSevenHundredEightyNineGramsALitre) {
    EXPECT_NEAR(ethanol_water_density(1.0, k_at_20), 789.24, 0.005);  // Directive 76/766/EEC, printed to 0.01
}

}  // namespace
}  // namespace undercroft::chem
