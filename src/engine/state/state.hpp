// What is in each liquid besides its origins: gravity, alcohol, acidity, bitterness, with spread and provenance.
//
// A forward filter over the ledger: liquid that moves takes a snapshot of its numbers with it, and a reading
// changes only the vessel it was taken in, from then on. A gravity reading moves extract and alcohol along
// Balling's line of fermentation, so alcohol follows without being measured.
// Holds: what mixes by volume is mixed by volume (extract, ethanol, TA, IBU, colour). pH is not averaged: the
// pH of a blend lies between those of its parts, and that is all that is said until it is read. Spreads of the
// parts of a blend are added as if their errors went together: an upper bound, which two halves re-joined keep.
// Leaves out: what happens in a vessel between readings (kinetics), loss of bitterness with age, acid balance.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "chem/alcohol.hpp"
#include "engine/state/estimate.hpp"
#include "engine/state/stock.hpp"
#include "ledger/replay.hpp"

namespace undercroft::engine {

struct GravityReading {
    Instant at;
    double gravity = 1.0;  // SG at 20 °C
    double sd = 0.0005;
    std::optional<double> celsius;  // of the vessel, when read with it
    friend bool operator==(const GravityReading&, const GravityReading&) = default;
};

struct LiquidState {
    Volume volume;
    std::optional<chem::Composition> composition;  // nothing for an empty vessel
    double gravity_sd = 0.0;
    double alcohol_sd = 0.0;  // % vol
    Provenance gravity_provenance = Provenance::assumed;
    Provenance alcohol_provenance = Provenance::assumed;
    std::optional<Instant> gravity_read_at;
    std::string gravity_why;
    std::string alcohol_why;
    // Of its worts, by volume, for the reach of a culture; fruit and sugar count as water here, since their sugar
    // is counted apart. A strong wort must not hide what a weak one leaves to ferment.
    double original_gravity = 1.0;

    struct PhRange {  // after mixing: the pH lies between the two
        double low = 0.0;
        double high = 0.0;
        double sd = 0.0;  // of either end
        Provenance provenance = Provenance::stated;
        std::optional<Instant> read_at;
        friend bool operator==(const PhRange&, const PhRange&) = default;
    };
    std::optional<PhRange> ph;
    std::optional<Estimate> ta;  // g/L as lactic acid, to pH 8.2
    std::optional<Estimate> ibu;
    std::optional<Estimate> colour_ebc;

    // Upper bounds that gas can come from, g/L.
    double malic_g_per_l = 0.0;
    double citric_g_per_l = 0.0;
    double sorbitol_g_per_l = 0.0;
    double fruit_sugar_g_per_l = 0.0;  // hexose added with fruit or sugar and not yet shown fermented

    // Since the last thing that restarts a watch: beer in, fruit, sugar, hops, a culture.
    std::vector<GravityReading> watch;
    // Of how long an old Saccharomyces had nothing to eat (alive.hpp).
    std::optional<Instant> acid_since;  // pH read below 3.4 and not above since
    struct Starved {
        Instant from;
        Instant to;
        double attenuation = 0.0;  // apparent, that it had come to: kinds that reach no further starved
        friend bool operator==(const Starved&, const Starved&) = default;
    };
    std::vector<Starved> starved;                 // earlier times of at least a year
    std::vector<double> temperatures_c;           // read in that time, of a logger the coldest and the warmest
    std::optional<double> dissolved_co2_g_per_l;  // measured in that time
    // When that time began, or it came into this vessel, whichever was later: what a logger in it wrote before is
    // about another liquid.
    std::optional<Instant> here_since;

    friend bool operator==(const LiquidState&, const LiquidState&) = default;

    // The two that most questions need. Only for a liquid with a composition.
    [[nodiscard]] std::optional<Estimate> gravity() const;
    [[nodiscard]] std::optional<Estimate> alcohol() const;
    [[nodiscard]] std::optional<Estimate> ph_estimate() const;
};

// By the indices of Cellar::vessels and Cellar::runs.
struct StateBook {
    std::vector<LiquidState> vessels;
    std::vector<LiquidState> runs;
    std::vector<Stock> stock;  // by the indices of Cellar::vessels

    // How far it has come, for follow().
    std::size_t entries_seen = 0;
    std::size_t flows_seen = 0;
    std::size_t arrivals_seen = 0;
    std::vector<bool> unclean;  // vessels that stand empty with something that may live in them
};

[[nodiscard]] StateBook states_of(const ledger::Cellar& cellar);
// Takes in what a cellar has beyond what `states` has seen of it: followed in two parts it is what states_of()
// gives in one.
void follow(StateBook& states, const ledger::Cellar& cellar);

// What was measured, in its own unit, with what its instrument is off by; as read where it was not calibrated.
[[nodiscard]] double calibrated(const ledger::Measured& measured, const ledger::Calibrate* calibration);
// A written gravity as SG at 20 °C: calibrated, then corrected for the temperature it was read at when that is known.
[[nodiscard]] double gravity_of_reading(const ledger::Measured& measured, const std::optional<Decimal>& read_at_c,
                                        const ledger::Calibrate* calibration);
// One standard deviation of a reading as written; 0 for what nobody reckons with.
[[nodiscard]] double sd_of_reading(const ledger::Measured& measured);

}  // namespace undercroft::engine
