// The first gas check: how much CO2 could come at most, what pressure that makes, and whether the container bears it.
//
// Holds: every cause is taken at its upper bound and all are added, so the answer errs towards too much. The verdict
// is never "ready": a first check can refuse, ask for evidence, or find nothing against packaging. No objection is
// raised only where the total pressure at the warmest store is at most 0.8 of the weakest limit. More sugar, more
// doubt or a warmer store never betters a verdict.
// Leaves out: what single bottles come to (gas_spread.hpp), gas lost through closures.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "chem/gas.hpp"
#include "chem/sugar.hpp"
#include "engine/state/term.hpp"
#include "tables/tables.hpp"
#include "units/pressure.hpp"
#include "units/temperature.hpp"

namespace undercroft::engine::package {

using engine::Caution;
using engine::Term;

inline constexpr double k_share_of_limit = 0.8;
inline constexpr Temperature k_given_away_store = Temperature::from_celsius(50.0);  // posted, or in a car

// A gravity with the doubt about it: one standard deviation.
struct Gravity {
    double mean = 1.0;
    double sd = 0.0005;
};

// How long the gravity was watched, since the last fruit, hop, sugar or blend.
struct Evidence {
    int readings = 0;
    double days = 0.0;                   // from first to last
    double change_sg = 0.0;              // largest less smallest
    std::optional<Temperature> coolest;  // nullopt: nobody said, so it does not count as warm
    // Since the last fruit, hop, sugar or blend; nullopt: as long as it was watched. Slow organisms wake late, so a
    // plateau younger than this culture's longest way to a stable gravity bounds nothing.
    std::optional<double> days_undisturbed = {};
    // Where a part of this beer, kept warm with its own yeast and more, came to rest. It bounds what an ordinary yeast
    // leaves; Brettanomyces, bacteria, diastatic and unknown cultures take months, so for them it proves nothing.
    std::optional<Gravity> forced = {};
};

// The watch that the possible cultures ask for: the worst of every column of data/cultures.csv.
struct EvidenceNeeded {
    int readings = 0;
    double days = 0.0;
    double days_below_15_c = 0.0;
    double resolution_sg = 0.001;
    Temperature nothing_below = Temperature::from_celsius(0.0);  // colder than this a culture sleeps: proves nothing
};
[[nodiscard]] EvidenceNeeded evidence_needed(const std::vector<const tables::CultureKind*>& cultures);

enum class Hops { none_dry, dry_hopped };
enum class Destination { own_store, given_away };
enum class Stage { before_packaging, on_the_shelf };  // only the words differ

struct GasQuestion {
    // --- the beer
    std::optional<Gravity> gravity;          // nullopt: not read, so the verdict is wait at best
    std::optional<double> original_gravity;  // SG
    std::optional<double> abv;               // % vol; nullopt: worked out from the gravities
    std::optional<double> extract_g_per_l;   // real extract; nullopt: worked out from gravity and alcohol
    // All that may live in it. Empty means that nobody knows, which counts as wild.
    std::vector<const tables::CultureKind*> cultures;
    double priming_g_per_l = 0.0;
    chem::Sugar priming_sugar = chem::Sugar::sucrose;
    double malic_g_per_l = 0.0;  // upper bounds, of all the beer
    double citric_g_per_l = 0.0;
    double sorbitol_g_per_l = 0.0;
    double fruit_sugar_g_per_l = 0.0;  // as hexose, not shown to have fermented
    Hops hops = Hops::none_dry;
    // --- the CO2 in it already: the larger of the two rules, unless measured
    Temperature warmest_since_finished = Temperature::from_celsius(20.0);
    std::optional<Temperature> coolest_while_working;
    std::optional<double> measured_co2_g_per_l;
    // --- the watch
    std::optional<Evidence> evidence;
    // --- the container
    const tables::ContainerKind* container = nullptr;  // nullptr: the keeper's own, by the fields below
    std::string container_name;                        // shown when there is no row
    std::optional<GaugePressure> makers_limit;         // the weakest of this and the row's counts
    std::optional<double> head_space;                  // share of the inside; nullopt: the row's, at least 3 %
    std::optional<chem::AirInHeadSpace> air;           // nullopt: the row's, else trapped
    // --- where it will be
    Temperature filled_at = Temperature::from_celsius(20.0);
    Temperature store = Temperature::from_celsius(25.0);  // warmest of the horizon
    Destination destination = Destination::own_store;
    Stage stage = Stage::before_packaging;
    int horizon_months = 12;
    AbsolutePressure ambient = chem::k_sea_level_pressure;
};

enum class Verdict { wait, do_not, no_objection };
[[nodiscard]] const char* word(Verdict verdict);  // "wait", "do_not", "no_objection"

struct GasCheck {
    std::string container;
    Verdict verdict = Verdict::wait;
    std::string words;                 // one sentence with horizon and store
    std::vector<std::string> reasons;  // why not better; each names the evidence that would change it
    std::vector<Term> gas;             // volumes of CO2, upper bounds; their sum is the total
    double total_volumes = 0.0;
    double total_g_per_l = 0.0;
    bool complete = true;                // false: a cause is missing (gravity not read), so the total is too low
    double lowest_gravity = 1.0;         // that any possible culture may reach
    std::vector<Term> pressure;          // bar: CO2, air, vapour, less ambient
    std::optional<GaugePressure> total;  // at the warmest store; nullopt when the head space is refused
    Temperature store = Temperature::from_celsius(25.0);
    double head_space = 0.0;
    std::optional<GaugePressure> limit;         // weakest of container and closure; nullopt: unrated
    std::optional<GaugePressure> allowed;       // 0.8 of it
    std::optional<GaugePressure> limit_needed;  // what to ask the maker for: total / 0.8
    std::vector<std::pair<Temperature, GaugePressure>> by_temperature;  // 0 to 50 °C, where it can be worked out
    std::vector<Caution> cautions;
};

// Fails: bad_input for amounts that cannot be; outside_model above 20 % vol, 200 g/L extract or 50 °C.
// What only lacks evidence is no failure: it waits.
[[nodiscard]] Result<GasCheck> first_gas_check(const GasQuestion& question, const tables::Tables& tables);

}  // namespace undercroft::engine::package
