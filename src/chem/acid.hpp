// The acids of beer, fruit and cellar: how strong each is, from 0 to 40 °C and with alcohol.
//
// pK at no ionic strength. Temperature: Goldberg, Kishore & Lennen 2002 (J. Phys. Chem. Ref. Data 31:231), with
// their enthalpies and heat capacities from memory, which bring back the standard buffers of 0 to 35 °C
// (tests/published/buffer_test.cpp); lactic by Martin & Tartar. Alcohol raises every pK by 0.014 a % vol, the
// mean of lactic and succinic acid at 12 % vol (Prenesti et al. 2012, Sci. World J. 249041); applied to all of them.
// Leaves out: malic acid's temperature (nobody's figures were at hand; its kin move by 0.03 from 5 to 25 °C).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "units/temperature.hpp"

namespace undercroft::chem {

enum class Acid : std::uint8_t {
    lactic,
    acetic,
    malic,
    citric,
    tartaric,
    succinic,
    phosphoric,
    carbonic,    // dissolved CO2
    sulphurous,  // dissolved SO2
};
inline constexpr std::size_t k_acids = 9;
inline constexpr std::array<Acid, k_acids> k_all_acids{Acid::lactic,     Acid::acetic,   Acid::malic,
                                                       Acid::citric,     Acid::tartaric, Acid::succinic,
                                                       Acid::phosphoric, Acid::carbonic, Acid::sulphurous};

struct AcidConstants {
    std::string_view name;
    int protons = 1;
    double g_per_mol = 0.0;
    bool organic = true;  // counts for the taste of sourness
    std::array<double, 3> pk_25{};
    std::array<double, 3> enthalpy{};       // kJ/mol
    std::array<double, 3> heat_capacity{};  // J/(mol K)
    std::string_view source;
};
[[nodiscard]] const AcidConstants& constants_of(Acid acid);

// pK of a step (1 to protons), in water. 0 to 40 °C.
[[nodiscard]] double pk_of(Acid acid, int step, Temperature temperature);
// Goldberg's form: pK(T) = pK - [dH (1/t - 1/T) + dCp (t/T - 1 + ln(T/t))]/(R ln 10) with t = 298.15 K.
[[nodiscard]] double pk_at(double pk_25, double enthalpy_kj, double heat_capacity_j, Temperature temperature);

inline constexpr double k_pk_per_abv = 0.014;

}  // namespace undercroft::chem
