// What the fruit does to a beer, in both ways of meeting it: fermented first on its own yeast, or straight onto the
// beer. Strength, gravity, volume, vessel, gas if closed too early, and the dates.
//
// Holds: both ways end with the same ethanol, extract and volume, since the same sugar ferments and the same pulp is
// left; they differ in vessels, in dates and in which liquid works. Volumes follow the book: beer plus what the fruit
// brings, and fermentation changes none.
// Leaves out: pH; what the beer's own extract still ferments; taste; losses other than the pulp's hold-up.
#pragma once

#include <string>
#include <vector>

#include "base/instant.hpp"
#include "base/result.hpp"
#include "engine/fruit/fruit.hpp"
#include "tables/tables.hpp"
#include "units/volume.hpp"

namespace undercroft::engine::fruit {

enum class Way { pre_fermented, onto_beer };
[[nodiscard]] const char* word(Way way);   // "pre_fermented", "onto_beer"
[[nodiscard]] const char* title(Way way);  // in words

struct Beer {
    Volume volume;
    double gravity = 1.0;  // SG now
    double abv = 0.0;      // % vol
    // All that may live in it. Empty means that nobody knows: the longest watch is planned.
    std::vector<const tables::CultureKind*> cultures;
};

struct PlannedTask {
    Day day{};         // on which it starts
    std::string task;  // id of data/tasks.csv
    std::string name;
    std::string lasts;  // "8 h", "7 days"; empty below an hour and a half
    std::string done_when;
    std::string caution;
};

struct FruitPlan {
    Way way = Way::pre_fermented;
    std::vector<Term> terms;
    double ethanol_from_fruit_g = 0.0;
    double fruit_wine_abv = 0.0;         // of the fruit on its own, fermented out
    double final_abv = 0.0;              // % vol, fruit's sugar fermented
    double final_gravity = 1.0;          // sorbitol and acids stay as extract
    Volume mixed_volume;                 // beer and what the fruit brings
    Volume final_volume;                 // after racking, the hold-up left in the pulp
    Volume least_vessel;                 // for the moment that needs most room
    double gas_if_closed_volumes = 0.0;  // CO2 of the fruit's sugar, closed up in the mixed beer
    double gas_worst_volumes = 0.0;      // with malic, citric acid and sorbitol all turned to gas as well
    double co2_g = 0.0;                  // let out while the fruit ferments
    double co2_ppm = 0.0;                // in an unaired room of 50 m3
    std::vector<PlannedTask> dates;      // in order
    std::vector<Caution> cautions;
};

inline constexpr double k_unaired_room_m3 = 50.0;

// Pull is the day the beer leaves its vessel; everything before it is worked back, everything after it follows.
// Fails: bad_input for a beer that cannot be; impossible for sorbate in the fruit with bacteria that may live in the
// beer; not_found when data/tasks.csv lacks a task.
[[nodiscard]] Result<FruitPlan> plan(const tables::Tables& tables, const FruitAddition& addition, const Beer& beer,
                                     Way way, Day pull);

// Days before the pull on which the first task starts.
[[nodiscard]] Result<int> lead_days(const tables::Tables& tables, const FruitAddition& addition, Way way);

// The stability watch that the longest-watched of the cultures needs: id of data/tasks.csv.
[[nodiscard]] std::string watch_for(const std::vector<const tables::CultureKind*>& cultures);

}  // namespace undercroft::engine::fruit
