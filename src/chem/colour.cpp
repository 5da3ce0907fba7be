#include "chem/colour.hpp"

#include <algorithm>
#include <cmath>

#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_kg_per_pound = 0.45359237;

Result<void> check_amount(const char* where, double value, const char* unit) {
    if (value >= 0.0 && std::isfinite(value)) return {};
    return fail(ErrorKind::bad_input, where, number_text(value, 2) + " " + unit + " cannot be; it is zero or more.");
}

}  // namespace

double absorbance_at(double nm, double srm) {
    const double from_430 = nm - 430.0;
    return srm / k_srm_per_absorbance *
           (0.02465 * std::exp(-from_430 / 17.591) + 0.97535 * std::exp(-from_430 / 82.122));
}

Result<double> ebc_of_blend(std::span<const ColourPart> parts) {
    double litres = 0.0;
    double sum = 0.0;
    for (const ColourPart& part : parts) {
        TRY_VOID(check_amount("volume", part.litres, "L"));
        TRY_VOID(check_amount("colour", part.ebc, "EBC"));
        litres += part.litres;
        sum += part.litres * part.ebc;
    }
    if (!(litres > 0.0)) return fail(ErrorKind::bad_input, "volume", "Nothing is poured, so there is no blend.");
    return sum / litres;
}

double srm_of_malt_colour_units(double units) {
    return 1.4922 * std::pow(units, 0.6859);
}

double lovibond_of_malt_ebc(double ebc) {
    return (ebc + 1.2) / 2.65;
}

Result<double> srm_of_malt(std::span<const MaltPart> malts, double litres) {
    if (!(litres > 0.0 && std::isfinite(litres)))
        return fail(ErrorKind::bad_input, "volume", number_text(litres, 2) + " L of wort cannot be.");
    double units = 0.0;
    for (const MaltPart& malt : malts) {
        TRY_VOID(check_amount("malt", malt.kilograms, "kg"));
        TRY_VOID(check_amount("colour of malt", malt.ebc, "EBC"));
        units += malt.kilograms / k_kg_per_pound * std::max(0.0, lovibond_of_malt_ebc(malt.ebc));
    }
    units /= litres / k_litres_per_us_gallon;
    const double srm = srm_of_malt_colour_units(units);
    if (srm > k_malt_law_until_srm)
        return fail(
            ErrorKind::outside_model, "colour",
            number_text(ebc_of_srm(srm), 0) + " EBC is above 98 EBC (50 SRM), where the law of malt colour ends.", {},
            "Blend with a lighter wort, or measure it thinned with water.");
    return srm;
}

}  // namespace undercroft::chem
