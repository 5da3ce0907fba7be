#include "chem/mixing.hpp"

#include <cmath>

#include "chem/ethanol_water.hpp"
#include "chem/extract.hpp"
#include "chem/root.hpp"
#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_most_abv = 15.0;
constexpr Temperature k_at_20 = Temperature::from_celsius(20.0);

Result<void> check_volume(double litres) {
    if (litres >= 0.0 && std::isfinite(litres)) return {};
    return fail(ErrorKind::bad_input, "volume", number_text(litres, 2) + " L cannot be poured.");
}

Failure nothing_poured() {
    return fail(ErrorKind::bad_input, "volume", "Nothing is poured.");
}

}  // namespace

Result<Mixed> mixed(std::span<const Poured> parts) {
    double litres = 0.0;
    double mass = 0.0;  // g
    double ethanol = 0.0;
    double extract = 0.0;
    for (const Poured& part : parts) {
        TRY_VOID(check_volume(part.litres));
        const Composition& composition = part.composition;
        if (!(composition.ethanol_g_per_l >= 0.0 && composition.real_extract_g_per_l >= 0.0 &&
              abv_of(composition) <= k_most_abv))
            return fail(ErrorKind::outside_model, "alcohol",
                        number_text(abv_of(composition), 1) +
                            " % vol is outside 0 to 15 % vol, where the density of beer is known.",
                        {}, "Spirit and water are reckoned by themselves.");
        litres += part.litres;
        mass += part.litres * gravity_of(composition) * k_water_density_at_20;
        ethanol += part.litres * composition.ethanol_g_per_l;
        extract += part.litres * composition.real_extract_g_per_l;
    }
    if (!(litres > 0.0)) return nothing_poured();
    // The volume at which the density of what is in a litre is the mass of a litre.
    const auto surplus = [&](double volume) {
        return gravity_of({ethanol / volume, extract / volume}) * k_water_density_at_20 - mass / volume;
    };
    Mixed whole;
    whole.litres = bracketed_root(surplus, 0.9 * litres, 1.1 * litres);
    whole.composition = {ethanol / whole.litres, extract / whole.litres};
    whole.shrinks = 1.0 - whole.litres / litres;
    return whole;
}

Result<MixedSpirit> mixed_spirit(std::span<const PouredSpirit> parts) {
    double litres = 0.0;
    double mass = 0.0;
    double ethanol = 0.0;
    for (const PouredSpirit& part : parts) {
        TRY_VOID(check_volume(part.litres));
        if (!(part.abv >= 0.0 && part.abv <= 100.0))
            return fail(ErrorKind::bad_input, "alcohol", number_text(part.abv, 1) + " % vol is outside 0 to 100.");
        const double share = percent_mass_of_percent_volume(part.abv) / 100.0;
        const double mass_here = part.litres * ethanol_water_density(share, k_at_20);
        litres += part.litres;
        mass += mass_here;
        ethanol += mass_here * share;
    }
    if (!(litres > 0.0)) return nothing_poured();
    MixedSpirit whole;
    whole.litres = mass / ethanol_water_density(ethanol / mass, k_at_20);
    whole.abv = percent_volume_of_percent_mass(100.0 * ethanol / mass);
    whole.shrinks = 1.0 - whole.litres / litres;
    return whole;
}

Result<Attenuation> at_attenuation(double original_gravity, double apparent_percent) {
    const double original_extract = plato_of_gravity(original_gravity);
    return attenuation_of(original_gravity, gravity_of_plato(original_extract * (1.0 - apparent_percent / 100.0)));
}

Result<Attenuation> at_the_limit(double original_gravity) {
    if (!(plato_of_gravity(original_gravity) > 0.0))
        return fail(ErrorKind::bad_input, "original gravity",
                    number_text(original_gravity, 4) + " is not above 1.000, so there was nothing to ferment.");
    const Composition dry = composition_of(original_gravity, 0.8);
    return attenuation_of(original_gravity, gravity_of(dry) + 1e-9);
}

}  // namespace undercroft::chem
