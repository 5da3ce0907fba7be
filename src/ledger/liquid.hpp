// What stands in a vessel or a run of bottles, and how what it carries joins when liquids meet.
//
// Holds: a culture never becomes less certain by a pour; an allergen never drops out, and an unknown amount stays
// unknown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "ledger/entry.hpp"
#include "ledger/mix_graph.hpp"
#include "units/volume.hpp"

namespace undercroft::ledger {

// How sure the book is that a culture lives in a liquid. Label notices start at likely, gas and trace at possible.
enum class Certainty { possible, likely, certain };
[[nodiscard]] const char* word(Certainty value);

struct CultureHere {
    int culture = 0;  // index in Cellar::cultures
    Certainty certainty = Certainty::possible;
    Instant since;    // when it first came into this vessel or run
    Instant brought;  // when it last came into this liquid, at least likely alive: pitched, poured in, or found alive
    // Of one that is only suspected because of gear: which (index in Cellar::gear), and the vessel it was last in
    // before; -1 else.
    int gear = -1;
    int gear_was_in = -1;
    friend bool operator==(const CultureHere&, const CultureHere&) = default;
};

struct AllergenHere {
    std::string group;
    std::optional<double> mg_per_litre;  // absent: amount unknown
    friend bool operator==(const AllergenHere&, const AllergenHere&) = default;
};

// What stands in a vessel or a run of bottles. Lists are sorted by their first field.
struct Liquid {
    Volume volume;
    NodeId node = k_no_node;            // k_no_node when nothing is there
    std::vector<CultureHere> cultures;  // of an emptied vessel: what may live in its residue (possible)
    std::vector<AllergenHere> allergens;
    std::vector<int> additions;  // indices in Cellar::additions whose taste it took
};

void carry_culture(std::vector<CultureHere>& there, CultureHere coming);
// Of what is left in an emptied vessel: what lived there may live on, and nobody knows how much of an allergen is left.
[[nodiscard]] std::vector<CultureHere> only_possible(std::vector<CultureHere> cultures);
[[nodiscard]] std::vector<AllergenHere> traces_of(std::vector<AllergenHere> allergens);

// What a treatment does to a culture.
enum class Fate { alive, perhaps_dead, dead };
template <class FateOf>  // Fate(int culture)
void treat_cultures(std::vector<CultureHere>& there, FateOf fate_of) {
    for (CultureHere& here : there)
        if (fate_of(here.culture) == Fate::perhaps_dead) here.certainty = Certainty::possible;
    std::erase_if(there, [&fate_of](const CultureHere& here) { return fate_of(here.culture) == Fate::dead; });
}
// Mixes by volume: `poured` of what holds `coming` goes onto `present`.
void carry_allergens(std::vector<AllergenHere>& there, Volume present, const std::vector<AllergenHere>& coming,
                     Volume poured);
// Water leaves and they stay.
void concentrate_allergens(std::vector<AllergenHere>& there, Volume before, Volume after);
// What comes in without liquid.
void add_allergens(std::vector<AllergenHere>& there, const std::vector<AllergenHere>& coming);
[[nodiscard]] std::vector<AllergenHere> allergens_here(const std::vector<Allergen>& written);

}  // namespace undercroft::ledger
