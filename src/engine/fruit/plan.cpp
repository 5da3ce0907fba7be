#include "engine/fruit/plan.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "chem/alcohol.hpp"
#include "chem/ethanol_water.hpp"
#include "chem/gas.hpp"
#include "chem/sugar.hpp"
#include "engine/fruit/dates.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::fruit {

namespace {

constexpr double k_full_share = 0.80;                                         // the rest is head space
constexpr double k_litres_of_gas_per_g_co2 = 24.055 / chem::k_co2_g_per_mol;  // ideal, 20 °C and 1 atm
// Every unit of the calcium pectate methylated: 32.04 g of methanol in 195.2 g.
constexpr double k_methanol_per_pectate = 0.164;

struct Sums {
    double beer_l = 0.0;
    double mixed_l = 0.0;
    double fruit_ethanol_g = 0.0;
    double beer_ethanol_g = 0.0;
    double stays_g = 0.0;  // sorbitol and acids of the fruit
    double beer_extract_g = 0.0;
    chem::Composition mixed;
};

Sums sums_of(const FruitAddition& addition, const Beer& beer) {
    const FruitContents& contents = addition.contents;
    const chem::Composition before = chem::composition_from_gravity_and_abv(beer.gravity, beer.abv);
    Sums sums;
    sums.beer_l = beer.volume.in_litres();
    sums.mixed_l = (beer.volume + addition.brings).in_litres();
    sums.fruit_ethanol_g = contents.hexose * chem::k_ethanol_per_hexose;
    sums.beer_ethanol_g = before.ethanol_g_per_l * sums.beer_l;
    sums.beer_extract_g = before.real_extract_g_per_l * sums.beer_l;
    sums.stays_g = contents.sorbitol.value_or(0.0) + contents.citric.value_or(0.0) + contents.malic.value_or(0.0) +
                   contents.tartaric.value_or(0.0);
    sums.mixed.ethanol_g_per_l = (sums.beer_ethanol_g + sums.fruit_ethanol_g) / sums.mixed_l;
    sums.mixed.real_extract_g_per_l = (sums.beer_extract_g + sums.stays_g) / sums.mixed_l;
    return sums;
}

double volumes_in(double co2_g, double litres) {
    return chem::co2_volumes_of_g_per_l(co2_g / litres);
}

Result<void> check_beer(const Beer& beer) {
    if (beer.volume.ul() <= 0) {
        return fail(ErrorKind::bad_input, "beer", text_of(beer.volume) + " is no beer; say how much meets the fruit.");
    }
    if (!(beer.gravity >= 0.980 && beer.gravity <= 1.200)) {
        return fail(ErrorKind::bad_input, "gravity",
                    number_text(beer.gravity, 4) + " cannot be a beer's gravity; it is 0.980 to 1.200.");
    }
    if (!(beer.abv >= 0.0 && beer.abv <= 20.0)) {
        return fail(ErrorKind::bad_input, "alcohol",
                    number_text(beer.abv, 1) + " % vol is outside 0 to 20 % vol, where the sums hold.");
    }
    return {};
}

bool may_hold_bacteria(const tables::CultureKind& kind) {
    return kind.group == tables::CultureGroup::bacteria || kind.group == tables::CultureGroup::mixed ||
           kind.group == tables::CultureGroup::unknown;
}

Result<void> check_sorbate(const FruitAddition& addition, const Beer& beer) {
    if (addition.sorbate == Sorbate::not_said) return {};
    const bool bacteria =
        beer.cultures.empty() || std::any_of(beer.cultures.begin(), beer.cultures.end(),
                                             [](const tables::CultureKind* kind) { return may_hold_bacteria(*kind); });
    if (!bacteria) return {};
    return fail(ErrorKind::impossible, "fruit",
                "Fruit with sorbate cannot go where lactic bacteria may live: they turn sorbate into a geranium smell "
                "that cannot be mended.",
                {}, "Take fruit without preservatives.");
}

std::vector<Caution> cautions_of(const FruitAddition& addition, Way way, double co2_g, double co2_ppm) {
    std::vector<Caution> cautions = {
        {"fruit.never_seal",
         "Never seal a vessel while fruit ferments: air lock or blow-off hose until two equal gravities and the gas "
         "check."},
        {"fruit.head_space",
         "Leave 15 to 25 % head space: a cap of fruit rises, blocks the lock and throws the lid. Push it down twice a "
         "day."},
        {"gas.room", "The fruit lets out about " + number_text(co2_g, 0) + " g of CO2, " + number_text(co2_ppm, 0) +
                         " ppm in an unaired room of 50 m³, on top of what else works there (5000 ppm is the most for "
                         "eight hours). Air the room, and never bend into a vessel."},
        {"vessel.glass",
         "A full glass demijohn breaks when it falls or is set down hard, and cuts deep: carry it in a crate, never by "
         "a wet neck, and never seal it."},
    };
    if (way == Way::pre_fermented) {
        cautions.push_back({"fruit.killer",
                            "Most wine yeasts are killers. Beer that has met one never goes back into a solera: it "
                            "would kill the solera's own yeast. Take a yeast sold as neutral, and write down which."});
        cautions.push_back({"fruit.weak_wine",
                            "The fruit alone makes a weak wine that spoils in the open: let it meet the beer as soon "
                            "as it is still."});
        if (!addition.nutrient) {
            cautions.push_back({"fruit.nutrient",
                                "Fruit alone is poor food for yeast: add nutrient by its packet (no dose was given, so "
                                "none is counted)."});
        }
    }
    cautions.insert(cautions.end(), addition.cautions.begin(), addition.cautions.end());
    return cautions;
}

std::string g(double grams) {
    return number_text(grams, 1) + " g";
}

std::string litres(double value) {
    return number_text(value, 3) + " L";
}

void add_strength(FruitPlan& plan, const FruitAddition& addition, const Beer& beer, const Sums& sums) {
    plan.terms.push_back({"ethanol from the fruit", plan.ethanol_from_fruit_g, "g",
                          g(addition.contents.hexose) + " hexose x 0.5114, nothing lost to growth: an upper bound",
                          "stoichiometry"});
    if (plan.way == Way::pre_fermented) {
        plan.terms.push_back({"fruit wine, volume", addition.brings.in_litres(), "L",
                              "the liquid the fruit brings, still in its pulp", "the book's rule for fruit"});
        plan.terms.push_back(
            {"fruit wine, strength", plan.fruit_wine_abv, "% vol",
             g(plan.ethanol_from_fruit_g) + " / 789.24 g/L / " + litres(addition.brings.in_litres()) + " x 100",
             "density of ethanol at 20 °C: OIML R22"});
    }
    plan.terms.push_back({"alcohol after mixing", plan.final_abv, "% vol",
                          "(" + g(sums.beer_ethanol_g) + " of the beer at " + number_text(beer.abv, 2) + " % vol + " +
                              g(plan.ethanol_from_fruit_g) + ") / 789.24 g/L / " + litres(sums.mixed_l) + " x 100",
                          "density of ethanol at 20 °C: OIML R22"});
    plan.terms.push_back({"gravity, fruit fermented out", plan.final_gravity, "SG",
                          "real extract (" + g(sums.beer_extract_g) + " of the beer + " + g(sums.stays_g) +
                              " sorbitol and acids of the fruit) / " + litres(sums.mixed_l) +
                              ", with the alcohol above; the beer's own "
                              "extract is taken not to ferment further",
                          "Balling's relations; acids counted as sugar, which is near their density"});
}

void add_volumes(FruitPlan& plan, const FruitAddition& addition, const Beer& beer, const Sums& sums) {
    plan.terms.push_back({"volume after mixing", sums.mixed_l, "L",
                          text_of(beer.volume) + " beer + " + litres(addition.brings.in_litres()) + " of the fruit",
                          "the book's rule: fermentation changes no volume"});
    plan.terms.push_back({"volume after racking", plan.final_volume.in_litres(), "L",
                          litres(sums.mixed_l) + " - " + litres(addition.hold_up.in_litres()) + " left in the pulp",
                          "common practice, no source"});
    if (plan.way == Way::pre_fermented) {
        plan.terms.push_back({"vessel while the fruit ferments alone", addition.room.in_litres() / k_full_share, "L",
                              litres(addition.room.in_litres()) + " / 0.80, for the cap and the foam",
                              "common practice, no source"});
    }
    plan.terms.push_back({"least vessel", plan.least_vessel.in_litres(), "L",
                          "(" + text_of(beer.volume) + " beer + " + litres(addition.room.in_litres()) +
                              " fruit, its liquid included) / 0.80, when beer and fruit are together",
                          "common practice, no source"});
}

void add_gas(FruitPlan& plan, const FruitAddition& addition, const Sums& sums) {
    const FruitContents& contents = addition.contents;
    plan.terms.push_back({"gas if closed too early", plan.gas_if_closed_volumes, "vol",
                          g(contents.hexose) + " hexose x 0.4885 g CO2 / " + litres(sums.mixed_l) +
                              " / 1.9768 g/L, on top of what is dissolved: always ferment it out in the open",
                          "stoichiometry"});
    if (plan.way == Way::pre_fermented) {
        plan.terms.push_back(
            {"gas if the fruit alone were closed", volumes_in(plan.co2_g, addition.brings.in_litres()), "vol",
             "the same CO2 in " + litres(addition.brings.in_litres()) + ": it would burst anything", "stoichiometry"});
    }
    struct Cause {
        const char* name;
        std::optional<double> grams;
        double co2;
        const char* how;
    };
    const std::array<Cause, 4> causes = {{
        {"malolactic gas, by bacteria", contents.malic, chem::k_co2_per_malic_by_bacteria,
         " malic acid x 0.328, with hardly any fall of gravity to show for it"},
        {"malic acid, worst case", contents.malic, chem::k_co2_per_malic_worst,
         " malic acid x 0.656, if a yeast takes it"},
        {"citric acid, worst case", contents.citric, chem::k_co2_per_citric_worst,
         " citric acid x 0.458, by live bacteria"},
        {"sorbitol, worst case", contents.sorbitol, chem::k_co2_per_sorbitol_worst,
         " sorbitol x 0.483, in a mixed culture only"},
    }};
    for (const Cause& cause : causes) {
        if (cause.grams.value_or(0.0) <= 0.0) continue;
        plan.terms.push_back({cause.name, volumes_in(*cause.grams * cause.co2, sums.mixed_l), "vol",
                              g(*cause.grams) + cause.how + "; / " + litres(sums.mixed_l) + " / 1.9768 g/L",
                              "stoichiometry"});
    }
    plan.terms.push_back({"CO2 let out", plan.co2_g, "g", g(contents.hexose) + " hexose x 0.4885", "stoichiometry"});
    plan.terms.push_back({"CO2 in an unaired room", plan.co2_ppm, "ppm",
                          g(plan.co2_g) + " x 0.5466 L/g at 20 °C in 50 m³; the limit for eight hours is 5000 ppm",
                          "ideal gas; limit of OSHA and NIOSH"});
}

void add_matters(FruitPlan& plan, const FruitAddition& addition, const Sums& sums) {
    plan.terms.push_back(
        {"acid of the fruit", addition.acid_meq / sums.mixed_l, "meq/L",
         number_text(addition.acid_meq, 0) + " meq / " + litres(sums.mixed_l) + "; potassium binds part of it",
         "molar masses"});
    if (addition.contents.pectin) {
        plan.terms.push_back(
            {"methanol from pectin, at most",
             *addition.contents.pectin * k_methanol_per_pectate * 1000.0 / sums.mixed_l, "mg/L",
             g(*addition.contents.pectin) +
                 " pectin x 0.164, were all of it methylated and split: of the size any fruit wine has",
             "molar masses"});
    }
    if (addition.sulphite_at_most) {
        plan.terms.push_back({"sulphite, at most", addition.sulphite_at_most->in_grams() * 1000.0 / sums.mixed_l,
                              "mg/L SO2",
                              g(addition.sulphite_at_most->in_grams()) + " / " + litres(sums.mixed_l) +
                                  "; above 10 mg/L it must be declared",
                              "Reg. (EU) 1169/2011 Annex II"});
    }
}

}  // namespace

const char* word(Way way) {
    return way == Way::pre_fermented ? "pre_fermented" : "onto_beer";
}

const char* title(Way way) {
    return way == Way::pre_fermented ? "Fermented first, on its own yeast" : "Straight onto the beer";
}

std::string watch_for(const std::vector<const tables::CultureKind*>& cultures) {
    static constexpr std::array<std::pair<const char*, const char*>, 12> k_watches = {{
        {"ale_clean", "watch_clean"},
        {"lager_yeast", "watch_clean"},
        {"kveik", "watch_clean"},
        {"wine_killer_k2", "watch_bakers_or_wine"},
        {"wine_neutral", "watch_bakers_or_wine"},
        {"bakers_yeast", "watch_bakers_or_wine"},
        {"ale_farmhouse_diastatic", "watch_diastatic"},
        {"brett_fast", "watch_brett_fast"},
        {"brett_slow", "watch_mixed"},
        {"mixed_sour", "watch_mixed"},
        {"pedio", "watch_mixed"},
        {"wild_unknown", "watch_unknown"},
    }};
    const tables::CultureKind* longest = nullptr;
    for (const tables::CultureKind* kind : cultures) {
        if (kind->group == tables::CultureGroup::unknown) return "watch_unknown";
        if (longest == nullptr || kind->stable_days.value_or(0.0) > longest->stable_days.value_or(0.0)) longest = kind;
    }
    if (longest == nullptr) return "watch_unknown";
    for (const auto& [culture, watch] : k_watches) {
        if (longest->id == culture) return watch;
    }
    // Bacteria and film yeasts have no watch of their own: the shortest that is long enough.
    if (longest->stable_days.value_or(0.0) <= 10.0) return "watch_bakers_or_wine";
    return longest->stable_days.value_or(0.0) <= 28.0 ? "watch_diastatic" : "watch_mixed";
}

Result<int> lead_days(const tables::Tables& tables, const FruitAddition& addition, Way way) {
    const Day any{std::chrono::year{2000}, std::chrono::month{1}, std::chrono::day{1}};
    TRY(const auto dates, dates_for(tables, chain_for(addition.form, way, "watch_unknown"), any));
    return days_between(dates.front().day, any);
}

Result<FruitPlan> plan(const tables::Tables& tables, const FruitAddition& addition, const Beer& beer, Way way,
                       Day pull) {
    TRY_VOID(check_beer(beer));
    TRY_VOID(check_sorbate(addition, beer));
    const FruitContents& contents = addition.contents;
    const Sums sums = sums_of(addition, beer);

    FruitPlan plan;
    plan.way = way;
    plan.ethanol_from_fruit_g = sums.fruit_ethanol_g;
    plan.fruit_wine_abv = sums.fruit_ethanol_g / chem::k_ethanol_density_at_20 / addition.brings.in_litres() * 100.0;
    plan.final_abv = chem::abv_of(sums.mixed);
    plan.final_gravity = chem::gravity_of(sums.mixed);
    plan.mixed_volume = beer.volume + addition.brings;
    plan.final_volume = std::max(plan.mixed_volume - addition.hold_up, Volume{});
    plan.least_vessel = Volume::from_litres((beer.volume + addition.room).in_litres() / k_full_share);
    plan.co2_g = contents.hexose * chem::k_co2_per_hexose;
    plan.co2_ppm = plan.co2_g * k_litres_of_gas_per_g_co2 / (k_unaired_room_m3 * 1000.0) * 1e6;
    plan.gas_if_closed_volumes = volumes_in(plan.co2_g, sums.mixed_l);
    plan.gas_worst_volumes =
        plan.gas_if_closed_volumes + volumes_in(contents.malic.value_or(0.0) * chem::k_co2_per_malic_worst +
                                                    contents.citric.value_or(0.0) * chem::k_co2_per_citric_worst +
                                                    contents.sorbitol.value_or(0.0) * chem::k_co2_per_sorbitol_worst,
                                                sums.mixed_l);

    add_strength(plan, addition, beer, sums);
    add_volumes(plan, addition, beer, sums);
    add_gas(plan, addition, sums);
    add_matters(plan, addition, sums);
    // Fruit brings a yeast of its own, pitched or wild, so the watch of a clean beer is too short for it.
    std::string watch = watch_for(beer.cultures);
    if (watch == "watch_clean") watch = "watch_bakers_or_wine";
    TRY(plan.dates, dates_for(tables, chain_for(addition.form, way, watch), pull));
    plan.cautions = cautions_of(addition, way, plan.co2_g, plan.co2_ppm);
    return plan;
}

}  // namespace undercroft::engine::fruit
