// What sugars and acids give, against sums of atomic masses and the printed yield table.
#include "chem/sugar.hpp"

#include <gtest/gtest.h>

namespace undercroft::chem {
namespace {

// IUPAC 2021 abridged standard atomic masses.
constexpr double k_c = 12.011;
constexpr double k_h = 1.008;
constexpr double k_o = 15.999;

constexpr double mass(int c, int h, int o) {
    return c * k_c + h * k_h + o * k_o;
}

constexpr double k_co2 = mass(1, 0, 2);
constexpr double k_ethanol = mass(2, 6, 1);
constexpr double k_hexose = mass(6, 12, 6);

TEST(PublishedStoichiometry, OfEachSugarFollowsFromAtomicMasses) {
    struct Row {
        Sugar sugar;
        double g_per_mol;
        int hexoses;
    };
    constexpr Row rows[] = {{Sugar::glucose, k_hexose, 1},
                            {Sugar::fructose, k_hexose, 1},
                            {Sugar::sucrose, mass(12, 22, 11), 2},
                            {Sugar::maltose, mass(12, 22, 11), 2},
                            {Sugar::lactose, mass(12, 22, 11), 2},
                            {Sugar::maltotriose, mass(18, 32, 16), 3},
                            {Sugar::dextrose_monohydrate, mass(6, 14, 7), 1},
                            {Sugar::maltose_monohydrate, mass(12, 24, 12), 2},
                            {Sugar::lactose_monohydrate, mass(12, 24, 12), 2}};
    for (const Row& row : rows) {
        EXPECT_NEAR(hexose_equivalent(row.sugar), row.hexoses * k_hexose / row.g_per_mol, 1e-9);
        EXPECT_NEAR(co2_in_theory(row.sugar), 2 * row.hexoses * k_co2 / row.g_per_mol, 1e-9);
        EXPECT_NEAR(ethanol_in_theory(row.sugar), 2 * row.hexoses * k_ethanol / row.g_per_mol, 1e-9);
    }
}

TEST(PublishedStoichiometry, MatchesTheYieldTable) {
    // Theory by atomic masses; with growth by Balling (Nielsen et al. 2007): CO2 and ethanol in theory, hexose
    // equivalent, CO2 with growth; g per g, four decimals.
    struct Row {
        Sugar sugar;
        double co2, ethanol, hexose, co2_with_growth;
    };
    constexpr Row rows[] = {{Sugar::glucose, 0.4886, 0.5114, 1.0000, 0.4629},
                            {Sugar::dextrose_monohydrate, 0.4442, 0.4649, 0.9091, 0.4208},
                            {Sugar::sucrose, 0.5143, 0.5384, 1.0526, 0.4872},
                            {Sugar::maltose, 0.5143, 0.5384, 1.0526, 0.4872},
                            {Sugar::maltotriose, 0.5235, 0.5480, 1.0714, 0.4959}};
    for (const Row& row : rows) {
        EXPECT_NEAR(co2_in_theory(row.sugar), row.co2, 6e-5);
        EXPECT_NEAR(ethanol_in_theory(row.sugar), row.ethanol, 6e-5);
        EXPECT_NEAR(hexose_equivalent(row.sugar), row.hexose, 6e-5);
        EXPECT_NEAR(co2_with_growth(row.sugar), row.co2_with_growth, 1e-4);
    }
}

TEST(PublishedStoichiometry, OfAcidsAndSorbitolFollowsFromAtomicMasses) {
    constexpr double malic = mass(4, 6, 5);
    EXPECT_NEAR(k_co2_per_malic_by_bacteria, k_co2 / malic, 1e-5);
    EXPECT_NEAR(k_co2_per_malic_by_bacteria, 0.328, 5e-4);
    EXPECT_NEAR(k_lactic_per_malic, mass(3, 6, 3) / malic, 1e-5);
    EXPECT_NEAR(k_lactic_per_malic + k_co2_per_malic_by_bacteria, 1.0, 1e-5);
    EXPECT_NEAR(k_co2_per_malic_worst, 2 * k_co2 / malic, 1e-5);
    EXPECT_NEAR(k_co2_per_citric_worst, 2 * k_co2 / mass(6, 8, 7), 1e-5);
    EXPECT_NEAR(k_co2_per_sorbitol_worst, 2 * k_co2 / mass(6, 14, 6), 1e-5);
}

TEST(PublishedStoichiometry, EthanolTakesItsPartialVolume) {
    // 54 mL/mol, partial molar volume of ethanol in dilute solution (from memory; 53.6 to 55 in the literature).
    EXPECT_NEAR(k_ml_per_gram_ethanol_made * k_ethanol, 54.0, 0.5);
}

}  // namespace
}  // namespace undercroft::chem
