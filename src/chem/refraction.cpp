#include "chem/refraction.hpp"

#include <array>
#include <cmath>

#include "chem/alcohol.hpp"
#include "chem/extract.hpp"
#include "chem/root.hpp"
#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_index_of_water = 1.33299;
constexpr double k_index_of_the_thickest = 1.5033;
constexpr double k_strongest = 20.0;  // % by mass

double icumsa_brix(double n) {
    return ((((11758.74 * n - 88885.21) * n + 270177.93) * n - 413145.80) * n + 318417.95) * n - 99127.4536;
}

}  // namespace

double brix_of_index(double index) {
    return icumsa_brix(index) - icumsa_brix(k_index_of_water);
}

double index_of_brix(double brix) {
    return bracketed_root([brix](double n) { return brix_of_index(n) - brix; }, 1.32, k_index_of_the_thickest);
}

double index_rise_of_ethanol(double percent_mass) {
    struct Point {
        double percent, index;
    };
    constexpr std::array<Point, 7> k_points{
        {{0, 1.3330}, {2, 1.3342}, {4, 1.3354}, {6, 1.3367}, {8, 1.3381}, {10, 1.3395}, {20, 1.3469}}};
    std::size_t i = 1;
    while (i + 1 < k_points.size() && percent_mass > k_points[i].percent) ++i;
    const Point& a = k_points[i - 1];
    const Point& b = k_points[i];
    return a.index - k_points[0].index + (b.index - a.index) * (percent_mass - a.percent) / (b.percent - a.percent);
}

double brix_read_in(double real_extract, double alcohol_by_mass) {
    return brix_of_index(index_of_brix(real_extract) + index_rise_of_ethanol(alcohol_by_mass));
}

Result<FromBothInstruments> strength_from(double gravity, double brix_read) {
    const double apparent = plato_of_gravity(gravity);
    const auto surplus = [&](double alcohol) {
        return brix_read_in(real_extract_of(apparent, alcohol), alcohol) - brix_read;
    };
    // At no alcohol both instruments show the same extract.
    if (!(surplus(0.0) <= 0.0 && surplus(k_strongest) >= 0.0))
        return fail(ErrorKind::bad_input, "refractometer",
                    number_text(brix_read, 1) + " °Bx and a gravity of " + number_text(gravity, 4) +
                        " do not go together: without alcohol it would read " +
                        number_text(brix_read_in(apparent, 0.0), 1) + " °Bx, at 20 % by mass " +
                        number_text(brix_read_in(real_extract_of(apparent, k_strongest), k_strongest), 1) + ".");
    FromBothInstruments found;
    found.alcohol_by_mass = bracketed_root(surplus, 0.0, k_strongest);
    found.alcohol_by_volume = abv_of(found.alcohol_by_mass, gravity);
    found.real_extract = real_extract_of(apparent, found.alcohol_by_mass);
    found.original_extract = original_extract_of(found.alcohol_by_mass, found.real_extract);
    return found;
}

}  // namespace undercroft::chem
