// What a gas check is asked: the beer, the watch over it, the container, and where it will be.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "chem/gas.hpp"
#include "chem/sugar.hpp"
#include "tables/tables.hpp"
#include "units/pressure.hpp"
#include "units/temperature.hpp"

namespace undercroft::engine::package {

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
    // What an air-locked jar lost on a scale: g of CO2 a litre and day at most, with 95 of 100 (weighing.hpp).
    std::optional<double> co2_most_a_day = {};
};

// The canary bottle (canary.hpp), looked at so many days after packaging: by a gauge, or by a squeeze of plastic.
inline constexpr Temperature k_canary_kept = Temperature::from_celsius(30.0);
struct CanaryReading {
    double days = 0.0;
    Temperature kept = k_canary_kept;
    std::optional<GaugePressure> gauge = {};
    std::optional<int> squeeze = {};  // 0 like an open bottle, to 5 hard as wood
};

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
    std::vector<CanaryReading> canary = {};
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

}  // namespace undercroft::engine::package
