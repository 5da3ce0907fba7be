// Ways to finish a beer, and what each moves of what is tasted (data/techniques.csv, effects.csv, interactions.csv).
//
// Holds: dose_low <= dose_mid <= dose_high, and days likewise; every effect belongs to a technique of the table.
// `mean_total` is the whole change; `mean_beyond` is what is left when a change of `chem_quantity` of the attribute
// is counted by itself: one or the other, never both. Leaves out: what a keeper's own tastings say.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

enum class TechniqueKind {
    leave,
    time,
    rest,
    blend,
    fruit,
    spice,
    oak,
    dry_hop,
    acid,
    base,
    sweeten,
    dilute,
    carbonate,
    rescue,
};
[[nodiscard]] const char* word(TechniqueKind kind);

enum class FruitWay { none, pre_fermented, onto_beer };
enum class AppliesTo { sour, clean, both };
enum class TechniqueDose { none, g_per_l, percent, volumes, days, weeks, months };
enum class BackToSolera { yes, ask, no };

struct Technique {
    std::string id;    // "fruit_sour_cherry"; of fruit there are two rows, one a way
    std::string name;  // "Sour cherry, straight onto the beer"
    TechniqueKind kind = TechniqueKind::leave;
    FruitWay way = FruitWay::none;
    AppliesTo applies_to = AppliesTo::both;
    std::string data_row;  // id in data/fruit.csv or flavourings.csv; may be empty
    TechniqueDose dose_unit = TechniqueDose::none;
    double dose_low = 0.0;
    double dose_mid = 0.0;
    double dose_high = 0.0;
    double days_low = 0.0;  // of contact
    double days_typical = 0.0;
    double days_high = 0.0;
    bool reversible = false;
    bool adds_fermentables = false;
    bool restarts_watch = false;
    std::string culture_after;
    BackToSolera back = BackToSolera::no;
    std::optional<double> first_taste_days;
    std::optional<double> latest_out_days;
    std::string caution;
    char mark = 'P';
    std::string source;
};

enum class DoseForm { none, linear, saturating };
enum class TimeForm { none, immediate, first_order };

struct Effect {
    std::string technique;
    FruitWay way = FruitWay::none;
    std::string attribute;
    AppliesTo applies_to = AppliesTo::both;
    double dose_mid = 0.0;
    double mean_total = 0.0;  // points at dose_mid after full time; of age and rests at the stated middle time
    double sd_total = 0.0;
    double mean_beyond = 0.0;
    double sd_beyond = 0.0;
    DoseForm dose_form = DoseForm::none;
    double half_dose = 0.0;  // of a saturating one
    TimeForm time_form = TimeForm::none;
    double t90_days = 0.0;   // of a first-order one
    std::string depends_on;  // "titratable_acidity", "bitterness_IBU", "oxygen_ingress"; empty: on nothing
    double depends_ref = 0.0;
    double depends_slope = 0.0;  // points for each unit above depends_ref, at dose_mid
    std::string words;
    char mark = 'P';
    std::string source;
};

// change = points_per_unit x (value - threshold) on the stated side, between before and after.
struct Interaction {
    std::string id;
    std::string when;  // attribute, "titratable_acidity", or "any_added_aroma"
    double threshold = 0.0;
    bool above = true;
    std::vector<std::string> changes;  // attributes
    double points_per_unit = 0.0;
    double sd = 0.0;
    std::string only_when;  // attribute, or "skins" (fruit with its skin went in); empty: always
    double only_when_at_least = 0.0;
    std::string words;
    char mark = 'P';
    std::string source;
};

// Id, name, or the words of the name before its comma with "pre" or "onto" for fruit; not_found names the nearest.
[[nodiscard]] Result<const Technique*> find_technique(const std::vector<Technique>& all, std::string_view wanted);

[[nodiscard]] Result<std::vector<Technique>> parse_techniques(std::string_view csv, std::string file);
// Fails also for an effect of a technique that is not in `techniques`.
[[nodiscard]] Result<std::vector<Effect>> parse_effects(std::string_view csv, std::string file,
                                                        const std::vector<Technique>& techniques);
[[nodiscard]] Result<std::vector<Interaction>> parse_interactions(std::string_view csv, std::string file);

}  // namespace undercroft::tables
