#include "ledger/gear.hpp"

#include <algorithm>

namespace undercroft::ledger {

int gear_named(std::vector<GearState>& all, const std::string& name) {
    const auto known = std::find_if(all.begin(), all.end(), [&name](const GearState& one) { return one.name == name; });
    if (known != all.end()) return static_cast<int>(known - all.begin());
    all.push_back({name, {}, -1, {}});
    return static_cast<int>(all.size()) - 1;
}

bool suspect(Liquid& there, const std::vector<GearState>& all, int gear, Instant at) {
    const std::size_t before = there.cultures.size();
    for (const OnGear& one : all[static_cast<std::size_t>(gear)].cultures)
        carry_culture(there.cultures, {one.culture, Certainty::possible, at, at, gear, one.vessel});
    return there.cultures.size() > before;
}

void pick_up(GearState& gear, const Liquid& there, int vessel, Instant at) {
    gear.last_vessel = vessel;
    gear.last_used = at;
    for (const CultureHere& here : there.cultures) {
        if (here.certainty == Certainty::possible) continue;
        const auto spot = std::lower_bound(gear.cultures.begin(), gear.cultures.end(), here.culture,
                                           [](const OnGear& one, int culture) { return one.culture < culture; });
        if (spot == gear.cultures.end() || spot->culture != here.culture) {
            gear.cultures.insert(spot, {here.culture, at, vessel, here.certainty});
        } else if (here.certainty >= spot->met) {
            spot->vessel = vessel;
            spot->met = here.certainty;
        }
    }
}

}  // namespace undercroft::ledger
