#include "chem/ethanol_water.hpp"

#include <array>
#include <cstddef>

#include "chem/root.hpp"

namespace undercroft::chem {

namespace {

// Coefficients of the general formula of OIML R22 (1975), also the annex of Directive 76/766/EEC:
// density = sum A_k p^(k-1) + sum B_k d^k + sum C_ik p^k d^i, with p the mass fraction and d = t - 20 °C.
// A1 to A4 and B1 to B4 were read in the Directive; the others are from memory, and stand on their agreement with an
// independent density table (tests/published/ethanol_water_test.cpp).
constexpr std::array<double, 12> k_a{998.20123,   -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
                                     306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426};
constexpr std::array<double, 6> k_b{-0.20618513,    -0.0052682542, 3.6130013e-05,
                                    -3.8957702e-07, 7.169354e-09,  -9.9739231e-11};
constexpr std::array<double, 11> k_c1{0.1693443461530087, -10.46914743455169, 71.96353469546523, -704.7478054272792,
                                      3924.090430035045,  -12101.64659068747, 22486.46550400788, -26055.62982188164,
                                      18522.73922069467,  -7420.201433430137, 1285.617841998974};
constexpr std::array<double, 10> k_c2{-0.0119301300505701, 0.2517399633803461, -2.170575700536993, 13.53034988843029,
                                      -50.29988758547014,  109.635566657757,   -142.2753946421155, 108.043594285623,
                                      -44.14153236817392,  7.442971530188783};
constexpr std::array<double, 9> k_c3{-0.0006802995733503803, 0.01876837790289664, -0.2002561813734156,
                                     1.02299296671922,       -2.895696483903638,  4.810060584300675,
                                     -4.672147440794683,     2.458043105903461,   -0.5411227621436812};
constexpr std::array<double, 4> k_c4{4.075376675622027e-06, -8.76305857347111e-06, 6.515031360099368e-06,
                                     -1.51578483698721e-06};
constexpr std::array<double, 2> k_c5{-2.788074354782409e-08, 1.345612883493354e-08};

// c_1 x + c_2 x^2 + ...
template <std::size_t N>
double without_constant(const std::array<double, N>& coefficients, double x) {
    double sum = 0.0;
    for (std::size_t k = N; k-- > 0;) sum = (sum + coefficients[k]) * x;
    return sum;
}

double density_at_20(double p) {
    double sum = 0.0;
    for (std::size_t k = k_a.size(); k-- > 0;) sum = sum * p + k_a[k];
    return sum;
}

}  // namespace

double ethanol_water_density(double mass_fraction, Temperature temperature) {
    const double p = mass_fraction;
    const double d = temperature.in_celsius() - 20.0;
    const std::array<double, 5> mixed{without_constant(k_c1, p), without_constant(k_c2, p), without_constant(k_c3, p),
                                      without_constant(k_c4, p), without_constant(k_c5, p)};
    return density_at_20(p) + without_constant(k_b, d) + without_constant(mixed, d);
}

double percent_volume_of_percent_mass(double percent_mass) {
    return percent_mass * density_at_20(percent_mass / 100.0) / density_at_20(1.0);
}

double percent_mass_of_percent_volume(double percent_volume) {
    return bracketed_root([&](double mass) { return percent_volume_of_percent_mass(mass) - percent_volume; }, 0.0,
                          100.0);
}

}  // namespace undercroft::chem
