#include "chem/alcohol.hpp"

#include <algorithm>
#include <cmath>

#include "chem/extract.hpp"
#include "chem/root.hpp"
#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_divisor_fades_in_until = 1.0;                                               // % alcohol by mass
constexpr double k_rdf_per_real_extract = k_lost_per_ethanol / k_extract_per_ethanol / 100.0;  // 0.005161

double real_extract_divisor(double alcohol_by_mass) {
    return 1.0 - 0.0038 * std::clamp(alcohol_by_mass / k_divisor_fades_in_until, 0.0, 1.0);
}

double alcohol_share_of_apparent_extract(double alcohol_by_mass) {
    return (0.4654 - 0.003615 * alcohol_by_mass) * alcohol_by_mass;
}

double grams_per_litre(double gravity) {
    return gravity * k_water_density_at_20;
}

// Alcohol and real extract of wort of that original extract, in % by mass.
struct OnLine {
    double alcohol_by_mass;
    double real_extract;
};

// Balling's relation turned round: the real extract left once there is that much alcohol.
double real_extract_left(double original_extract, double alcohol_by_mass) {
    return original_extract - (k_extract_per_ethanol - k_lost_per_ethanol * original_extract / 100.0) * alcohol_by_mass;
}

double most_alcohol(double original_extract) {
    return original_extract / (k_extract_per_ethanol - k_lost_per_ethanol * original_extract / 100.0);
}

// Clamped to the ends of the line: no alcohol, or no extract; and to what can be, since the line runs to a pole where
// more than all of the wort were extract.
OnLine ferment(double original_extract, double apparent_extract) {
    original_extract = std::min(original_extract, 100.0);
    if (original_extract <= 0.0 || apparent_extract >= original_extract) return {0.0, std::max(0.0, original_extract)};
    const double most = most_alcohol(original_extract);
    if (apparent_extract <= apparent_extract_of(0.0, most)) return {most, 0.0};
    const double alcohol = bracketed_root(
        [&](double a) { return apparent_extract_of(real_extract_left(original_extract, a), a) - apparent_extract; },
        0.0, most);
    return {alcohol, std::max(0.0, real_extract_left(original_extract, alcohol))};
}

Composition per_litre(const OnLine& beer) {
    const double gravity = gravity_of_plato(apparent_extract_of(beer.real_extract, beer.alcohol_by_mass));
    const double density = grams_per_litre(gravity);
    return {beer.alcohol_by_mass / 100.0 * density, beer.real_extract / 100.0 * density};
}

}  // namespace

double real_extract_of(double apparent_extract, double alcohol_by_mass) {
    return (apparent_extract + alcohol_share_of_apparent_extract(alcohol_by_mass)) /
           real_extract_divisor(alcohol_by_mass);
}

double apparent_extract_of(double real_extract, double alcohol_by_mass) {
    return real_extract * real_extract_divisor(alcohol_by_mass) - alcohol_share_of_apparent_extract(alcohol_by_mass);
}

double original_extract_of(double alcohol_by_mass, double real_extract) {
    return 100.0 * (k_extract_per_ethanol * alcohol_by_mass + real_extract) /
           (100.0 + k_lost_per_ethanol * alcohol_by_mass);
}

double abv_of(double alcohol_by_mass, double gravity) {
    return alcohol_by_mass * grams_per_litre(gravity) / k_ethanol_density_at_20;
}

Result<Attenuation> attenuation_of(double original_gravity, double gravity) {
    const double original_extract = plato_of_gravity(original_gravity);
    if (!(original_extract > 0.0)) {
        return fail(ErrorKind::bad_input, "original gravity",
                    number_text(original_gravity, 4) + " is not above 1.000, so there was nothing to ferment.");
    }
    const double apparent_extract = plato_of_gravity(gravity);
    if (!(apparent_extract <= original_extract)) {
        return fail(
            ErrorKind::bad_input, "gravity",
            number_text(gravity, 4) + " is above the original gravity of " + number_text(original_gravity, 4) + ".", {},
            "Check both readings, and whether sugar, fruit or wort came in between.");
    }
    const double lowest = apparent_extract_of(0.0, most_alcohol(original_extract));
    if (apparent_extract < lowest) {
        return fail(ErrorKind::outside_model, "gravity",
                    number_text(gravity, 4) + " is lower than wort of " + number_text(original_gravity, 4) +
                        " can reach; with every gram of extract gone it would read " +
                        number_text(gravity_of_plato(lowest), 4) + ".",
                    {}, "Check both readings, and whether sugar, fruit or spirit came in between.");
    }
    const OnLine beer = ferment(original_extract, apparent_extract);
    Attenuation result;
    result.alcohol_by_mass = beer.alcohol_by_mass;
    result.alcohol_by_volume = abv_of(beer.alcohol_by_mass, gravity);
    result.original_extract = original_extract;
    result.apparent_extract = apparent_extract;
    result.real_extract = beer.real_extract;
    const double fermented = original_extract - beer.real_extract;
    result.real_degree = 100.0 * fermented / original_extract / (1.0 - k_rdf_per_real_extract * beer.real_extract);
    result.apparent_degree = 100.0 * (original_extract - apparent_extract) / original_extract;
    return result;
}

double gravity_of(const Composition& composition) {
    // The extract relations want % by mass, which needs the density that is being sought.
    const auto surplus = [&](double gravity) {
        const double percent = 100.0 / grams_per_litre(gravity);
        return apparent_extract_of(composition.real_extract_g_per_l * percent, composition.ethanol_g_per_l * percent) -
               plato_of_gravity(gravity);
    };
    return bracketed_root(surplus, 0.75, 1.6);
}

double abv_of(const Composition& composition) {
    return 100.0 * composition.ethanol_g_per_l / k_ethanol_density_at_20;
}

double original_extract_of(const Composition& composition) {
    const double percent = 100.0 / grams_per_litre(gravity_of(composition));
    return original_extract_of(composition.ethanol_g_per_l * percent, composition.real_extract_g_per_l * percent);
}

Composition composition_of(double original_gravity, double gravity) {
    return per_litre(ferment(plato_of_gravity(original_gravity), plato_of_gravity(gravity)));
}

Composition composition_from_gravity_and_abv(double gravity, double abv) {
    const double ethanol = abv / 100.0 * k_ethanol_density_at_20;
    const double density = grams_per_litre(gravity);
    const double real_extract = real_extract_of(plato_of_gravity(gravity), 100.0 * ethanol / density);
    return {ethanol, std::max(0.0, real_extract) / 100.0 * density};
}

Composition fermented_to(const Composition& before, double gravity_read) {
    return per_litre(ferment(original_extract_of(before), plato_of_gravity(gravity_read)));
}

double co2_made_between(const Composition& before, const Composition& after) {
    // On one line a gram of beer came from 1 + 1.0665 A/100 g of wort, A in %: that ties the two liquids together.
    const double density_before = grams_per_litre(gravity_of(before));
    const double wort_before = density_before + k_lost_per_ethanol * before.ethanol_g_per_l;
    const double wort_after = grams_per_litre(gravity_of(after)) + k_lost_per_ethanol * after.ethanol_g_per_l;
    const double ethanol_made = after.ethanol_g_per_l * wort_before / wort_after - before.ethanol_g_per_l;
    return ethanol_made * k_extract_per_ethanol * k_co2_per_extract;
}

}  // namespace undercroft::chem
