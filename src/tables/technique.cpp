#include "tables/technique.hpp"

#include <algorithm>
#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

constexpr Range k_days_of_finish{0.0, 1000.0};
constexpr Range k_dose_of_finish{0.0, 1000.0};
constexpr Range k_points{-10.0, 10.0};
constexpr Range k_any{-1000.0, 1000.0};

Result<FruitWay> way_of(const CsvRow& row) {
    return row.word<FruitWay>(
        "variant",
        {{"", FruitWay::none}, {"pre_fermented", FruitWay::pre_fermented}, {"onto_beer", FruitWay::onto_beer}});
}

Result<AppliesTo> applies_of(const CsvRow& row) {
    return row.word<AppliesTo>("applies_to",
                               {{"sour", AppliesTo::sour}, {"clean", AppliesTo::clean}, {"both", AppliesTo::both}});
}

Result<bool> says_yes(const CsvRow& row, std::string_view column) {
    return row.word<bool>(column, {{"yes", true}, {"no", false}});
}

Result<Technique> read_technique(const CsvRow& row) {
    Technique it;
    TRY(it.id, row.id("id"));
    TRY(it.name, row.text("name"));
    using K = TechniqueKind;
    TRY(it.kind, row.word<K>("kind", {{"leave", K::leave},
                                      {"time", K::time},
                                      {"rest", K::rest},
                                      {"blend", K::blend},
                                      {"fruit", K::fruit},
                                      {"spice", K::spice},
                                      {"oak", K::oak},
                                      {"dry_hop", K::dry_hop},
                                      {"acid", K::acid},
                                      {"base", K::base},
                                      {"sweeten", K::sweeten},
                                      {"dilute", K::dilute},
                                      {"carbonate", K::carbonate},
                                      {"rescue", K::rescue}}));
    TRY(it.way, way_of(row));
    if ((it.kind == K::fruit) != (it.way != FruitWay::none))
        return row.refuse("variant", "pre_fermented or onto_beer exactly for fruit");
    TRY(it.applies_to, applies_of(row));
    TRY(it.data_row, row.text_or_empty("data_row"));
    using U = TechniqueDose;
    TRY(it.dose_unit, row.word<U>("dose_unit", {{"none", U::none},
                                                {"g/L", U::g_per_l},
                                                {"percent", U::percent},
                                                {"volumes", U::volumes},
                                                {"days", U::days},
                                                {"weeks", U::weeks},
                                                {"months", U::months}}));
    TRY(it.dose_low, row.number("dose_low", k_dose_of_finish));
    TRY(it.dose_mid, row.number("dose_mid", k_dose_of_finish));
    TRY(it.dose_high, row.number("dose_high", k_dose_of_finish));
    if (it.dose_low > it.dose_mid || it.dose_mid > it.dose_high)
        return row.refuse("dose_mid", "a dose from dose_low to dose_high");
    TRY(it.days_low, row.number("days_low", k_days_of_finish));
    TRY(it.days_typical, row.number("days_typical", k_days_of_finish));
    TRY(it.days_high, row.number("days_high", k_days_of_finish));
    if (it.days_low > it.days_typical || it.days_typical > it.days_high)
        return row.refuse("days_typical", "days from days_low to days_high");
    TRY(it.reversible, says_yes(row, "reversible"));
    TRY(it.adds_fermentables, says_yes(row, "adds_fermentables"));
    TRY(it.restarts_watch, says_yes(row, "restarts_stability_clock"));
    TRY(it.culture_after, row.text("culture_after"));
    TRY(it.back,
        row.word<BackToSolera>("may_return_to_solera",
                               {{"yes", BackToSolera::yes}, {"ask", BackToSolera::ask}, {"no", BackToSolera::no}}));
    TRY(it.first_taste_days, row.number_or_empty("first_taste_days", k_days_of_finish));
    TRY(it.latest_out_days, row.number_or_empty("latest_out_days", k_days_of_finish));
    TRY(it.caution, row.text_or_empty("caution"));
    TRY(it.mark, read_mark(row));
    TRY(it.source, row.text("source"));
    return it;
}

Result<Effect> read_effect(const CsvRow& row) {
    Effect it;
    TRY(it.technique, row.id("technique"));
    TRY(it.way, way_of(row));
    TRY(it.attribute, row.id("attribute"));
    TRY(it.applies_to, applies_of(row));
    TRY(it.dose_mid, row.number("dose_mid", k_dose_of_finish));
    TRY(it.mean_total, row.number("mean_total", k_points));
    TRY(it.sd_total, row.number("sd_total", k_points));
    TRY(it.mean_beyond, row.number("mean_beyond_chemistry", k_points));
    TRY(it.sd_beyond, row.number("sd_beyond", k_points));
    if (!(it.sd_total > 0.0)) return row.refuse("sd_total", "a spread above 0");
    TRY(it.dose_form, row.word<DoseForm>("dose_form", {{"none", DoseForm::none},
                                                       {"linear", DoseForm::linear},
                                                       {"saturating", DoseForm::saturating}}));
    TRY(const auto half, row.number_or_empty("half_dose", k_dose_of_finish));
    if ((it.dose_form == DoseForm::saturating) != (half.value_or(0.0) > 0.0))
        return row.refuse("half_dose", "a dose above 0 exactly where the form is saturating");
    it.half_dose = half.value_or(0.0);
    if (it.dose_form != DoseForm::none && !(it.dose_mid > 0.0)) return row.refuse("dose_mid", "a dose above 0");
    TRY(it.time_form, row.word<TimeForm>("time_form", {{"none", TimeForm::none},
                                                       {"immediate", TimeForm::immediate},
                                                       {"first_order", TimeForm::first_order}}));
    TRY(const auto t90, row.number_or_empty("t90_days", k_days_of_finish));
    if ((it.time_form == TimeForm::first_order) != (t90.value_or(0.0) > 0.0))
        return row.refuse("t90_days", "days above 0 exactly where the form is first_order");
    it.t90_days = t90.value_or(0.0);
    TRY(it.depends_on, row.text_or_empty("depends_on"));
    TRY(const auto ref, row.number_or_empty("depends_ref", k_any));
    TRY(const auto slope, row.number_or_empty("depends_slope", k_any));
    if (it.depends_on.empty() == ref.has_value() || it.depends_on.empty() == slope.has_value())
        return row.refuse("depends_on", "a quantity exactly where depends_ref and depends_slope are given");
    it.depends_ref = ref.value_or(0.0);
    it.depends_slope = slope.value_or(0.0);
    TRY(it.words, row.text_or_empty("direction_words"));
    TRY(it.mark, read_mark(row));
    TRY(it.source, row.text("source"));
    return it;
}

Result<Interaction> read_interaction(const CsvRow& row) {
    Interaction it;
    TRY(it.id, row.id("id"));
    TRY(it.when, row.id("when"));
    TRY(it.threshold, row.number("threshold", k_any));
    TRY(it.above, row.word<bool>("side", {{"above", true}, {"below", false}}));
    TRY(it.changes, row.list("changes", ';'));
    if (it.changes.empty()) return row.refuse("changes", "at least one attribute");
    TRY(it.points_per_unit, row.number("points_per_unit", k_points));
    TRY(it.sd, row.number("sd", k_points));
    TRY(it.only_when, row.text_or_empty("only_when"));
    TRY(const auto least, row.number_or_empty("only_when_at_least", k_any));
    if (it.only_when.empty() == least.has_value())
        return row.refuse("only_when_at_least", "a figure exactly where only_when names something");
    it.only_when_at_least = least.value_or(0.0);
    TRY(it.words, row.text("words"));
    TRY(it.mark, read_mark(row));
    TRY(it.source, row.text("source"));
    return it;
}

}  // namespace

const char* word(TechniqueKind kind) {
    switch (kind) {
        case TechniqueKind::leave:
            return "leave";
        case TechniqueKind::time:
            return "age";
        case TechniqueKind::rest:
            return "rest";
        case TechniqueKind::blend:
            return "blend";
        case TechniqueKind::fruit:
            return "fruit";
        case TechniqueKind::spice:
            return "spice";
        case TechniqueKind::oak:
            return "oak";
        case TechniqueKind::dry_hop:
            return "dry_hop";
        case TechniqueKind::acid:
            return "acid";
        case TechniqueKind::base:
            return "base";
        case TechniqueKind::sweeten:
            return "sweeten";
        case TechniqueKind::dilute:
            return "dilute";
        case TechniqueKind::carbonate:
            return "carbonate";
        case TechniqueKind::rescue:
            return "rescue";
    }
    return "";
}

Result<const Technique*> find_technique(const std::vector<Technique>& all, std::string_view wanted) {
    std::vector<Candidate> candidates;
    candidates.reserve(all.size());
    for (const Technique& row : all) {
        const auto comma = row.name.find(',');
        const bool fruit = row.kind == TechniqueKind::fruit;
        const char* form = row.way == FruitWay::onto_beer       ? "onto beer straight"
                           : row.way == FruitWay::pre_fermented ? "pre fermented first"
                                                                : "";
        // Straight onto the beer is what a bare fruit means.
        candidates.push_back(
            {fruit ? row.id + (row.way == FruitWay::onto_beer ? "_onto_beer" : "_pre_fermented") : row.id,
             fruit ? row.name.substr(0, comma) : row.name, form, row.way != FruitWay::pre_fermented, true});
    }
    const std::string typed(wanted);
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].id == typed && all[i].way != FruitWay::pre_fermented) return &all[i];
    TRY(const std::size_t index, look_up(candidates, wanted, "technique"));
    return &all[index];
}

Result<std::vector<Technique>> parse_techniques(std::string_view csv, std::string file) {
    TRY(std::vector<Technique> all, read_rows<Technique>(csv, file, read_technique));
    TRY_VOID(require_unique(all, file, [](const Technique& row) {
        return row.id + (row.way == FruitWay::onto_beer ? " onto" : row.way == FruitWay::none ? "" : " pre");
    }));
    return all;
}

Result<std::vector<Effect>> parse_effects(std::string_view csv, std::string file,
                                          const std::vector<Technique>& techniques) {
    TRY(std::vector<Effect> all, read_rows<Effect>(csv, file, read_effect));
    for (const Effect& effect : all)
        if (std::none_of(techniques.begin(), techniques.end(),
                         [&](const Technique& one) { return one.id == effect.technique && one.way == effect.way; }))
            return fail(
                ErrorKind::bad_input, file + ", column technique",
                "\"" + effect.technique + "\" is no technique of that variant: expected one of techniques.csv.");
    return all;
}

Result<std::vector<Interaction>> parse_interactions(std::string_view csv, std::string file) {
    TRY(std::vector<Interaction> all, read_rows<Interaction>(csv, file, read_interaction));
    TRY_VOID(require_unique(all, file, [](const Interaction& row) { return row.id; }));
    return all;
}

}  // namespace undercroft::tables
