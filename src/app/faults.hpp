// What the faults that tasters named mean for a vessel or run now: wait, treat, isolate or dump, and what they forbid.
//
// Holds: a fault goes with its beer: what stood open where the liquid came from stands open where it went, until it
// tastes clear there; an empty vessel that was cleaned by a kill step starts anew. Nothing is booked here.
// Leaves out: how much of the liquid came with it (a share of a musty beer is a musty beer).
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "app/describe.hpp"
#include "engine/taste/fault.hpp"
#include "ledger/replay.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

struct FaultMeaning {
    std::string id;
    std::string name;
    engine::taste::FaultAnswer answer = engine::taste::FaultAnswer::wait;
    std::string first_named;  // ISO, of this spell
    std::string last_named;
    int clear = 0;           // clear tastings since; two are wanted where time mends it
    std::string next_clear;  // ISO: from when a clear tasting counts; empty where time does not mend it
    std::string likely_low;  // ISO: usually gone between these days; empty likewise
    std::string likely_high;
    std::string from;  // name of the vessel where it was named, when that was another one
    bool blocks_pull = false;
    bool blocks_packaging = false;
    bool blocks_refilling = false;
    bool blocks_return_to_solera = false;
    bool unsafe = false;
    std::string words;  // what it means here
    std::string action;
    std::string confirm_how;
    std::string caution;
    std::string source;  // with its mark
};

[[nodiscard]] const char* word(engine::taste::FaultAnswer answer);

// Those that stand, most serious first.
[[nodiscard]] std::vector<FaultMeaning> faults_of(const ledger::Cellar& cellar, const tables::Tables& tables,
                                                  const Telling& telling, const ledger::EntryKey& holder, Instant when);
// Of a book's own fault, which the table does not know: two clear tastings, and no packaging before.
[[nodiscard]] tables::Fault own_fault(const std::string& name, const std::string& explanation);
// What keepers of this book said their own words for attributes and faults mean.
[[nodiscard]] std::map<std::string, std::string> own_words(const ledger::Cellar& cellar);

}  // namespace undercroft::app
