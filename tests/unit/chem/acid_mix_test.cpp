#include "chem/acid_mix.hpp"

#include <gtest/gtest.h>

#include <array>

#include "chem/acid_dose.hpp"

namespace undercroft::chem {
namespace {

AcidMix beer() {
    AcidMix mix;
    mix.buffer = k_wort_buffer;
    mix.set_g_per_l(Acid::lactic, 4.0);
    mix.set_g_per_l(Acid::acetic, 0.4);
    mix.strong_ions = 0.017;
    mix.abv = 6.0;
    return mix;
}

TEST(AcidMix, SaysOnWhatBasisItsPhStands) {
    EXPECT_EQ(basis_text({}), "pH at 20 \u00b0C, activity of H+ by Davies");
    EXPECT_EQ(basis_text({Temperature::from_celsius(5.0), Activity::none}), "pH at 5 \u00b0C, concentration of H+");
}

TEST(AcidMix, OutsideTheRangeOfItsConstantsThereIsNoNumber) {
    EXPECT_EQ(AcidSystem({Temperature::from_celsius(41.0)}).ph(beer()).error().where, "temperature");
    EXPECT_EQ(AcidSystem({Temperature::from_celsius(-1.0)}).ph(beer()).error().kind, ErrorKind::outside_model);
    AcidMix spirit = beer();
    spirit.abv = 16.0;
    EXPECT_EQ(AcidSystem().state(spirit).error().where, "alcohol");
    EXPECT_EQ(AcidSystem().titratable(spirit).error().kind, ErrorKind::outside_model);
}

TEST(AcidMix, CarbonDioxideIsDrivenOffBeforeATitration) {
    const AcidSystem system;
    AcidMix fizzy = beer();
    fizzy[Acid::carbonic] = 0.1;
    EXPECT_EQ(system.titratable(fizzy).value(), system.titratable(beer()).value());
    // ... and hardly counts for the pH of a sour beer.
    EXPECT_NEAR(system.ph(fizzy).value(), system.ph(beer()).value(), 0.01);
}

TEST(AcidMix, AFruitsAcidsAreAcidsAndItsPotassiumAStrongIon) {
    // 2.8 g/L of malic acid in a beer of pH 3.4 (5 g/L lactic, 0.4 acetic): as an acid it stays above 3.1, with
    // 6.8 mmol/L of potassium near 3.3; both its protons taken for strong acid, it would fall to 1.6.
    const AcidSystem system;
    AcidMix sour = beer();
    sour.abv = 0.0;
    sour.set_g_per_l(Acid::lactic, 5.0);
    sour = system.with_ph(sour, 3.40).value();
    const AcidMix fruit = mix_of({0.0, 2.8, 0.0, 0.0}, 1.0);
    AcidMix fruited = sour;
    for (std::size_t i = 0; i < k_acids; ++i) fruited.acids[i] += fruit.acids[i];
    EXPECT_NEAR(system.ph(fruited).value(), 3.15, 0.05);
    fruited.strong_ions += mix_of({0.0, 2.8, 0.0, 6.8 * 39.098e-3}, 1.0).strong_ions;
    EXPECT_NEAR(system.ph(fruited).value(), 3.31, 0.05);
    AcidMix wrong = sour;
    wrong.strong_ions -= 2.0 * fruit[Acid::malic];
    EXPECT_LT(system.ph(wrong).value(), 2.0);
}

TEST(AcidMix, TheLumpedBufferOfWortHoldsTwelveMilliequivalentsForAPh) {
    const BufferCapacities capacities = capacities_of(k_wort_buffer);
    EXPECT_NEAR(1e3 * capacities.from_3_to_5, 12.1, 0.1);
    EXPECT_GT(capacities.from_5_to_8_2, 0.0);
    EXPECT_LT(capacities.from_5_to_8_2, capacities.from_3_to_5);
}

TEST(AcidMix, ABlendOfNothingIsRefused) {
    EXPECT_FALSE(blend({}));
    EXPECT_FALSE(blend(std::array{BlendPart{beer(), 0.0}}));
    EXPECT_FALSE(blend(std::array{BlendPart{beer(), -1.0}, BlendPart{beer(), 3.0}}));
}

TEST(AcidDose, OfCarbonateSaysHowMuchGasLeaves) {
    const AcidSystem system;
    DoseTarget target;
    target.value = system.ph(beer()).value() + 0.3;
    const Dose dose = dose_for(system, beer(), 20.0, Doser::potassium_bicarbonate, 1.0, target).value();
    EXPECT_NEAR(dose.grams, 20.0 * dose.g_per_l, 1e-9);
    EXPECT_NEAR(dose.co2_g_per_l, dose.g_per_l * 44.009 / 100.115, 1e-9);
    // A gram of it takes away a tenth of a mEq of titratable acid.
    EXPECT_NEAR(dose.ta_before - dose.ta_after, dose.g_per_l / 100.115, 2e-5);
}

TEST(AcidDose, TheWrongWayIsRefusedAndSoIsWhatCannotBeReached) {
    const AcidSystem system;
    DoseTarget up;
    up.value = 4.5;
    EXPECT_EQ(dose_for(system, beer(), 20.0, Doser::lactic_acid, 0.8, up).error().kind, ErrorKind::bad_input);
    DoseTarget down;
    down.value = 1.5;
    EXPECT_EQ(dose_for(system, beer(), 20.0, Doser::acetic_acid, 1.0, down).error().kind, ErrorKind::outside_model);
    down.value = 3.2;
    EXPECT_EQ(dose_for(system, beer(), 20.0, Doser::lactic_acid, 1.2, down).error().where, "strength");
    EXPECT_EQ(dose_for(system, beer(), 0.0, Doser::lactic_acid, 0.8, down).error().where, "volume");
}

TEST(AcidDose, LacticAcidOfEightyEightPerCentByHand) {
    // To raise TA by 2 g/L as lactic acid takes 2/0.88 g/L: every gram of it is titrated at pH 8.2.
    const AcidSystem system;
    DoseTarget target;
    target.of = DoseTarget::Of::ta;
    target.value = system.titratable(beer()).value() + 2.0 / 90.078;
    const Dose dose = dose_for(system, beer(), 50.0, Doser::lactic_acid, 0.88, target).value();
    EXPECT_NEAR(dose.g_per_l, 2.0 / 0.88, 0.002);
    EXPECT_NEAR(dose.grams, 50.0 * 2.0 / 0.88, 0.1);
}

}  // namespace
}  // namespace undercroft::chem
