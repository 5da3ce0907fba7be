// Bitterness: what the kettle makes of alpha acids, what a blend keeps, and how it fades in years.
//
// Bitterness is counted in mg/L of iso-alpha acids, near enough to IBU for kettle hops.
// Leaves out: aged and oxidised hops, whose bitterness is not iso-alpha acid; humulinones of dry hops; what yeast and
// trub take, but for the recovery factor.
#pragma once

#include <span>

#include "base/result.hpp"
#include "units/temperature.hpp"

namespace undercroft::chem {

// Share of the alpha acids that are iso-alpha acids after so many minutes at that temperature: formed with
// k1 = 7.9e11 exp(-11858/T), lost with k2 = 4.1e12 exp(-12994/T) a minute; Malowicki & Shellhammer 2005, J. Agric. Food
// Chem. 53:4434, pH 5.2. Fails: outside_model outside 90 to 130 °C; bad_input for a negative time.
[[nodiscard]] Result<double> isomerised_share(Temperature temperature, double minutes);

// Of that, what reaches the beer: 0.5 to 0.7 (from memory, by brewery), less in strong wort.
struct KettleRecovery {
    double low = 0.5;
    double usual = 0.6;
    double high = 0.7;
};

struct HopDose {
    double grams = 0.0;
    double alpha_percent = 0.0;  // by mass
    double minutes = 0.0;        // at `temperature`
    Temperature temperature = Temperature::from_celsius(100.0);
};
struct Bitterness {
    double low = 0.0;
    double usual = 0.0;
    double high = 0.0;  // mg/L
};
[[nodiscard]] Result<Bitterness> bitterness_of(std::span<const HopDose> hops, double litres,
                                               const KettleRecovery& recovery = {});

// What is left of iso-alpha acids after some years in bottle or vessel, as a share, from two published sets of rates
// that do not agree:
//   by half-lives: 68 % cis with 5 years, 32 % trans with 1 year (De Keukeleire 2000, De Cooman et al. 2000, J. Inst.
//     Brew. 106:169); these are given as "more than 5" and "below 1", at room temperature.
//   by days at 20 °C: of trans 10, 25, 35, 45 % lost after 20, 50, 100, 200 days (Araki et al. 2002, J. ASBC 60:26,
//     secondary reproduction), quicker at first; beyond 200 days with the half-life of 1 year. cis as above.
// Trans goes 3 times as fast at 30 as at 20 °C (Araki), so 1.116 times for each kelvin; cis is taken alike.
// 0 to 40 °C, 0 to 30 years. Fails: outside_model outside.
struct Fading {
    double by_half_lives = 1.0;
    double by_days = 1.0;
};
[[nodiscard]] Result<Fading> bitterness_left(double years, Temperature temperature);

inline constexpr double k_trans_share = 0.32;
inline constexpr double k_trans_half_life_years = 1.0;
inline constexpr double k_cis_half_life_years = 5.0;

}  // namespace undercroft::chem
