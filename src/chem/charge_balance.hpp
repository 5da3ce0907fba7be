// The charge balance of a liquid: which pH lets the charges of all its acids and salts add up to nothing.
//
//     strong ions + [H+] - [OH-] - sum over acids of c * (mean number of protons given) = 0
//
// "Strong ions" is the charge of everything that is never protonated: K+, Na+, 2 Ca++ ... less Cl-, 2 SO4-- ...,
// in mol of charge per litre. Amounts are mol per litre and are taken as mol per kg of water in the activity law.
// Activities by Davies: log10 g = -A z^2 (sqrt(I)/(1 + sqrt(I)) - 0.3 I), used up to I = 0.5 mol/L; pH is -log10 of
// the activity of H+. Without activities, pH is -log10 [H+] and every pK is taken as it stands.
// Holds: the sum rises with pH wherever I is below 0.39 mol/L (there Davies turns), and is found rising to 0.5
// (tests/properties); so there is one pH, it is bracketed, and no number comes back that has not converged.
// Leaves out: ion pairs and complexes (calcium with citrate), ions of more than one charge in the strong ions.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>

#include "base/result.hpp"
#include "chem/charge_balance_task.hpp"
#include "units/temperature.hpp"

namespace undercroft::chem {

inline constexpr std::size_t k_most_protolytes = 18;
inline constexpr double k_highest_ionic_strength = 0.5;  // mol/L, where Davies ends

// An acid that gives 1 to 3 protons and begins without charge.
struct Protolyte {
    int steps = 1;
    std::array<double, 3> pk{};
    // thermodynamic: at no ionic strength, corrected by Davies. as_read: holds on the pH scale as it is (a lump).
    enum class Basis : std::uint8_t { thermodynamic, as_read } basis = Basis::thermodynamic;
};

enum class Activity : std::uint8_t { davies, none };

// What the liquid is made of, as far as it matters here.
struct Medium {
    double pkw = 14.0;
    double davies_a = 0.0;  // 0: no activities
};
// pKw = 4470.99/T - 6.0875 + 0.01706 T (from memory; within 0.007 of Marshall & Franck 1981 to 25 °C and 0.014 at
// 50), A from the permittivity of Malmberg & Maryott 1956. 0 to 50 °C.
[[nodiscard]] Medium water_at(Temperature temperature, Activity activity = Activity::davies);
[[nodiscard]] double davies_log10_gamma(double davies_a, double ionic_strength);  // of an ion of one charge

// Amounts of one liquid; `totals` in the order of the protolytes.
struct Amounts {
    std::span<const double> totals;  // mol/L, all forms together
    double strong_ions = 0.0;        // mol/L of charge; negative with mineral acid
    double inert_salt = 0.0;         // mol/L that only adds to the ionic strength
    double pk_shift = 0.0;           // added to every thermodynamic pK (ethanol), 0 to 0.3
};

struct Balance {
    double ph = 0.0;
    double h_mol_per_l = 0.0;  // concentration, not activity
    double ionic_strength = 0.0;
    double gamma = 1.0;        // activity coefficient of an ion of one charge
    double strong_ions = 0.0;  // what makes the sum zero at this pH
};

// Columns of many liquids, all of `count`: totals[p][i] is protolyte p of liquid i; null is none of it.
struct AmountColumns {
    std::array<const double*, k_most_protolytes> totals{};
    const double* strong_ions = nullptr;
    const double* inert_salt = nullptr;  // may be null: none
    const double* pk_shift = nullptr;    // may be null: none
    std::size_t count = 0;
};

// Which code solves many at once. `automatic` is the widest this machine has; the answers are the same to the bit.
enum class Lanes : std::uint8_t { automatic, one, two, four, eight };
[[nodiscard]] bool has_lanes(Lanes lanes);

class ChargeBalance {
public:
    // At most k_most_protolytes.
    ChargeBalance(std::span<const Protolyte> protolytes, Medium medium);

    // Fails: bad_input for an amount that is negative or not finite; outside_model where the pH would lie outside
    // 0 to 14 or the ionic strength above 0.5 mol/L.
    [[nodiscard]] Result<Balance> solve(const Amounts& amounts) const;
    [[nodiscard]] Result<double> ph(const Amounts& amounts) const;  // nothing but the pH, sooner
    // The liquid brought to that pH by strong ions: `strong_ions` of the answer says how many it then holds in all,
    // those of `amounts` are not looked at. Fails: outside_model above an ionic strength of 0.5 mol/L.
    [[nodiscard]] Result<Balance> at_ph(const Amounts& amounts, double ph) const;
    // Charge of all but the strong ions at that pH and ionic strength, mol/L: linear in every amount.
    [[nodiscard]] double weak_charge(const Amounts& amounts, double ph, double ionic_strength) const;
    // Share of protolyte `index` that has given `given` protons.
    [[nodiscard]] double share(std::size_t index, int given, const Balance& at, double pk_shift = 0.0) const;

    // pH of each, NaN where ph() would fail; else the same as ph() to the bit. Gives how many failed.
    std::size_t solve_many(const AmountColumns& columns, double* ph, Lanes lanes = Lanes::automatic) const;

    [[nodiscard]] std::size_t size() const { return m_size; }

private:
    struct Sums;
    [[nodiscard]] Sums sums(const Amounts& amounts, double activity_h, double gamma) const;
    [[nodiscard]] std::optional<Balance> settle(const Amounts& amounts, double ph) const;
    [[nodiscard]] std::optional<double> bracketed(const Amounts& amounts) const;

    BalanceModel m_model{};
    std::array<std::size_t, k_most_protolytes> m_place{};  // where each protolyte stands in the model
    std::size_t m_size = 0;
    double m_davies_a = 0.0;
};

}  // namespace undercroft::chem
