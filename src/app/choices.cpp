#include "app/choices.hpp"

#include <algorithm>

#include "ledger/entry.hpp"
#include "ledger/liquid.hpp"

namespace undercroft::app {
namespace {

const char* killer_word(tables::KillerType type) {
    switch (type) {
        case tables::KillerType::killer:
            return "killer";
        case tables::KillerType::neutral:
            return "neutral";
        case tables::KillerType::sensitive:
            return "sensitive";
        case tables::KillerType::unknown:
            return "unknown";
        case tables::KillerType::none:
            break;
    }
    return "not applicable";
}

std::vector<std::string> certainty_words() {
    return {ledger::word(ledger::Certainty::possible), ledger::word(ledger::Certainty::likely),
            ledger::word(ledger::Certainty::certain)};
}

}  // namespace

ChoicesView choices_of(const tables::Tables& tables) {
    ChoicesView view;
    for (const tables::Fruit& fruit : tables.fruits)
        if (fruit.row_type == tables::RowType::composite)
            view.fruits.push_back({fruit.id, fruit.name, fruit.form_text, fruit.juice_brix, fruit.total_sugars});
    for (const tables::CultureKind& kind : tables.cultures)
        view.cultures.push_back({kind.id, kind.name, killer_word(kind.killer), kind.diastatic_text, kind.makes_gas(),
                                 kind.may_enter_sour_solera, kind.may_enter_clean_solera});
    for (const tables::ContainerKind& kind : tables.containers)
        view.containers.push_back({kind.id, kind.name, kind.material, kind.volume_ml, kind.head_space_percent,
                                   kind.pressure_container, kind.working_limit_bar, kind.caution});
    for (const tables::Flavouring& row : tables.flavourings)
        view.flavourings.push_back({row.id, row.name, row.form,
                                    row.dose_unit == tables::DoseUnit::g_per_l ? "g/L" : "mL/kg", row.dose_low,
                                    row.dose_mid, row.dose_high, row.days_to_90_percent, row.hazard});
    for (const tables::Allergen& row : tables.allergens) {
        const bool known = std::any_of(view.allergens.begin(), view.allergens.end(),
                                       [&](const AllergenChoice& one) { return one.id == row.id; });
        if (!known) view.allergens.push_back({row.id, row.name});
    }
    view.words = {{"roles", ledger::all_words<ledger::VesselRole>()},
                  {"lot_kinds", ledger::all_words<ledger::LotKind>()},
                  {"reasons", ledger::all_words<ledger::Reason>()},
                  {"loss_causes", ledger::all_words<ledger::LossCause>()},
                  {"take_causes", ledger::all_words<ledger::TakeCause>()},
                  {"addition_kinds", ledger::all_words<ledger::AdditionKind>()},
                  {"killer_phenotypes", ledger::all_words<ledger::KillerPhenotype>()},
                  {"toxins", ledger::all_words<ledger::ToxinType>()},
                  {"diastatic", ledger::all_words<ledger::Diastatic>()},
                  {"recurring", ledger::all_words<ledger::Recurring>()},
                  {"quantities", ledger::all_words<ledger::Quantity>()},
                  {"certainties", certainty_words()},
                  {"entry_kinds", ledger::kind_words()}};
    return view;
}

}  // namespace undercroft::app
