#include "chem/sugar.hpp"

#include "chem/alcohol.hpp"
#include "chem/extract.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_hexose_g_per_mol = 180.156;

// `hexoses` units joined by losing a water at each bond, with `crystal_water` molecules of water in the crystal.
constexpr double hexose_share(int hexoses, int crystal_water) {
    const double units = hexoses * k_hexose_g_per_mol;
    return units / (units - (hexoses - 1 - crystal_water) * k_water_g_per_mol);
}

}  // namespace

double hexose_equivalent(Sugar sugar) {
    switch (sugar) {
        case Sugar::glucose:
        case Sugar::fructose:
            return 1.0;
        case Sugar::sucrose:
        case Sugar::maltose:
        case Sugar::lactose:
            return hexose_share(2, 0);
        case Sugar::maltotriose:
            return hexose_share(3, 0);
        case Sugar::dextrose_monohydrate:
            return hexose_share(1, 1);
        case Sugar::maltose_monohydrate:
        case Sugar::lactose_monohydrate:
            return hexose_share(2, 1);
    }
    return 0.0;
}

double co2_in_theory(Sugar sugar) {
    return hexose_equivalent(sugar) * k_co2_per_hexose;
}

double ethanol_in_theory(Sugar sugar) {
    return hexose_equivalent(sugar) * k_ethanol_per_hexose;
}

double co2_with_growth(Sugar sugar) {
    return hexose_equivalent(sugar) * k_co2_per_extract;
}

double ethanol_with_growth(Sugar sugar) {
    return hexose_equivalent(sugar) * k_ethanol_per_extract;
}

}  // namespace undercroft::chem
