// What a gram of sugar or acid becomes: CO2, ethanol, volume.
//
// All in g per g of the pure substance unless named otherwise; atomic masses of IUPAC 2021.
// "In theory" is the chemical equation alone, which no yeast exceeds; "with growth" takes off what goes into new
// yeast, at Balling's ratio. Safety counts theory.
// Leaves out: which culture can take which sugar (lactose and dextrins are nothing to ordinary beer yeast).
#pragma once

namespace undercroft::chem {

enum class Sugar {
    glucose,  // anhydrous
    fructose,
    sucrose,
    maltose,  // anhydrous
    maltotriose,
    lactose,               // anhydrous
    dextrose_monohydrate,  // what is sold as priming dextrose
    maltose_monohydrate,
    lactose_monohydrate,  // what is sold as lactose
};

// g of hexose that the sugar gives once split: sucrose 1.0526, dextrose monohydrate 0.9091.
[[nodiscard]] double hexose_equivalent(Sugar sugar);
[[nodiscard]] double co2_in_theory(Sugar sugar);
[[nodiscard]] double ethanol_in_theory(Sugar sugar);
[[nodiscard]] double co2_with_growth(Sugar sugar);
[[nodiscard]] double ethanol_with_growth(Sugar sugar);

inline constexpr double k_co2_per_hexose = 2.0 * 44.009 / 180.156;      // 0.4886
inline constexpr double k_ethanol_per_hexose = 2.0 * 46.069 / 180.156;  // 0.5114

// Acids and sorbitol. Malic to lactic by bacteria gives one CO2; the worst cases are all the CO2 that yeast could
// make of malic (two), live bacteria of citric (two), and whatever takes sorbitol (as a hexose, two).
inline constexpr double k_co2_per_malic_by_bacteria = 44.009 / 134.087;     // 0.328
inline constexpr double k_lactic_per_malic = 90.078 / 134.087;              // 0.672
inline constexpr double k_co2_per_malic_worst = 2.0 * 44.009 / 134.087;     // 0.656
inline constexpr double k_co2_per_citric_worst = 2.0 * 44.009 / 192.123;    // 0.458
inline constexpr double k_co2_per_sorbitol_worst = 2.0 * 44.009 / 182.172;  // 0.483

// Volumes of CO2 for each 0.001 the gravity still falls, by the relations of chem/alcohol.hpp. Safety: long dextrins
// fermented without growth, which give 0.567 in a beer of 1.030, 0.578 at 1.080 and 0.582 at 1.100 (trade pages that
// take the real from the apparent extract by a fixed 0.819 say 0.57). Display: yeast at work with growth, 0.499 to
// 0.507.
inline constexpr double k_volumes_per_gravity_point_safety = 0.58;
inline constexpr double k_volumes_per_gravity_point_display = 0.50;

// What ethanol made in the beer adds to its volume (partial molar volume of dilute ethanol, 54 mL/mol, from memory),
// and the volume counted for each gram of sugar added, near that of the ethanol made from it.
inline constexpr double k_ml_per_gram_ethanol_made = 1.17;
inline constexpr double k_litres_per_gram_sugar = 0.00062;

}  // namespace undercroft::chem
