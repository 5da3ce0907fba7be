#include "chem/bitterness.hpp"

#include <array>
#include <cmath>

#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_days_a_year = 365.25;
constexpr double k_times_in_ten_kelvin = 3.0;

// Share of trans left at 20 °C. Between the printed days its logarithm is taken as straight.
double trans_left_by_days(double days) {
    struct Point {
        double day, left;
    };
    constexpr std::array<Point, 5> k_points{{{0, 1.0}, {20, 0.90}, {50, 0.75}, {100, 0.65}, {200, 0.55}}};
    for (std::size_t i = 1; i < k_points.size(); ++i) {
        if (days > k_points[i].day) continue;
        const Point& a = k_points[i - 1];
        const Point& b = k_points[i];
        return a.left * std::pow(b.left / a.left, (days - a.day) / (b.day - a.day));
    }
    return k_points.back().left * std::exp2(-(days - k_points.back().day) / (k_days_a_year * k_trans_half_life_years));
}

}  // namespace

Result<double> isomerised_share(Temperature temperature, double minutes) {
    const double t = temperature.in_celsius();
    if (!(t >= 90.0 && t <= 130.0))
        return fail(ErrorKind::outside_model, "temperature",
                    text_of(temperature) + " is outside 90 to 130 °C, where the making of bitterness was measured.");
    if (!(minutes >= 0.0 && std::isfinite(minutes)))
        return fail(ErrorKind::bad_input, "time", number_text(minutes, 0) + " minutes cannot be.");
    const double kelvin = temperature.in_kelvin();
    const double made = 7.9e11 * std::exp(-11858.0 / kelvin);
    const double lost = 4.1e12 * std::exp(-12994.0 / kelvin);
    return made / (lost - made) * (std::exp(-made * minutes) - std::exp(-lost * minutes));
}

Result<Bitterness> bitterness_of(std::span<const HopDose> hops, double litres, const KettleRecovery& recovery) {
    if (!(litres > 0.0 && std::isfinite(litres)))
        return fail(ErrorKind::bad_input, "volume", number_text(litres, 2) + " L of wort cannot be.");
    double made = 0.0;
    for (const HopDose& hop : hops) {
        if (!(hop.grams >= 0.0 && std::isfinite(hop.grams)))
            return fail(ErrorKind::bad_input, "hops", number_text(hop.grams, 1) + " g cannot be.");
        if (!(hop.alpha_percent >= 0.0 && hop.alpha_percent <= 30.0))
            return fail(ErrorKind::bad_input, "alpha acid",
                        number_text(hop.alpha_percent, 1) + " % is outside 0 to 30 % by mass.");
        TRY(const double share, isomerised_share(hop.temperature, hop.minutes));
        made += 1000.0 * hop.grams * hop.alpha_percent / 100.0 * share / litres;
    }
    return Bitterness{made * recovery.low, made * recovery.usual, made * recovery.high};
}

Result<Fading> bitterness_left(double years, Temperature temperature) {
    const double t = temperature.in_celsius();
    if (!(t >= 0.0 && t <= 40.0))
        return fail(ErrorKind::outside_model, "temperature",
                    text_of(temperature) + " is outside 0 to 40 °C, to where the fading of bitterness is carried.");
    if (!(years >= 0.0 && years <= 30.0))
        return fail(ErrorKind::outside_model, "age", number_text(years, 1) + " years is outside 0 to 30 years.");
    const double at_20 = years * std::pow(k_times_in_ten_kelvin, (t - 20.0) / 10.0);
    const double cis = (1.0 - k_trans_share) * std::exp2(-at_20 / k_cis_half_life_years);
    return Fading{cis + k_trans_share * std::exp2(-at_20 / k_trans_half_life_years),
                  cis + k_trans_share * trans_left_by_days(at_20 * k_days_a_year)};
}

}  // namespace undercroft::chem
