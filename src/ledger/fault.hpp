// Why a book cannot be: the first entry that does not fit, with the figures. `app` puts it in words.
#pragma once

#include <string>

#include <tl/expected.hpp>

#include "ledger/entry.hpp"
#include "units/volume.hpp"

namespace undercroft::ledger {

enum class FaultKind {
    more_than_held,     // takes `wanted` where `held` is there
    over_full,          // would hold `wanted` where `held` is the room (capacity less solids)
    bottles_short,      // takes `count` bottles where `held_count` are there
    unknown_reference,  // names an entry that is not there, or not of the right kind
    not_there_yet,      // the vessel joins only later, or has left
    not_empty,          // retired or cleaned with liquid inside
    name_taken,         // a second vessel or run of that name
    same_vessel,        // poured into itself
    broken_chain,       // supersedes an entry that is not there, or that is superseded already
    never_there,        // finds `wanted` where `held` is the most that can be there by all that ever went in
    holds_nothing,      // treated with nothing inside
    no_such_culture,    // confirmed where the book knows none of that name
    absurd,             // a negative or empty amount in an entry
};

struct ReplayFault {
    FaultKind kind = FaultKind::absurd;
    EntryKey entry;    // the entry that does not fit
    std::string what;  // vessel, run or reference concerned
    Volume wanted;
    Volume held;
    int count = 0;
    int held_count = 0;
};

}  // namespace undercroft::ledger
