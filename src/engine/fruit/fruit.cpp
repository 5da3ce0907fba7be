#include "engine/fruit/fruit.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/decimal.hpp"
#include "chem/extract.hpp"
#include "chem/sugar.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::fruit {

namespace {

constexpr double k_room_l_per_kg = 0.95;
constexpr double k_most_hold_up = 0.5;
constexpr double k_least_brix = 2.0;
constexpr double k_most_brix = 40.0;
constexpr double k_potassium_g_per_mol = 39.098;

struct Acid {
    const char* name;
    double g_per_mol;
    int protons;
};
constexpr Acid k_citric{"citric acid", 192.123, 3};
constexpr Acid k_malic{"malic acid", 134.087, 2};
constexpr Acid k_tartaric{"tartaric acid", 150.087, 2};

double meq_of(const Acid& acid, double grams) {
    return grams / acid.g_per_mol * acid.protons * 1000.0;
}

// Most SO2 that dried fruit may hold, mg/kg: Reg. (EC) 1333/2008 Annex II; apricot read in a Codex note, rest from
// memory.
double sulphite_limit_mg_per_kg(const std::string& fruit) {
    for (const char* name : {"apricot", "peach", "raisin", "grape", "prune", "plum", "fig"}) {
        if (fruit == name) return 2000.0;
    }
    if (fruit == "banana") return 1000.0;
    if (fruit == "apple" || fruit == "pear") return 600.0;
    return 500.0;
}

bool has(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

// What 100 g edible hold, after a measured Brix has had its say.
struct PerHundred {
    double water = 0.0;
    tables::FruitSugars sugars;
};

double total_of(const tables::FruitSugars& sugars) {
    return sugars.glucose + sugars.fructose + sugars.sucrose + sugars.maltose + sugars.unassigned;
}

Result<void> check_options(const tables::Fruit& fruit, Mass bought, const FruitOptions& options) {
    if (bought.mg() <= 0) {
        return fail(ErrorKind::bad_input, "fruit", text_of(bought) + " is no fruit; say how much was bought.");
    }
    if (!(options.hold_up_share >= 0.0 && options.hold_up_share <= k_most_hold_up)) {
        return fail(ErrorKind::bad_input, "hold-up",
                    percent_text(options.hold_up_share, 0) +
                        " of the fruit's mass cannot stay in the pulp; it is 0 to 50 %, usually 5 to 15 %.");
    }
    for (const auto& dose : {options.enzyme_per_kg, options.nutrient_per_l}) {
        if (dose && !(dose->per_unit >= 0.0 && std::isfinite(dose->per_unit))) {
            return fail(ErrorKind::bad_input, "dose", "A dose is zero or more; read it off the packet.");
        }
    }
    if (!options.juice_brix) return {};
    if (fruit.form == tables::FruitForm::dried) {
        return fail(ErrorKind::bad_input, "juice Brix",
                    "Dried fruit has no juice to measure; leave the Brix out and the table's sugar is used.");
    }
    if (!(*options.juice_brix >= k_least_brix && *options.juice_brix <= k_most_brix)) {
        return fail(ErrorKind::bad_input, "juice Brix",
                    number_text(*options.juice_brix, 1) + " °Bx is outside 2 to 40 °Bx, where fruit juice lies.");
    }
    return {};
}

// The juice of 100 g is water and all that dissolves; the rest of the fruit stays as it is. Brix counts acids and
// sorbitol too, so they come off before the sugars are scaled.
Result<PerHundred> with_brix(const tables::FruitComposition& table, const PerHundred& from_table, double brix) {
    const auto known = [](const tables::Estimated& figure) { return figure.g_per_100_g.value_or(0.0); };
    const double other = known(table.sorbitol) + known(table.citric) + known(table.malic) + known(table.tartaric);
    const double sugars = total_of(from_table.sugars);
    const double juice = from_table.water + sugars + other;
    const double wanted = brix / 100.0 * juice - other;
    if (wanted < 0.0) {
        return fail(ErrorKind::bad_input, "juice Brix",
                    number_text(brix, 1) + " °Bx is less than the acids and sorbitol of this fruit show alone (" +
                        number_text(other / juice * 100.0, 1) + " °Bx); measure again, or leave it out.");
    }
    PerHundred measured;
    measured.water = juice * (1.0 - brix / 100.0);
    if (sugars > 0.0) {
        const double by = wanted / sugars;
        measured.sugars = from_table.sugars;
        for (double* one : {&measured.sugars.glucose, &measured.sugars.fructose, &measured.sugars.sucrose,
                            &measured.sugars.maltose, &measured.sugars.unassigned}) {
            *one *= by;
        }
    } else {
        measured.sugars.unassigned = wanted;
    }
    return measured;
}

Result<PerHundred> per_hundred(const tables::Fruit& fruit, const tables::FruitComposition& table,
                               const FruitOptions& options) {
    if (!table.water || !table.sugars) {
        return fail(ErrorKind::outside_model, "fruit",
                    "The table has no " + std::string(table.water ? "sugars" : "water") + " for " + fruit.name + " (" +
                        fruit.form_text + "), so what it brings cannot be worked out.",
                    {}, "Take another form of it, or add it as a spice by weight.");
    }
    const PerHundred from_table{*table.water, *table.sugars};
    if (!options.juice_brix) return from_table;
    return with_brix(table, from_table, *options.juice_brix);
}

FruitContents contents_of(const tables::FruitComposition& table, const PerHundred& part, double edible_g) {
    const double by = edible_g / 100.0;
    const auto scaled = [&](const tables::Estimated& figure) -> std::optional<double> {
        if (!figure.g_per_100_g) return std::nullopt;
        return *figure.g_per_100_g * by;
    };
    FruitContents contents;
    contents.glucose = part.sugars.glucose * by;
    contents.fructose = part.sugars.fructose * by;
    contents.sucrose = part.sugars.sucrose * by;
    contents.maltose = part.sugars.maltose * by;
    contents.unassigned = part.sugars.unassigned * by;
    contents.hexose = part.sugars.hexose_equivalent() * by;
    contents.water = part.water * by;
    contents.sorbitol = scaled(table.sorbitol);
    contents.citric = scaled(table.citric);
    contents.malic = scaled(table.malic);
    contents.tartaric = scaled(table.tartaric);
    contents.potassium = scaled(table.potassium);
    contents.pectin = scaled(table.pectin);
    return contents;
}

ledger::AdditionContents booked_of(const FruitContents& contents, std::optional<Mass> sulphite) {
    ledger::AdditionContents booked;
    booked.glucose = Mass::from_grams(contents.glucose);
    booked.fructose = Mass::from_grams(contents.fructose);
    booked.sucrose = Mass::from_grams(contents.sucrose + contents.unassigned);
    booked.maltose = Mass::from_grams(contents.maltose);
    booked.sorbitol = Mass::from_grams(contents.sorbitol.value_or(0.0));
    booked.citric_acid = Mass::from_grams(contents.citric.value_or(0.0));
    booked.malic_acid = Mass::from_grams(contents.malic.value_or(0.0));
    booked.tartaric_acid = Mass::from_grams(contents.tartaric.value_or(0.0));
    booked.potassium = Mass::from_grams(contents.potassium.value_or(0.0));
    booked.sulphite = sulphite.value_or(Mass{});
    return booked;
}

// --- the rows shown ----------------------------------------------------------------------------

const char* basis_text(tables::Estimated::Basis basis) {
    return basis == tables::Estimated::Basis::fresh_row_scaled ? ", scaled from the fresh row by dry matter" : "";
}

class Rows {
public:
    Rows(const tables::Fruit& fruit, const FruitAddition& addition)
        : m_edible_g(addition.edible.in_grams()), m_table("data/fruit.csv, " + fruit.id), m_source(fruit.source) {}

    void add(std::string name, double value, std::string unit, std::string how, std::string source = {}) {
        m_terms.push_back(
            {std::move(name), value, std::move(unit), std::move(how), source.empty() ? m_table : std::move(source)});
    }
    void add_sugar(const char* name, double grams, const std::string& remark) {
        if (grams > 0.0) add(name, grams, "g", share_of(grams) + remark, m_source);
    }
    void add_part(const char* name, std::optional<double> grams, const tables::Estimated& figure,
                  const std::string& remark) {
        if (grams) add(name, *grams, "g", share_of(*grams) + basis_text(figure.basis) + remark);
    }
    void add_acid(const Acid& acid, std::optional<double> grams, const tables::Estimated& figure) {
        if (!grams) return;
        add_part(acid.name, grams, figure,
                 "; / " + number_text(acid.g_per_mol, 2) + " g/mol x " + std::to_string(acid.protons) +
                     " protons = " + number_text(meq_of(acid, *grams), 0) + " meq; the table's acids are good to 30 %");
    }
    std::vector<Term> take() { return std::move(m_terms); }

private:
    [[nodiscard]] std::string share_of(double grams) const {
        const double per_100_g = grams / m_edible_g * 100.0;
        return number_text(per_100_g, per_100_g < 1.0 ? 3 : 2) + " g per 100 g x " + number_text(m_edible_g, 0) +
               " g edible";
    }

    double m_edible_g;
    std::string m_table;
    std::string m_source;
    std::vector<Term> m_terms;
};

std::string split_remark(const tables::Fruit& fruit, tables::FruitSugars::Split split, const FruitOptions& options) {
    std::string remark;
    if (split == tables::FruitSugars::Split::fresh_row_ratio) {
        remark = "; no source splits the sugars of " + fruit.name + " (" + fruit.form_text +
                 "), so they are split as in the fresh fruit";
    } else if (split == tables::FruitSugars::Split::none) {
        remark = "; no source splits it: counted as sucrose, the kind that gives most gas";
    }
    if (options.juice_brix) {
        remark += "; set by the measured " + number_text(*options.juice_brix, 1) +
                  " °Bx less acids and sorbitol, split as in the table";
    }
    return remark;
}

void add_contents(Rows& rows, const tables::Fruit& fruit, const tables::FruitComposition& table,
                  const FruitAddition& addition, const FruitOptions& options) {
    const FruitContents& contents = addition.contents;
    const std::string remark = split_remark(fruit, table.sugars->split, options);
    rows.add_sugar("glucose", contents.glucose, remark);
    rows.add_sugar("fructose", contents.fructose, remark);
    rows.add_sugar("sucrose", contents.sucrose, remark);
    rows.add_sugar("maltose", contents.maltose, remark);
    rows.add_sugar("sugar, kind not known", contents.unassigned, remark);
    rows.add("fermentable as hexose", contents.hexose, "g",
             "sugars " + number_text(contents.sugars(), 1) + " g, of which disaccharides count 1.0526 once split",
             "molar masses");
    rows.add_part("sorbitol", contents.sorbitol, table.sorbitol,
                  "; not sugar for most yeast: stays as extract, counts in the worst case of gas only");
    rows.add("water", contents.water, "g",
             number_text(contents.water / addition.edible.in_grams() * 100.0, 2) + " g per 100 g x " +
                 number_text(addition.edible.in_grams(), 0) + " g edible" +
                 (options.juice_brix ? ", by the measured Brix" : ""),
             fruit.source);
    rows.add_acid(k_citric, contents.citric, table.citric);
    rows.add_acid(k_malic, contents.malic, table.malic);
    rows.add_acid(k_tartaric, contents.tartaric, table.tartaric);
    rows.add("acid in all", addition.acid_meq, "meq",
             "sum of the acids above, each by its protons; part of it is bound by the fruit's potassium, so the "
             "titratable acid rises less",
             "molar masses");
    if (contents.potassium) {
        rows.add_part("potassium", contents.potassium, table.potassium,
                      "; / 39.10 g/mol = " + number_text(*addition.potassium_meq, 0) + " meq, which binds acid");
    }
    rows.add_part("pectin", contents.pectin, table.pectin, ", as calcium pectate");
}

std::string dose_unit(PacketDose::Unit unit) {
    return unit == PacketDose::Unit::ml ? "mL" : "g";
}

void add_volumes(Rows& rows, const FruitAddition& addition, const FruitOptions& options) {
    const FruitContents& contents = addition.contents;
    const double kg = addition.in_vessel.in_kilograms();
    rows.add("liquid it brings", addition.brings.in_litres(), "L",
             "water " + number_text(contents.water, 0) + " g / 998.2 g/L + 0.62 mL x " +
                 number_text(contents.sugars(), 1) + " g sugar",
             "the book's rule: sugar counts near the volume of the ethanol made from it");
    rows.add("room it takes", addition.room.in_litres(), "L",
             "0.95 L per kg x " + number_text(kg, 3) + " kg whole fruit, its liquid included",
             "common practice, no source");
    rows.add("room of its solids", addition.solids.in_litres(), "L", "room it takes less the liquid it brings",
             "the two rows above");
    rows.add("hold-up in the pulp", addition.hold_up.in_litres(), "L",
             percent_text(options.hold_up_share, 0) + " of " + number_text(kg, 3) +
                 " kg, as liquid left behind at racking; 5 to 15 % is usual",
             "common practice, no source");
}

void add_doses(Rows& rows, const FruitAddition& addition, const PacketDose& enzyme_per_kg,
               const std::string& enzyme_source, const FruitOptions& options) {
    const std::string unit = dose_unit(addition.enzyme.unit);
    rows.add("pectinase", addition.enzyme.per_unit, unit,
             number_text(enzyme_per_kg.per_unit, 2) + " " + unit + " per kg x " +
                 number_text(addition.in_vessel.in_kilograms(), 3) + " kg; before any alcohol, not below 10 °C",
             enzyme_source);
    if (addition.nutrient) {
        const std::string nutrient_unit = dose_unit(addition.nutrient->unit);
        rows.add("yeast nutrient", addition.nutrient->per_unit, nutrient_unit,
                 number_text(options.nutrient_per_l->per_unit, 2) + " " + nutrient_unit + " per L x " +
                     number_text(addition.brings.in_litres(), 2) + " L of the fruit's liquid",
                 "the packet");
    }
}

std::vector<Caution> cautions_of(const tables::Fruit& fruit, const FruitAddition& addition) {
    std::vector<Caution> cautions;
    if (addition.has_pits || has(fruit.name, "apricot")) {
        cautions.push_back({"fruit.pits",
                            "Pits go in whole or not at all: never crush them, and never use apricot kernels. "
                            "Crushed kernels give off cyanide (EFSA 2016: about 0.37 g of raw apricot kernel is the "
                            "most for an adult at one time)."});
    }
    const bool dried = fruit.form == tables::FruitForm::dried;
    if (addition.sulphite_at_most) {
        cautions.push_back(
            {"fruit.sulphite", "Sulphured fruit: at most " + number_text(addition.sulphite_at_most->in_grams(), 2) +
                                   " g SO2 in this amount (the legal maximum, so an upper bound). It can stop a yeast; "
                                   "above 10 mg/L in the beer it must be declared, and some people react to it."});
    } else if (!addition.allergens.empty()) {
        cautions.push_back({"fruit.sulphite",
                            "The label says sulphite, and nobody knows how much: it can stop a yeast, it must be "
                            "declared above 10 mg/L, and some people react to it."});
    } else if (dried) {
        cautions.push_back({"fruit.sulphite", "Read the label: dried fruit is often sulphured, up to " +
                                                  number_text(sulphite_limit_mg_per_kg(fruit.name), 0) +
                                                  " mg SO2 per kg. Counted here as free of it."});
    }
    if (addition.sorbate == Sorbate::on_label) {
        cautions.push_back({"fruit.sorbate",
                            "Sorbate stops refermentation, and live lactic bacteria turn it into a geranium smell that "
                            "cannot be mended: never into a sour culture."});
    } else if (fruit.form != tables::FruitForm::fresh) {
        cautions.push_back({"fruit.sorbate",
                            "Read the label before you buy: fruit with sorbate or benzoate never goes into a live "
                            "culture (sorbate and lactic bacteria give a geranium smell for good)."});
    }
    std::string unknown;
    const FruitContents& contents = addition.contents;
    for (const auto& [name, amount] :
         {std::pair{"sorbitol", contents.sorbitol}, std::pair{"citric acid", contents.citric},
          std::pair{"malic acid", contents.malic}, std::pair{"tartaric acid", contents.tartaric},
          std::pair{"potassium", contents.potassium}}) {
        if (!amount) unknown += (unknown.empty() ? "" : ", ") + std::string(name);
    }
    if (!unknown.empty()) {
        cautions.push_back({"fruit.unknown", "The table does not know this of " + fruit.name + " (" + fruit.form_text +
                                                 "): " + unknown +
                                                 ". It is left out of the sums, which does not mean there is none."});
    }
    return cautions;
}

}  // namespace

Result<FruitAddition> resolve(const tables::Tables& tables, const tables::Fruit& fruit, Mass bought,
                              const FruitOptions& options) {
    TRY_VOID(check_options(fruit, bought, options));
    const tables::FruitComposition table = tables.composition_of(fruit);
    TRY(const PerHundred part, per_hundred(fruit, table, options));

    FruitAddition addition;
    addition.item = fruit.id;
    addition.name = fruit.name + ", " + fruit.form_text;
    addition.form = fruit.form;
    addition.bought = bought;
    addition.has_pits = has(fruit.refuse, "Pit");
    addition.edible = Mass::from_grams(bought.in_grams() * fruit.edible_share);
    addition.in_vessel = addition.has_pits ? bought : addition.edible;
    addition.sorbate = options.sorbate;
    addition.contents = contents_of(table, part, bought.in_grams() * fruit.edible_share);

    const FruitContents& contents = addition.contents;
    addition.acid_meq = meq_of(k_citric, contents.citric.value_or(0.0)) +
                        meq_of(k_malic, contents.malic.value_or(0.0)) +
                        meq_of(k_tartaric, contents.tartaric.value_or(0.0));
    if (contents.potassium) addition.potassium_meq = *contents.potassium / k_potassium_g_per_mol * 1000.0;

    const double kg = addition.in_vessel.in_kilograms();
    addition.brings = Volume::from_litres(contents.water / chem::k_water_density_at_20 +
                                          contents.sugars() * chem::k_litres_per_gram_sugar);
    // Melon flesh is nearly all juice: its room is then that of its liquid.
    addition.room = std::max(Volume::from_litres(k_room_l_per_kg * kg), addition.brings);
    addition.solids = addition.room - addition.brings;
    addition.hold_up = Volume::from_litres(options.hold_up_share * kg);

    TRY(const tables::Flavouring* pectinase, tables.find_flavouring("pectinase"));
    const PacketDose enzyme_per_kg = options.enzyme_per_kg.value_or(PacketDose{pectinase->dose_mid});
    addition.enzyme = {enzyme_per_kg.per_unit * kg, enzyme_per_kg.unit};
    if (options.nutrient_per_l) {
        addition.nutrient =
            PacketDose{options.nutrient_per_l->per_unit * addition.brings.in_litres(), options.nutrient_per_l->unit};
    }

    const bool sulphured = options.sulphite == Sulphite::on_label ||
                           (options.sulphite == Sulphite::by_the_table && has(fruit.form_text, "sulfured"));
    if (sulphured) {
        ledger::Allergen sulphite{"sulphite", std::nullopt};
        if (fruit.form == tables::FruitForm::dried) {
            const double mg = sulphite_limit_mg_per_kg(fruit.name) * bought.in_kilograms();
            addition.sulphite_at_most = Mass::from_grams(mg / 1000.0);
            sulphite.mg_per_litre = Decimal::from_double(mg / addition.brings.in_litres(), 1);
        }
        addition.allergens.push_back(sulphite);
    }
    addition.booked = booked_of(contents, addition.sulphite_at_most);

    Rows rows(fruit, addition);
    rows.add("edible mass", addition.edible.in_grams(), "g",
             text_of(bought) + " bought x " + percent_text(fruit.edible_share, 0) +
                 (fruit.refuse.empty() ? "" : "; the rest is: " + fruit.refuse) +
                 (addition.has_pits ? "; pits may stay in" : ""),
             fruit.source);
    add_contents(rows, fruit, table, addition, options);
    add_volumes(rows, addition, options);
    add_doses(rows, addition, enzyme_per_kg,
              options.enzyme_per_kg ? "the packet"
                                    : "data/flavourings.csv, pectinase, middle of its range; " + pectinase->source,
              options);
    if (addition.sulphite_at_most) {
        rows.add("sulphite, at most", addition.sulphite_at_most->in_grams() * 1000.0, "mg SO2",
                 number_text(sulphite_limit_mg_per_kg(fruit.name), 0) + " mg/kg x " + text_of(bought),
                 "Reg. (EC) 1333/2008 Annex II, legal maximum, from memory for all but apricot");
    }
    addition.terms = rows.take();
    addition.cautions = cautions_of(fruit, addition);
    return addition;
}

ledger::Addition draft_of(const FruitAddition& addition, const ledger::EntryKey& vessel, Loose loose) {
    ledger::Addition draft;
    draft.vessel = vessel;
    draft.kind = ledger::AdditionKind::fruit;
    draft.item = addition.item;
    draft.name = addition.name;
    draft.mass = addition.bought;
    draft.contained = loose == Loose::in_a_bag;
    draft.source_kind = ledger::LotKind::fruit;
    draft.brings = addition.brings;
    draft.solids = addition.solids;
    draft.hold_up = addition.hold_up;
    draft.contents = addition.booked;
    draft.allergens = addition.allergens;
    return draft;
}

}  // namespace undercroft::engine::fruit
