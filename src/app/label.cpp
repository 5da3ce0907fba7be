#include "app/label.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

#include "app/bodies.hpp"
#include "app/shelf.hpp"
#include "engine/state/alive.hpp"

namespace undercroft::app {
namespace {

constexpr std::size_t k_parts_on_a_label = 4;

std::string make_up_text(const engine::Age& age) {
    // Oldest first, as the strata lie; the long tail is one line.
    std::vector<engine::VintagePart> parts(
        age.parts.begin(),
        age.parts.begin() + static_cast<std::ptrdiff_t>(std::min(age.parts.size(), k_parts_on_a_label)));
    std::stable_sort(parts.begin(), parts.end(),
                     [](const auto& a, const auto& b) { return a.age_years > b.age_years; });
    double named = 0.0;
    std::string text;
    for (const engine::VintagePart& part : parts) {
        named += part.share;
        text += (text.empty() ? "" : ", ") + percent_text(part.share, 0) + " " + part.name + " (" +
                duration_text(part.age_years) + (part.assumed ? ", assumed" : "") + ")";
    }
    if (age.parts.size() > k_parts_on_a_label)
        text += ", " + percent_text(1.0 - named, 0) + " from " + std::to_string(age.parts.size() - k_parts_on_a_label) +
                " more";
    return text;
}

// In words, from what is at least likely.
void take_notice(LabelClaims& claims, const ledger::Cellar& cellar, const ledger::Liquid& liquid,
                 const engine::LiquidState& state, const tables::Tables& tables, Instant when) {
    bool killer = false;
    bool diastatic = false;
    bool mixed = false;
    bool alive = false;
    bool unknown_killer = false;
    for (const ledger::CultureHere& here : liquid.cultures) {
        const ledger::Culture& culture = cellar.cultures[at_index(here.culture)].as;
        const ledger::Certainty certainty = engine::certainty_at(here, state, tables.culture_row(culture.kind), when);
        if (certainty == ledger::Certainty::possible) continue;
        const auto kind = tables.find_culture(culture.kind);
        if (kind && !(*kind)->is_alive()) continue;
        alive = true;
        if (culture.killer == ledger::KillerPhenotype::killer) {
            killer = true;
            claims.killer = std::max(certainty, claims.killer.value_or(certainty));
        }
        unknown_killer = unknown_killer || culture.killer == ledger::KillerPhenotype::unknown;
        diastatic = diastatic || culture.diastatic == ledger::Diastatic::yes;
        if (kind)
            mixed = mixed || (*kind)->group == tables::CultureGroup::mixed ||
                    (*kind)->group == tables::CultureGroup::bacteria || (*kind)->group == tables::CultureGroup::unknown;
    }
    std::string& text = claims.culture;
    text = alive ? "Live culture inside." : "No live culture is known to be inside.";
    if (killer) text += " A killer wine yeast is among it: please do not pitch the dregs into another beer.";
    if (!killer && unknown_killer)
        text += " Whether it kills other yeast is not known: do not pitch the dregs into a beer you care for.";
    if (diastatic) text += " It ferments what other yeasts leave: dregs of it over-carbonate other bottles.";
    if (mixed) text += " Wild yeast and lactic bacteria are among it: they stay in wood and hoses.";
}

std::string allergen_text(const ledger::Liquid& liquid, const tables::Tables& tables) {
    std::string text;
    for (const ledger::AllergenHere& allergen : liquid.allergens) {
        const tables::Allergen* row = tables::allergen_in(tables.allergens, allergen.group, tables::Region::eu);
        std::string name = row != nullptr ? row->name : allergen.group;
        if (allergen.mg_per_litre) {
            if (row != nullptr && row->declare_from_mg_per_l && *allergen.mg_per_litre < *row->declare_from_mg_per_l)
                continue;
            name += " (" + number_text(*allergen.mg_per_litre, 0) + " mg/L)";
        } else if (row != nullptr && row->declare_from_mg_per_l) {
            name += " (amount unknown)";
        }
        text += (text.empty() ? "" : "; ") + name;
    }
    return text.empty() ? "none known" : text;
}

// How a beer of this kind is kept and poured; common practice, no source. Days as data/tasks.csv has them:
// condition_sour, condition_clean, open_later.
struct Keeping {
    int from_days = 21;
    int until_months = 12;
    const char* serving = "at 6 to 10 °C, poured off its sediment";
};

Keeping keeping_of(const ledger::Cellar& cellar, const ledger::Liquid& liquid, const LabelClaims& claims,
                   const tables::Tables& tables) {
    constexpr double k_strong = 8.0;  // % vol
    const bool hopped = std::any_of(liquid.additions.begin(), liquid.additions.end(), [&](int index) {
        return cellar.additions[at_index(index)].as.kind == ledger::AdditionKind::hops;
    });
    const bool sour = std::any_of(liquid.cultures.begin(), liquid.cultures.end(), [&](const ledger::CultureHere& here) {
        const tables::CultureKind* kind = tables.culture_row(cellar.cultures[at_index(here.culture)].as.kind);
        return kind != nullptr && kind->makes_acid.find("lactic") != std::string::npos;
    });
    Keeping keeping;
    if (sour) keeping = {42, 24, "at 8 to 12 °C, stood upright for a day and poured off its sediment"};
    if (claims.alcohol && *claims.alcohol >= k_strong) {
        keeping.until_months = 48;
        keeping.serving = "at 10 to 14 °C, stood upright for a day and poured off its sediment";
    }
    if (hopped) keeping.until_months = 4;
    return keeping;
}

std::string month_text(Day day) {
    return iso_text(day).substr(0, 7);
}

// The number a text begins with, a decimal point in it.
std::optional<double> leading_number(std::string_view text) {
    double value = 0.0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), value);
    return code == std::errc{} ? std::optional(value) : std::nullopt;
}

double rounded(double value) {
    return std::round(value * 10.0) / 10.0;
}

}  // namespace

std::vector<Stratum> strata_of(const std::optional<engine::Age>& age) {
    std::vector<Stratum> strata;
    if (!age) return strata;
    for (const engine::VintagePart& part : age->parts) strata.push_back({part.share, part.age_years});
    std::stable_sort(strata.begin(), strata.end(),
                     [](const Stratum& a, const Stratum& b) { return a.age_years > b.age_years; });
    return strata;
}

std::string LabelClaims::alcohol_text() const {
    return alcohol ? number_text(*alcohol, 1) + " % vol (± " + number_text(alcohol_tolerance, 1) + ")" : std::string();
}

LabelClaims claims_of(const ledger::Cellar& cellar, const engine::StateBook& states, const tables::Tables& tables,
                      int run, Instant when) {
    const ledger::Liquid& liquid = cellar.runs[at_index(run)].liquid;
    LabelClaims claims;
    claims.allergens = allergen_text(liquid, tables);
    take_notice(claims, cellar, liquid, states.runs[at_index(run)], tables, when);
    if (const auto alcohol = states.runs[at_index(run)].alcohol()) {
        claims.alcohol = rounded(alcohol->mean);
        claims.alcohol_tolerance = rounded(std::max(0.1, 2.0 * alcohol->sd));
    }
    return claims;
}

LabelClaims claims_of(const std::map<std::string, std::string>& facts) {
    LabelClaims claims;
    for (const auto& [name, value] : facts) {
        if (name == "allergens") claims.allergens = value;
        if (name == "culture") claims.culture = value;
        if (name != "alcohol") continue;
        constexpr std::string_view k_either_side = "± ";
        claims.alcohol = leading_number(value);
        if (const auto at = value.find(k_either_side); at != std::string::npos)
            claims.alcohol_tolerance =
                leading_number(std::string_view(value).substr(at + k_either_side.size())).value_or(0.0);
    }
    return claims;
}

LabelView label_of(const Seen& seen, const tables::Tables& tables, int run, const std::string& beer_name) {
    const ledger::RunState& state = seen.cellar.runs[at_index(run)];
    LabelView label;
    label.run = state.as.run;
    const auto fact = [&label](const std::string& name, const std::string& value) {
        label.facts.emplace_back(name, value);
    };
    fact("name", beer_name.empty() ? solera_behind(seen.cellar, run) : beer_name);
    fact("run", state.as.run);
    fact("packaged", seen.telling.day_text(state.packaged));
    fact("contents", seen.telling.volume(state.as.fill));
    if (const auto age =
            engine::age_of(seen.cellar, state.liquid, state.packaged, seen.telling.zone, engine::AgeFrom::brew_day)) {
        fact("make-up", make_up_text(*age));
        label.strata = strata_of(age);
        fact("age", duration_text(age->mean_years) + " on average when packaged, from brew day; youngest part " +
                        duration_text(age->youngest_years) + (age->assumed ? "; in part assumed" : ""));
        std::vector<std::string> took;
        for (const int index : state.liquid.additions) {
            const ledger::AdditionState& addition = seen.cellar.additions[at_index(index)];
            if (addition.as.kind == ledger::AdditionKind::fruit || addition.as.kind == ledger::AdditionKind::spice ||
                addition.as.kind == ledger::AdditionKind::oak || addition.as.kind == ledger::AdditionKind::hops)
                if (std::find(took.begin(), took.end(), addition.as.name) == took.end())
                    took.push_back(addition.as.name);
        }
        std::string list;
        for (const std::string& one : took) list += (list.empty() ? "" : ", ") + one;
        if (!list.empty()) fact("with", list);
    }
    const LabelClaims claims = claims_of(seen.cellar, seen.states, tables, run, seen.when);
    if (claims.alcohol) fact("alcohol", claims.alcohol_text());
    fact("allergens", claims.allergens);
    fact("culture", claims.culture);
    const Keeping keeping = keeping_of(seen.cellar, state.liquid, claims, tables);
    constexpr double k_days_a_month = 365.25 / 12.0;
    const Day packaged = day_of(state.packaged, seen.telling.zone);
    const auto until = static_cast<int>(std::lround(keeping.until_months * k_days_a_month));
    fact("best", "from " + iso_text(add_days(packaged, keeping.from_days)) + " to about " +
                     month_text(add_days(packaged, until)));
    fact("serving", keeping.serving);
    fact("caution",
         "Under pressure and alive: keep cool and upright, never in a hot car. Chill and point it away from faces "
         "before opening.");
    std::string text;
    for (const auto& [name, value] : label.facts) {
        if (name == "name")
            text += value + "\n";
        else if (name == "run")
            text += "Run " + value;
        else if (name == "packaged")
            text += ", packaged " + value;
        else if (name == "contents")
            text += ", " + value + "\n";
        else if (name == "age")
            text += "Age: " + value + "\n";
        else if (name == "make-up")
            text += "Made up of " + value + "\n";
        else if (name == "with")
            text += "With " + value + "\n";
        else if (name == "alcohol")
            text += "Alcohol " + value + "\n";
        else if (name == "best")
            text += "Best " + value + ". ";
        else if (name == "serving")
            text += "Serve " + value + "\n";
        else if (name == "allergens")
            text += "Allergens: " + value + "\n";
        else
            text += value + "\n";
    }
    label.text = text;
    return label;
}

}  // namespace undercroft::app
