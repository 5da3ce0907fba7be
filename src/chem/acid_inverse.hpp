// From a pH and a titratable acidity back to what is in the liquid: lactic acid, acetic acid, buffer, strong ions.
//
// Two readings cannot settle four unknowns; each unknown therefore has a prior, normal within bounds, and the answer
// is the mix that is likeliest (Gauss-Newton with Marquardt's damping), with the covariance of the linearised problem
// at it. A reading left out widens the spread; it never stops the sum. As the readings get sharper and the priors
// wider, it becomes the plain inverse: infer_acids(readings of a mix) is that mix.
// Inconsistent readings, which no mix within the bounds gives together, are answered with the nearest pair that one
// does give, and with how far each reading must then be off.
// Leaves out: that a spread ends where an amount would fall below zero; other acids, unless stated as known.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

#include "base/result.hpp"
#include "chem/acid_mix.hpp"

namespace undercroft::chem {

struct Uncertain {
    double value = 0.0;
    double sd = 0.0;
};

struct AcidReadings {
    std::optional<Uncertain> ph;
    std::optional<Uncertain> ta;      // mol/L of base to `ta_end`
    std::optional<Uncertain> acetic;  // mol/L
    double ta_end = k_ta_end_beer;
};
// A pen meter, a titration with a burette or syringe (common practice, no source).
inline constexpr double k_ph_reading_sd = 0.05;
inline constexpr double k_ta_reading_sd = 0.2 / 90.078;  // 0.2 g/L as lactic acid

// What is held likely before a reading. The defaults are for beer of an all-malt wort near SG 1.048: strong ions of
// clean finished beer (pH 4.3) by the lumped buffer, acids spread over what sour beers show (Witrick 2012, Van
// Oevelen et al. 1977: lactic 0 to 8 g/L, acetic 0 to 1.6 g/L).
struct AcidPrior {
    AcidMix known;  // other acids, alcohol and salt as they are; its buffer is the mean, its lactic and acetic unused
    double buffer_sd = 0.25;  // of the buffer, as a share
    Uncertain strong_ions{0.017, 0.010};
    Uncertain lactic{0.033, 0.067};
    Uncertain acetic{0.005, 0.008};
};
[[nodiscard]] AcidPrior usual_prior(double abv);

struct InferredAcids {
    enum Unknown : std::uint8_t { lactic, acetic, buffer, strong_ions };
    static constexpr std::size_t k_unknowns = 4;
    AcidMix mix;                                  // the likeliest
    std::array<Uncertain, k_unknowns> unknown{};  // mol/L; the buffer as a multiple of the prior's
    std::array<std::array<double, k_unknowns>, k_unknowns> covariance{};
    double ph = 0.0;  // what that mix reads
    double ta = 0.0;  // mol/L
    // likely: by the priors. unusual: only far from them. impossible: no mix gives both readings; ph and ta are the
    // nearest pair.
    enum class Fit : std::uint8_t { likely, unusual, impossible } fit = Fit::likely;
    double ph_off = 0.0;  // reading less what the mix reads, 0 without a reading
    double ta_off = 0.0;  // mol/L
};

// Bounds of the unknowns: lactic to 0.45 mol/L (40 g/L), acetic to 0.2, buffer 0.2 to 2.5 of the prior's, strong
// ions -0.02 to 0.15 mol/L.
// Fails: bad_input without a pH and without a TA, for a spread that is not above 0 or a reading that cannot be;
// outside_model as the acid system does.
[[nodiscard]] Result<InferredAcids> infer_acids(const AcidSystem& system, const AcidReadings& readings,
                                                const AcidPrior& prior);

}  // namespace undercroft::chem
