// Hoses, pumps, racking canes: what an organism may ride on from one vessel to the next (DESIGN 5, rule 5).
//
// Holds: what is likely or certain in a vessel that gear touches may live on in the gear, and is possible in every
// vessel and run the gear touches after, until a kill step on the gear. What is only possible does not ride on: a
// warning on everything would warn of nothing.
#pragma once

#include <string>
#include <vector>

#include "base/instant.hpp"
#include "ledger/liquid.hpp"

namespace undercroft::ledger {

struct OnGear {
    int culture = 0;  // index in Cellar::cultures
    Instant since;
    int vessel = 0;  // where it was met most surely, the last of these: index in Cellar::vessels
    Certainty met = Certainty::likely;
};

struct GearState {
    std::string name;
    std::vector<OnGear> cultures;  // by culture
    int last_vessel = -1;          // it touched
    Instant last_used;
};

// Something came into a vessel or a run that nobody put there.
struct Arrival {
    int entry = 0;  // index in Cellar::entries
    int vessel = -1;
    int run = -1;
};

// Its index; added when it is new.
[[nodiscard]] int gear_named(std::vector<GearState>& all, const std::string& name);
// What rides on the gear is suspected in the liquid. True when something of it was not known there.
[[nodiscard]] bool suspect(Liquid& there, const std::vector<GearState>& all, int gear, Instant at);
// What is likely or more in the vessel rides on the gear from then on.
void pick_up(GearState& gear, const Liquid& there, int vessel, Instant at);

}  // namespace undercroft::ledger
