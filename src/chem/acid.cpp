#include "chem/acid.hpp"

#include <cmath>

namespace undercroft::chem {

namespace {

constexpr std::string_view k_goldberg = "Goldberg, Kishore & Lennen 2002, J. Phys. Chem. Ref. Data 31:231";
constexpr std::string_view k_eden_bates = "Eden & Bates 1959, J. Res. NBS 62:161, from memory";

// pK confirmed for lactic, acetic, carbonic, phosphoric (first), citric, succinic; the others, and all enthalpies and
// heat capacities, from memory.
constexpr std::array<AcidConstants, k_acids> k_constants{{
    {"lactic", 1, 90.078, true, {3.858}, {-0.33}, {-170.0}, "Martin & Tartar 1937, J. Am. Chem. Soc. 59:2672"},
    {"acetic", 1, 60.052, true, {4.756}, {-0.41}, {-142.0}, k_goldberg},
    {"malic", 2, 134.087, true, {3.459, 5.097}, {}, {}, k_eden_bates},
    {"citric", 3, 192.124, true, {3.128, 4.761, 6.396}, {4.07, 2.23, -3.38}, {-131.0, -178.0, -254.0}, k_goldberg},
    {"tartaric", 2, 150.087, true, {3.036, 4.366}, {3.19, 0.93}, {-147.0, -218.0}, k_goldberg},
    {"succinic", 2, 118.088, true, {4.207, 5.636}, {3.0, -0.5}, {-121.0, -217.0}, k_goldberg},
    {"phosphoric", 3, 97.994, false, {2.148, 7.198, 12.35}, {-8.0, 3.6, 16.0}, {-141.0, -230.0, -242.0}, k_goldberg},
    {"carbonic", 2, 44.009, false, {6.351, 10.329}, {9.15, 14.7}, {-371.0, -249.0}, k_goldberg},
    {"sulphurous", 2, 64.064, false, {1.857, 7.172}, {-17.8, -3.65}, {-272.0, -262.0}, k_goldberg},
}};

}  // namespace

const AcidConstants& constants_of(Acid acid) {
    return k_constants[static_cast<std::size_t>(acid)];
}

double pk_at(double pk_25, double enthalpy_kj, double heat_capacity_j, Temperature temperature) {
    constexpr double k_reference = 298.15;          // K
    constexpr double k_gas_constant = 8.314462618;  // J/(mol K)
    constexpr double k_ln10 = 2.302585092994046;
    const double kelvin = temperature.in_kelvin();
    const double by_heat = 1000.0 * enthalpy_kj * (1.0 / k_reference - 1.0 / kelvin);
    const double by_capacity = heat_capacity_j * (k_reference / kelvin - 1.0 + std::log(kelvin / k_reference));
    return pk_25 - (by_heat + by_capacity) / (k_gas_constant * k_ln10);
}

double pk_of(Acid acid, int step, Temperature temperature) {
    if (acid == Acid::lactic) {
        const double from_best = temperature.in_celsius() - 22.5;
        return 3.857 + 5e-5 * from_best * from_best;
    }
    const AcidConstants& constants = constants_of(acid);
    const auto at = static_cast<std::size_t>(step - 1);
    return pk_at(constants.pk_25[at], constants.enthalpy[at], constants.heat_capacity[at], temperature);
}

}  // namespace undercroft::chem
