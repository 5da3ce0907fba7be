#include "ledger/liquid.hpp"

#include <algorithm>

namespace undercroft::ledger {
namespace {

// Where the group is in the list, or would be.
std::vector<AllergenHere>::iterator spot_of(std::vector<AllergenHere>& list, const std::string& group) {
    return std::lower_bound(list.begin(), list.end(), group,
                            [](const AllergenHere& here, const std::string& wanted) { return here.group < wanted; });
}

}  // namespace

const char* word(Certainty value) {
    switch (value) {
        case Certainty::possible:
            return "possible";
        case Certainty::likely:
            return "likely";
        case Certainty::certain:
            break;
    }
    return "certain";
}

void carry_culture(std::vector<CultureHere>& there, CultureHere coming) {
    const auto spot = std::lower_bound(there.begin(), there.end(), coming.culture,
                                       [](const CultureHere& here, int culture) { return here.culture < culture; });
    if (spot != there.end() && spot->culture == coming.culture) {
        if (coming.certainty > Certainty::possible) spot->brought = std::max(spot->brought, coming.brought);
        if (coming.certainty <= spot->certainty) return;
        spot->certainty = coming.certainty;
        spot->gear = spot->gear_was_in = -1;  // it is more than suspected now
    } else {
        there.insert(spot, coming);
    }
}

void carry_allergens(std::vector<AllergenHere>& there, Volume present, const std::vector<AllergenHere>& coming,
                     Volume poured) {
    // Each share from its own volume: one less the other would lose the digits of a drop left under a full barrel.
    const double together = static_cast<double>((poured + present).ul());
    const double share = static_cast<double>(poured.ul()) / together;
    for (AllergenHere& one : there)
        if (one.mg_per_litre) *one.mg_per_litre *= static_cast<double>(present.ul()) / together;
    for (const AllergenHere& one : coming) {
        const auto spot = spot_of(there, one.group);
        if (spot == there.end() || spot->group != one.group)
            there.insert(spot, {one.group, one.mg_per_litre ? std::optional(*one.mg_per_litre * share) : std::nullopt});
        else if (spot->mg_per_litre && one.mg_per_litre)
            *spot->mg_per_litre += *one.mg_per_litre * share;
        else
            spot->mg_per_litre.reset();
    }
}

std::vector<CultureHere> only_possible(std::vector<CultureHere> cultures) {
    for (CultureHere& here : cultures) here.certainty = Certainty::possible;
    return cultures;
}

std::vector<AllergenHere> traces_of(std::vector<AllergenHere> allergens) {
    for (AllergenHere& here : allergens) here.mg_per_litre.reset();
    return allergens;
}

void concentrate_allergens(std::vector<AllergenHere>& there, Volume before, Volume after) {
    const double factor = static_cast<double>(before.ul()) / static_cast<double>(after.ul());
    for (AllergenHere& one : there)
        if (one.mg_per_litre) *one.mg_per_litre *= factor;
}

std::vector<AllergenHere> allergens_here(const std::vector<Allergen>& written) {
    std::vector<AllergenHere> list;
    for (const Allergen& one : written) {
        AllergenHere here{one.group, std::nullopt};
        if (one.mg_per_litre) here.mg_per_litre = one.mg_per_litre->value();
        list.push_back(std::move(here));
    }
    std::sort(list.begin(), list.end(), [](const auto& a, const auto& b) { return a.group < b.group; });
    return list;
}

void add_allergens(std::vector<AllergenHere>& there, const std::vector<AllergenHere>& coming) {
    for (const AllergenHere& one : coming) {
        const auto spot = spot_of(there, one.group);
        if (spot == there.end() || spot->group != one.group)
            there.insert(spot, one);
        else if (spot->mg_per_litre && one.mg_per_litre)
            *spot->mg_per_litre += *one.mg_per_litre;
        else
            spot->mg_per_litre.reset();
    }
}

}  // namespace undercroft::ledger
