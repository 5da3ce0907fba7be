// How much of an acid or a carbonate brings a liquid to a pH or a titratable acidity.
//
// Holds: the answer is checked by solving the dosed liquid again; what cannot be reached within 50 g/L is refused, with
// how far it gets. Grams are of the product as bought.
// Leaves out: the litre grows by the product (below 1 % for the doses of a cellar); calcium that settles as tartrate or
// oxalate; how fast a carbonate works, and the foam: its CO2 is counted as gone.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "base/result.hpp"
#include "chem/acid_mix.hpp"

namespace undercroft::chem {

enum class Doser : std::uint8_t {
    lactic_acid,
    acetic_acid,
    malic_acid,
    citric_acid,  // anhydrous
    citric_acid_monohydrate,
    tartaric_acid,
    succinic_acid,
    phosphoric_acid,
    calcium_carbonate,
    potassium_carbonate,
    potassium_bicarbonate,
    sodium_bicarbonate,
};
inline constexpr std::size_t k_dosers = 12;

struct DoserFacts {
    std::string_view name;
    std::optional<Acid> acid;  // nothing: a carbonate
    double g_per_mol = 0.0;    // of the pure product
    double charge = 0.0;       // mol of strong ions per mol
    double extra_salt = 0.0;   // ionic strength its ions add beyond that of single charges
    double co2 = 0.0;          // mol per mol
    double usual_purity = 1.0;
};
[[nodiscard]] const DoserFacts& facts_of(Doser doser);

// `g_per_l` of the product stirred in.
[[nodiscard]] AcidMix dosed(const AcidMix& mix, Doser doser, double purity, double g_per_l);

struct DoseTarget {
    enum class Of : std::uint8_t { ph, ta } of = Of::ph;
    double value = 0.0;  // pH, or mol/L
    double ta_end = k_ta_end_beer;
};

struct Dose {
    double g_per_l = 0.0;
    double grams = 0.0;
    double co2_g_per_l = 0.0;  // that leaves as gas
    AcidMix after;
    double ph_before = 0.0;
    double ph_after = 0.0;
    double ta_before = 0.0;  // mol/L to DoseTarget::ta_end
    double ta_after = 0.0;
};
inline constexpr double k_most_dose_g_per_l = 50.0;

// Fails: bad_input for a purity not above 0 and at most 1, a volume not above 0, or a target on the wrong side for this
// doser; outside_model when it is out of reach or the mix is outside the acid system.
[[nodiscard]] Result<Dose> dose_for(const AcidSystem& system, const AcidMix& mix, double litres, Doser doser,
                                    double purity, const DoseTarget& target);

}  // namespace undercroft::chem
