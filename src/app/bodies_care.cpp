// Care of vessels and gear, treatment of beer, and what a plate confirms.
#include <algorithm>
#include <cmath>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "base/nearest.hpp"
#include "tables/lookup.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// Wood, plastic, rubber and unglazed clay hold what lives below the surface; common practice, no source.
bool is_porous(const std::string& material) {
    static constexpr const char* k_porous[] = {
        "oak",    "wood",     "wooden", "barrel", "cask", "foeder",     "acacia",       "chestnut",
        "cherry", "plastic",  "pe",     "hdpe",   "pet",  "pp",         "polyethylene", "polypropylene",
        "rubber", "silicone", "vinyl",  "pvc",    "clay", "terracotta", "concrete"};
    const std::vector<std::string> words = tables::words_of(material);
    return std::any_of(words.begin(), words.end(), [](const std::string& one) {
        return std::find(std::begin(k_porous), std::end(k_porous), one) != std::end(k_porous);
    });
}

bool same_but_for_case(const std::string& a, const std::string& b) {
    return edit_distance(a, b) == 0;
}

std::string list_of(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& one : names) text += (text.empty() ? "" : ", ") + one;
    return text;
}

// Names of cultures, each once.
std::string cultures_text(const Cellar& cellar, const std::vector<CultureHere>& cultures) {
    std::vector<std::string> names;
    for (const CultureHere& here : cultures) {
        const std::string& name = cellar.cultures[at_index(here.culture)].as.name;
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    return list_of(names);
}

const GearState* gear_in(const Cellar& cellar, const std::string& name) {
    const auto found = std::find_if(cellar.gear.begin(), cellar.gear.end(),
                                    [&name](const GearState& one) { return same_but_for_case(one.name, name); });
    return found == cellar.gear.end() ? nullptr : &*found;
}

// To clean what the book has never seen is a slip of the pen.
Result<void> require_known(const std::vector<std::string>& names, const Here& here) {
    std::vector<std::string> known;
    for (const GearState& one : here.cellar.gear) known.push_back(one.name);
    for (const std::string& name : names) {
        if (gear_in(here.cellar, name) != nullptr) continue;
        std::vector<Fact> facts;
        const auto nearest = nearest_names(name, known, 3);
        if (!nearest.empty()) facts.push_back({"nearest", list_of(nearest)});
        return fail(ErrorKind::not_found, "gear", "No gear \"" + name + "\" was used before: nothing hangs on it.",
                    std::move(facts), "Gear gets its name where it is used: --gear \"" + name + "\" beside a pull.");
    }
    return {};
}

// --- treatment -----------------------------------------------------------------------------------

// One unit is one minute at 60 °C, and the rate grows by 1.393 a degree: the pasteurisation unit of breweries (from
// memory of Del Vecchio, Dayharsh & Baselt 1951, Proc. Am. Soc. Brew. Chem.).
double pasteurisation_units(double celsius, double minutes) {
    return minutes * std::pow(1.393, celsius - 60.0);
}

// Beer is commonly given 15 to 30, sour and fruited beer 50 and more (common practice, no source); the upper ends here.
constexpr double k_units_for_yeast = 30.0;
constexpr double k_units_for_all = 60.0;
constexpr double k_units_that_do_something = 5.0;
// A membrane of 0.45 µm, whole and tested, is called sterile in breweries; 0.65 µm holds yeast (common practice, no
// source).
constexpr double k_pore_for_all_um = 0.45;
constexpr double k_pore_for_yeast_um = 0.65;
constexpr double k_coarsest_um = 2.0;

enum class Reach { none, perhaps, sure };

// What a treatment of that reach does to every kind there is.
void sort_kinds(Treat& body, const tables::Tables& tables, Reach yeasts, Reach others) {
    for (const tables::CultureKind& kind : tables.cultures) {
        if (!kind.is_alive()) continue;
        const bool yeast = kind.group == tables::CultureGroup::yeast || kind.group == tables::CultureGroup::yeast_film;
        const Reach reach = yeast ? yeasts : others;
        if (reach == Reach::none) continue;
        if (reach == Reach::perhaps || kind.diastatic == tables::DiastaticType::yes ||
            kind.diastatic == tables::DiastaticType::unknown)
            body.perhaps.push_back(kind.id);
        else
            (kind.diastatic == tables::DiastaticType::no ? body.gone_unless_diastatic : body.gone).push_back(kind.id);
    }
}

Result<void> heat(Treat& body, const TreatLiquid& act, bool bottled, Here& here) {
    if (act.temperature.empty() || act.minutes.empty())
        return fail(ErrorKind::bad_input, "treat", "How hot, and how long? Write --temperature 62 C --minutes 20.");
    TRY(const Temperature temperature, parse_temperature("temperature", act.temperature));
    if (temperature.in_celsius() < 40 || temperature.in_celsius() > 100)
        return fail(ErrorKind::bad_input, "temperature",
                    act.temperature + " is no heat treatment of beer. Write one between 40 C and 100 C.");
    TRY(const Decimal minutes, parse_number("minutes", act.minutes, 0.01, 10'000));
    body.celsius = Decimal::from_double(temperature.in_celsius(), 1);
    body.minutes = minutes;
    const double units = pasteurisation_units(temperature.in_celsius(), minutes.value());
    const auto reach = [units](double needed) {
        return units >= needed ? Reach::sure : units >= k_units_that_do_something ? Reach::perhaps : Reach::none;
    };
    sort_kinds(body, here.tables, reach(k_units_for_yeast), reach(k_units_for_all));
    here.remarks.push_back(
        number_text(units, 0) + " pasteurisation units: " +
        (units >= k_units_for_all             ? "yeast and bacteria are counted as gone"
         : units >= k_units_for_yeast         ? "yeast is counted as gone, bacteria and mixed cultures stay possible"
         : units >= k_units_that_do_something ? "too few to be sure of; what lives in it stays possible"
                                              : "nothing is counted as killed") +
        "; the enzyme of a diastatic yeast can survive it.");
    here.cautions.push_back(
        {"treat.heat",
         "Hot beer and steam scald, and glass that changes temperature fast bursts: warm and cool it "
         "slowly, goggles and gloves. Alcohol vapour burns: no open flame."});
    if (bottled)
        here.cautions.push_back(
            {"treat.bottles",
             "Closed bottles at 60 °C hold more than twice the pressure they hold at 20 °C: only in "
             "a closed bath with a lid, rated for it, behind a shield, and never what the gas check "
             "objects to."});
    return {};
}

Result<void> filter(Treat& body, const TreatLiquid& act, Here& here) {
    if (act.pore.empty())
        return fail(ErrorKind::bad_input, "treat",
                    "How fine was the filter? Write its pores in micrometres: --pore 0.45.");
    TRY(body.pore_um, parse_number("pore", act.pore, 0.01, 100));
    const double pore = body.pore_um->value();
    const Reach yeasts = pore <= k_pore_for_yeast_um ? Reach::sure
                         : pore <= k_coarsest_um     ? Reach::perhaps
                                                     : Reach::none;
    const Reach others = pore <= k_pore_for_all_um ? Reach::sure : pore <= k_coarsest_um ? Reach::perhaps : Reach::none;
    sort_kinds(body, here.tables, yeasts, others);
    here.remarks.push_back(
        std::string(others == Reach::sure      ? "Sterile filtration: yeast and bacteria are counted as gone"
                    : yeasts == Reach::sure    ? "That holds yeast; bacteria and mixed cultures stay possible"
                    : yeasts == Reach::perhaps ? "Too coarse to be sure of; what lives in it stays possible"
                                               : "Nothing is counted as held back") +
        ". It holds only while the membrane is whole (test it), and what lives in the vessel that "
        "the beer ran into is not held back.");
    return {};
}

Result<void> preserve(Treat& body, const TreatLiquid& act, const Liquid& liquid, Here& here) {
    if (body.method == Treatment::sulphite) {
        if (act.so2.empty())
            return fail(ErrorKind::bad_input, "treat", "How much? Write --so2 \"30 mg/L\", as total SO2 it adds.");
        std::string figure = act.so2;
        if (!figure.ends_with("mg/L"))
            return fail(ErrorKind::bad_input, "so2",
                        "\"" + act.so2 + "\" is no dose. Write milligrams of total SO2 a litre, such as 30 mg/L.");
        figure.erase(figure.size() - 4);
        while (figure.ends_with(' ')) figure.pop_back();
        TRY(const Decimal dose, parse_number("so2", figure, 0.1, 2000));
        TRY(const tables::Allergen* row, here.tables.find_allergen("sulphite"));
        body.allergens.insert(body.allergens.begin(), Allergen{row->id, dose});
        here.cautions.push_back(
            {"treat.sulphite",
             "Sulphite can bring on asthma, and is named as an allergen above 10 mg/L of total SO2. "
             "What beer may hold is regulated (20 mg/L in the EU, 50 mg/L in cask beer with a second "
             "fermentation; from memory): local rules come first. Its gas chokes: open air, no acid "
             "near it."});
    }
    here.remarks.push_back(std::string(word(body.method)) +
                           " slows what lives in it and is never counted as a kill step: cultures stay as they are.");
    if (body.method == Treatment::sorbate) {
        const bool lactic = std::any_of(liquid.cultures.begin(), liquid.cultures.end(), [&](const CultureHere& one) {
            const tables::CultureKind* kind =
                here.tables.culture_row(here.cellar.cultures[at_index(one.culture)].as.kind);
            return kind == nullptr || kind->group == tables::CultureGroup::bacteria ||
                   kind->group == tables::CultureGroup::mixed || kind->group == tables::CultureGroup::unknown;
        });
        if (lactic)
            here.cautions.push_back({"treat.geranium",
                                     "Lactic bacteria are at least possible in it: with sorbate they make a smell of "
                                     "crushed geranium that nothing removes. Keep this beer from every other."});
    }
    return {};
}

// What the vessel is made of stands between a chemical and what lives there.
void say_how_far(Care& body, const VesselState& vessel, Here& here) {
    const std::string& name = vessel.as.name;
    if (body.kill && is_porous(vessel.as.material)) {
        body.in_pores = body.agent != KillAgent::heat;
        here.remarks.push_back(
            body.in_pores
                ? name + " is of " + vessel.as.material +
                      ": only heat reaches what lives below its surface. What lived there stays possible."
                : name + " is of " + vessel.as.material +
                      ": heat is counted as a kill step when it went all the way through (hot to the hand outside).");
    }
    if ((!body.kill || body.in_pores) && !vessel.liquid.cultures.empty())
        here.remarks.push_back("Still possible in " + name + ": " + cultures_text(here.cellar, vessel.liquid.cultures) +
                               (body.kill ? "." : ". Only a kill step ends that (--kill, --with heat)."));
}

}  // namespace

Result<GearNames> gear_from(const std::vector<std::string>& names, Here& here) {
    GearNames gear;
    for (const std::string& name : names) {
        if (name.empty()) return fail(ErrorKind::bad_input, "gear", "Gear needs a name, such as \"long hose\".");
        const GearState* known = gear_in(here.cellar, name);
        const std::string& spelled = known != nullptr ? known->name : name;
        if (std::find(gear.begin(), gear.end(), spelled) != gear.end()) continue;
        if (known == nullptr) here.remarks.push_back(name + " is new to the book.");
        if (known != nullptr && !known->cultures.empty()) {
            std::vector<CultureHere> riding;
            for (const OnGear& one : known->cultures)
                riding.push_back({one.culture, Certainty::possible, one.since, one.since});
            here.remarks.push_back(known->name + " had no kill step since it was in " +
                                   here.cellar.vessels[at_index(known->cultures.front().vessel)].as.name + ": " +
                                   cultures_text(here.cellar, riding) + " is possible in what it touches.");
        }
        gear.push_back(spelled);
    }
    return gear;
}

Result<Care> body_of(const CleanVessel& act, Here& here) {
    Care body;
    body.words = act.words;
    body.method = CareMethod::cleaned;
    if (!act.method.empty()) {
        TRY(body.method, one_word<CareMethod>("method", act.method, "emptied, rinsed, cleaned, sanitised"));
    }
    body.kill = act.kill;
    if (!act.agent.empty()) {
        if (!act.kill)
            return fail(ErrorKind::bad_input, "with", "--with says what a kill step was done with; add --kill.");
        TRY(body.agent,
            one_word<KillAgent>("with", act.agent, "heat, caustic, acid, peracetic, chlorine, iodine, alcohol, other"));
    }
    if (body.kill && !body.agent && (body.method == CareMethod::emptied || body.method == CareMethod::rinsed))
        return fail(ErrorKind::bad_input, "kill", "A plain rinse kills nothing. With what was it done?", {},
                    "Say --with heat, or what else it was.");
    if (act.vessel.empty()) {
        if (act.gear.empty())
            return fail(ErrorKind::bad_input, "vessel", "What was cleaned? A vessel, or --gear NAME.");
        TRY_VOID(require_known(act.gear, here));
    } else {
        TRY(const int vessel, find_vessel(here.cellar, "vessel", act.vessel));
        body.vessel = here.cellar.vessels[at_index(vessel)].key;
        say_how_far(body, here.cellar.vessels[at_index(vessel)], here);
    }
    if (body.kill) {
        for (const std::string& name : act.gear) {
            const GearState* known = gear_in(here.cellar, name);
            body.gear.push_back(known != nullptr ? known->name : name);
        }
        if (!body.gear.empty() && body.agent != KillAgent::heat)
            here.remarks.push_back(
                "Hoses and seals of rubber or plastic hold on to what lived in them; heat reaches it best.");
    } else {
        TRY(body.gear, gear_from(act.gear, here));
    }
    here.cautions.push_back({"care.cleaners",
                             "Acids and caustics: goggles and gloves, cold water first, never mix chlorine with acid, "
                             "rinse well; follow the maker's sheet."});
    if (body.agent == KillAgent::heat)
        here.cautions.push_back({"care.heat",
                                 "Boiling water and steam scald; let them out before it cools, or the vessel is sucked "
                                 "in, and glass bursts when it is heated fast."});
    return body;
}

Result<Treat> body_of(const TreatLiquid& act, Here& here) {
    Treat body;
    TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
    const bool bottled = holder.run >= 0;
    const Liquid& liquid =
        bottled ? here.cellar.runs[at_index(holder.run)].liquid : here.cellar.vessels[at_index(holder.vessel)].liquid;
    body.subject =
        bottled ? here.cellar.runs[at_index(holder.run)].key : here.cellar.vessels[at_index(holder.vessel)].key;
    TRY(body.method, one_word<Treatment>("method", act.method, "heat, filter, sulphite, sorbate"));
    if (bottled && body.method != Treatment::heat)
        return fail(ErrorKind::bad_input, "method",
                    std::string("Closed bottles can be heated; ") + word(body.method) + " is for what is in a vessel.");
    TRY(body.allergens, allergens_from(act.allergens, here));
    switch (body.method) {
        case Treatment::heat: {
            TRY_VOID(heat(body, act, bottled, here));
            break;
        }
        case Treatment::filter: {
            TRY_VOID(filter(body, act, here));
            break;
        }
        case Treatment::sulphite:
        case Treatment::sorbate: {
            TRY_VOID(preserve(body, act, liquid, here));
            break;
        }
    }
    body.words = act.words;
    return body;
}

Result<Confirm> body_of(const ConfirmCulture& act, Here& here) {
    Confirm body;
    TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
    const bool bottled = holder.run >= 0;
    const Liquid& liquid =
        bottled ? here.cellar.runs[at_index(holder.run)].liquid : here.cellar.vessels[at_index(holder.vessel)].liquid;
    const std::string name =
        bottled ? here.cellar.runs[at_index(holder.run)].as.run : here.cellar.vessels[at_index(holder.vessel)].as.name;
    body.subject =
        bottled ? here.cellar.runs[at_index(holder.run)].key : here.cellar.vessels[at_index(holder.vessel)].key;
    for (const CultureHere& one : liquid.cultures) {
        const Culture& culture = here.cellar.cultures[at_index(one.culture)].as;
        if (same_but_for_case(culture.name, act.culture) || culture.kind == act.culture) body.culture = culture.name;
    }
    if (body.culture.empty()) {
        std::vector<Fact> facts;
        const std::string there = cultures_text(here.cellar, liquid.cultures);
        facts.push_back({"the book knows there", there.empty() ? "none" : there});
        return fail(ErrorKind::not_found, "culture",
                    "The book knows no \"" + act.culture + "\" in " + name + " that could be confirmed.",
                    std::move(facts), "If it is there all the same, pitch it: --origin \"found on a plate\".");
    }
    body.how = act.how;
    return body;
}

}  // namespace undercroft::app
