// What is acid, salt and buffer in a liquid, and what follows: pH, titratable acidity, sourness, blends.
//
// Amounts are mol per litre of liquid. Everything in an AcidMix mixes by volume; pH does not. A weak acid stands
// among the acids, never among the strong ions: there it would count as fully charged at every pH.
// The *basis* of every pH here is AcidConditions: the temperature, and the activity of H+ by Davies unless it says
// `Activity::none` (pH as -log10 of the concentration, pK uncorrected). The two part by 0.05 to 0.07 in beer.
// Holds: one pH for every mix (chem/charge_balance.hpp); a blend lies between the pH of its parts; more of an acid
// never raises the pH, and no part of this returns a number that has not converged.
// Leaves out: 0 to 40 °C and 15 % vol are the range of the constants; solids (tartrate or oxalate that settles).
#pragma once

#include <array>
#include <span>
#include <string>

#include "base/result.hpp"
#include "chem/acid.hpp"
#include "chem/charge_balance.hpp"

namespace undercroft::chem {

// Buffer of wort and beer that is none of the named acids (peptides, amino acids, polyphenols), lumped in two parts:
// `low` works below pH 5 (half its groups with pK 3.8, half 4.9), `high` from 5 to 8.2 (pK 6.6). mol/L of groups that
// give one proton each. The pKs are as read: not corrected for salt, alcohol or temperature.
// All-malt wort of SG 1.0484 holds about 36 and 4 mmol/L: adjusted to soured worts (see docs/chemistry.md), good to
// 25 %. No published figure for finished beer was found: infer it from a pH and a TA (chem/acid_inverse.hpp).
struct LumpedBuffer {
    double low = 0.0;
    double high = 0.0;
    friend bool operator==(const LumpedBuffer&, const LumpedBuffer&) = default;
};
inline constexpr LumpedBuffer k_wort_buffer{0.036, 0.004};
// Mean mol/L of base for one pH from 3 to 5, and from 5 to 8.2.
struct BufferCapacities {
    double from_3_to_5 = 0.0;
    double from_5_to_8_2 = 0.0;
};
[[nodiscard]] BufferCapacities capacities_of(const LumpedBuffer& buffer);

struct AcidMix {
    std::array<double, k_acids> acids{};  // mol/L, all forms of it
    LumpedBuffer buffer;
    double strong_ions = 0.0;  // mol/L of charge: K+, Na+, 2 Ca++ ... less Cl-, 2 SO4-- ...
    double inert_salt = 0.0;   // mol/L that only adds to the ionic strength
    double abv = 0.0;          // % vol

    [[nodiscard]] double& operator[](Acid acid) { return acids[static_cast<std::size_t>(acid)]; }
    [[nodiscard]] double operator[](Acid acid) const { return acids[static_cast<std::size_t>(acid)]; }
    [[nodiscard]] double g_per_l(Acid acid) const { return (*this)[acid] * constants_of(acid).g_per_mol; }
    void set_g_per_l(Acid acid, double grams) { (*this)[acid] = grams / constants_of(acid).g_per_mol; }
    friend bool operator==(const AcidMix&, const AcidMix&) = default;
};

struct AcidConditions {
    Temperature temperature = Temperature::from_celsius(20.0);
    Activity activity = Activity::davies;
};
// "pH at 20 °C, activity of H+ by Davies"
[[nodiscard]] std::string basis_text(const AcidConditions& conditions);

struct AcidState {
    double ph = 0.0;
    double h_mol_per_l = 0.0;  // concentration
    double ionic_strength = 0.0;
    double capacity = 0.0;                        // mol/L of base per pH, as a titration shows it
    std::array<double, k_acids> undissociated{};  // share of each that holds all its protons, 0 to 1
    std::array<double, k_acids> protonated{};     // share that holds at least one
    double sourness = 0.0;                        // mol/L, see below
};

// TA end points.
inline constexpr double k_ta_end_beer = 8.2;  // AOAC 950.07, ASBC Beer-8
inline constexpr double k_ta_end_wine = 7.0;  // OIV practice (from memory)

// The equations for one temperature, made once and asked often.
class AcidSystem {
public:
    explicit AcidSystem(const AcidConditions& conditions = {});

    // All of these fail with outside_model outside 0 to 40 °C or 15 % vol, above an ionic strength of 0.5 mol/L or
    // where the pH would leave 0 to 14; with bad_input for an amount below zero or not finite.
    [[nodiscard]] Result<AcidState> state(const AcidMix& mix) const;
    [[nodiscard]] Result<double> ph(const AcidMix& mix) const;
    // mol/L of base that brings it to `end_ph`, with its CO2 driven off first; negative when it begins above. The base
    // counts in the ionic strength; the liquid is not thinned. Times 90.078: g/L as lactic acid.
    [[nodiscard]] Result<double> titratable(const AcidMix& mix, double end_ph = k_ta_end_beer) const;
    // The same mix with the strong ions that give it that pH.
    [[nodiscard]] Result<AcidMix> with_ph(const AcidMix& mix, double ph) const;
    // mol/L the strong ions would have to change by to bring the mix to that pH.
    [[nodiscard]] Result<double> strong_ions_to_ph(const AcidMix& mix, double ph) const;

    // pH of each; NaN where ph() would fail. Gives how many failed. Some 10 to 200 times faster than one by one.
    std::size_t ph_of_many(std::span<const AcidMix> mixes, std::span<double> ph, Lanes lanes = Lanes::automatic) const;

    // The linear form for blending: the net charge a litre would carry at that pH, mol/L. A blend has that pH where the
    // sum of charge * volume is zero, and lies below it where the sum is negative. Exact when `ionic_strength` and
    // `abv` are those of the blend; with the mean of the parts' own it is within 0.04 pH in beer.
    struct BlendPoint {
        double ph = 3.5;
        double ionic_strength = 0.03;
        double abv = 6.0;
    };
    [[nodiscard]] double charge(const AcidMix& mix, const BlendPoint& at) const;

    [[nodiscard]] const AcidConditions& conditions() const { return m_conditions; }

private:
    AcidConditions m_conditions;
    ChargeBalance m_balance;
};

struct BlendPart {
    AcidMix mix;
    double litres = 0.0;
};
// Fails: bad_input for a volume below zero or nothing at all.
[[nodiscard]] Result<AcidMix> blend(std::span<const BlendPart> parts);

// What fruit brings, as acids and potassium; mol per litre of what `litres` says. The potassium is a strong ion, the
// acids are not.
struct FruitAcids {
    double citric_g = 0.0;
    double malic_g = 0.0;
    double tartaric_g = 0.0;
    double potassium_g = 0.0;
};
[[nodiscard]] AcidMix mix_of(const FruitAcids& fruit, double litres);

// Dry hops take up acid: mol of strong ions per gram, from a rise of 0.036 pH per g/L near pH 4.2 (Maye, Smith & Leker
// 2016, MBAA Tech. Q.) in beer of the lumped buffer. Later work found two thirds of it. A base, so a
// sour beer rises less.
inline constexpr double k_hop_base_per_g = 5.2e-4;

// Sourness index, mol/L: [H+] and every molecule of an organic acid that holds at least one proton. Sour intensity
// rises linearly with it (Da Conceicao Neta et al. 2007, J. Food Sci. 72:S352); stands beside pH and TA, never instead.
// In AcidState::sourness.

}  // namespace undercroft::chem
