// Additions, cultures, allergens, and the people a draft names.
#include <algorithm>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "chem/sugar.hpp"
#include "engine/fruit/fruit.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

KillerPhenotype phenotype_of(tables::KillerType type) {
    switch (type) {
        case tables::KillerType::killer:
            return KillerPhenotype::killer;
        case tables::KillerType::neutral:
            return KillerPhenotype::neutral;
        case tables::KillerType::sensitive:
            return KillerPhenotype::sensitive;
        case tables::KillerType::none:
            return KillerPhenotype::not_applicable;
        case tables::KillerType::unknown:
            break;
    }
    return KillerPhenotype::unknown;
}

Diastatic diastatic_of(tables::DiastaticType type) {
    switch (type) {
        case tables::DiastaticType::no:
            return Diastatic::no;
        case tables::DiastaticType::yes:
        case tables::DiastaticType::dextrins_slowly:
            return Diastatic::yes;
        case tables::DiastaticType::unknown:
            break;
    }
    return Diastatic::unknown;
}

Culture culture_of(const tables::CultureKind& kind) {
    Culture culture;
    culture.name = kind.name;
    culture.kind = kind.id;
    culture.killer = phenotype_of(kind.killer);
    culture.toxin =
        from_word<ToxinType>(kind.toxin)
            .value_or(culture.killer == KillerPhenotype::killer || culture.killer == KillerPhenotype::unknown
                          ? ToxinType::unknown
                          : ToxinType::none);
    culture.diastatic = diastatic_of(kind.diastatic);
    return culture;
}

AdditionKind kind_of(const tables::Flavouring& row) {
    if (row.id.starts_with("oak")) return AdditionKind::oak;
    if (row.id.starts_with("hops")) return AdditionKind::hops;
    if (row.id.starts_with("pectinase")) return AdditionKind::enzyme;
    if (row.id.starts_with("fruit") || row.id.starts_with("dried_fruit")) return AdditionKind::fruit;
    return AdditionKind::spice;
}

// A mass ("3 kg") or a liquid dose ("2 mL").
Result<void> amount_into(Addition& body, const std::string& text, Gallons gallons) {
    if (text.empty())
        return fail(ErrorKind::bad_input, "amount",
                    "How much of " + body.item + " goes in? Write a mass such as 3 kg, or a volume such as 2 mL.");
    const auto mass = parse_mass("amount", text);
    if (mass) {
        if (*mass <= Mass{})
            return fail(ErrorKind::bad_input, "amount",
                        text + " is not above zero. Write how much goes in, such as 3 kg.");
        body.mass = *mass;
        return {};
    }
    const auto volume = parse_volume("amount", text, gallons);
    if (!volume) return tl::unexpected(mass.error());
    if (*volume <= Volume{})
        return fail(ErrorKind::bad_input, "amount", text + " is not above zero. Write how much goes in, such as 2 mL.");
    body.dose = *volume;
    return {};
}

Result<Addition> fruit_body(const AddAddition& act, const tables::Fruit& row, const EntryKey& vessel, Here& here) {
    TRY(const Mass mass, parse_mass("amount", act.amount));
    if (mass <= Mass{})
        return fail(ErrorKind::bad_input, "amount",
                    act.amount + " is not above zero. Write how much fruit goes in, such as 3 kg.");
    engine::fruit::FruitOptions options;
    if (!act.hold_up.empty()) {
        TRY(options.hold_up_share, parse_share("hold-up", act.hold_up));
    }
    TRY(const engine::fruit::FruitAddition resolved, engine::fruit::resolve(here.tables, row, mass, options));
    here.cautions.insert(here.cautions.end(), resolved.cautions.begin(), resolved.cautions.end());
    return engine::fruit::draft_of(resolved, vessel,
                                   act.contained ? engine::fruit::Loose::in_a_bag : engine::fruit::Loose::yes);
}

// What goes in besides fruit from the table.
Result<Addition> other_body(const AddAddition& act, AdditionKind kind, const EntryKey& vessel, Here& here) {
    Addition body;
    body.vessel = vessel;
    body.kind = kind;
    body.item = act.item;
    body.name = act.item;
    body.contained = act.contained;
    TRY_VOID(amount_into(body, act.amount, here.gallons));
    if (kind == AdditionKind::sugar && body.mass > Mass{}) {
        body.source_kind = LotKind::syrup;
        body.contents.sucrose = body.mass;
        body.brings = Volume::from_litres(body.mass.in_grams() * chem::k_litres_per_gram_sugar);
        here.cautions.push_back(
            {"gas.sugar", "Sugar in live beer makes gas: keep it under an air lock until two readings agree."});
    } else if (body.dose > Volume{}) {
        body.source_kind = LotKind::water;
        body.brings = body.dose;
    }
    return body;
}

}  // namespace

std::string People::commitment_of(const std::string& name) {
    if (name.empty()) return {};
    for (const Person& person : m_all)
        if (person.name == name) return person.commitment;
    Person person;
    person.salt = m_surroundings.random16();
    person.name = name;
    person.commitment = m_surroundings.commitment(person.salt, name);
    m_all.push_back(person);
    return person.commitment;
}

Result<Culture> culture_from(const std::string& text, const Here& here) {
    for (const CultureState& known : here.cellar.cultures)
        if (known.as.name == text) return known.as;
    TRY(const tables::CultureKind* kind, here.tables.find_culture(text));
    return culture_of(*kind);
}

Result<std::vector<Allergen>> allergens_from(const std::vector<std::string>& texts, const Here& here) {
    std::vector<Allergen> allergens;
    for (const std::string& text : texts) {
        if (text == "none") {
            if (texts.size() > 1)
                return fail(ErrorKind::bad_input, "allergen",
                            "\"none\" beside another allergen: say one or the other.");
            return allergens;
        }
        // "sulphite 12 mg/L": a name, and an amount when it is known.
        Allergen allergen;
        std::string name = text;
        const auto unit = text.find(" mg/L");
        if (unit != std::string::npos && unit + 5 == text.size()) {
            const auto space = text.rfind(' ', unit - 1);
            if (space == std::string::npos)
                return fail(ErrorKind::bad_input, "allergen",
                            "\"" + text + "\" names no allergen. Write it like \"sulphite 12 mg/L\".");
            name = text.substr(0, space);
            TRY(allergen.mg_per_litre, parse_number("allergen", text.substr(space + 1, unit - space - 1), 0, 100000));
        }
        TRY(const tables::Allergen* row, here.tables.find_allergen(name));
        allergen.group = row->id;
        allergens.push_back(std::move(allergen));
    }
    return allergens;
}

Result<Addition> body_of(const AddAddition& act, Here& here) {
    TRY(const int vessel, find_vessel(here.cellar, "vessel", act.vessel));
    const EntryKey key = here.cellar.vessels[at_index(vessel)].key;
    if (act.item.empty())
        return fail(ErrorKind::bad_input, "item", "What goes in? Write a fruit, a spice or your own words.");
    std::optional<AdditionKind> kind;
    if (!act.kind.empty()) {
        TRY(kind,
            one_word<AdditionKind>("kind", act.kind, "fruit, spice, oak, hops, sugar, acid, enzyme, nutrient, other"));
    }
    Addition body;
    const auto fruit = here.tables.find_fruit(act.item);
    if (fruit && (!kind || *kind == AdditionKind::fruit)) {
        TRY(body, fruit_body(act, **fruit, key, here));
    } else if (kind && *kind == AdditionKind::fruit) {
        return tl::unexpected(fruit.error());
    } else if (const auto flavouring = here.tables.find_flavouring(act.item); flavouring && !kind) {
        TRY(body, other_body(act, kind_of(**flavouring), key, here));
        body.item = (*flavouring)->id;
        body.name = (*flavouring)->name;
        if (!(*flavouring)->hazard.empty())
            here.cautions.push_back({"dose." + body.item,
                                     (*flavouring)->name + ": " + (*flavouring)->hazard + ". " + (*flavouring)->notes});
    } else if (kind) {
        TRY(body, other_body(act, *kind, key, here));
    } else {
        Error error = fruit.error();
        error.next_step += " Or say what it is: --kind fruit, spice, oak, hops, sugar, acid, enzyme, nutrient, other.";
        return tl::unexpected(error);
    }
    if (!act.allergens.empty()) {
        TRY(const std::vector<Allergen> more, allergens_from(act.allergens, here));
        body.allergens.insert(body.allergens.end(), more.begin(), more.end());
    }
    if (act.live && act.cultures.empty()) {
        TRY(Culture culture, culture_from("wild_unknown", here));
        body.cultures.push_back(std::move(culture));
        here.remarks.push_back(act.item +
                               " is booked as live with an unknown culture; name it with --culture when you know.");
    }
    for (const std::string& text : act.cultures) {
        TRY(Culture culture, culture_from(text, here));
        body.cultures.push_back(std::move(culture));
    }
    return body;
}

Result<Lift> body_of(const LiftAddition& act, Here& here) {
    TRY(const int vessel, find_vessel(here.cellar, "vessel", act.vessel));
    const auto& inside = here.cellar.vessels[at_index(vessel)].additions_inside;
    if (inside.empty())
        return fail(ErrorKind::not_found, "item",
                    "Nothing that could be lifted out is in " + here.cellar.vessels[at_index(vessel)].as.name + ".");
    int addition = inside.front();
    if (!act.item.empty() || inside.size() > 1) {
        TRY(addition, find_inside(here.cellar, vessel, act.item));
    }
    return Lift{here.cellar.additions[at_index(addition)].key};
}

Result<Pitch> body_of(const PitchCulture& act, Here& here) {
    Pitch body;
    TRY(const int vessel, find_vessel(here.cellar, "vessel", act.vessel));
    body.vessel = here.cellar.vessels[at_index(vessel)].key;
    TRY(body.culture, culture_from(act.kind, here));
    if (!act.name.empty()) body.culture.name = act.name;
    if (!act.killer.empty()) {
        TRY(body.culture.killer,
            one_word<KillerPhenotype>("killer", act.killer, "sensitive, neutral, killer, unknown"));
        if (body.culture.killer != KillerPhenotype::killer && act.toxin.empty()) body.culture.toxin = ToxinType::none;
        if (body.culture.killer == KillerPhenotype::killer && body.culture.toxin == ToxinType::none)
            body.culture.toxin = ToxinType::unknown;
    }
    if (!act.toxin.empty()) {
        TRY(body.culture.toxin, one_word<ToxinType>("toxin", act.toxin, "none, K1, K2, K28, Klus, unknown"));
    }
    if (body.culture.killer != KillerPhenotype::killer && body.culture.killer != KillerPhenotype::unknown &&
        body.culture.toxin != ToxinType::none)
        return fail(ErrorKind::bad_input, "toxin",
                    std::string("A ") + word(body.culture.killer) +
                        " yeast makes no toxin; say --killer killer, or leave the toxin out.");
    if (!act.diastatic.empty()) {
        TRY(body.culture.diastatic, one_word<Diastatic>("diastatic", act.diastatic, "no, yes, unknown"));
    }
    body.suspected = act.suspected;
    body.origin = act.origin;
    if (body.culture.killer == KillerPhenotype::killer)
        here.cautions.push_back({"culture.killer",
                                 "A killer yeast kills sensitive Saccharomyces below about 25 °C. Never put this beer "
                                 "or its dregs back into a solera: "
                                 "a sour one loses its Saccharomyces, a clean one its culture."});
    if (body.culture.diastatic == Diastatic::yes)
        here.cautions.push_back({"culture.diastatic",
                                 "A diastatic culture ferments what others leave: a few cells over-carbonate bottles "
                                 "of another beer in months."});
    return body;
}

}  // namespace undercroft::app
