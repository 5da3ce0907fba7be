// An entry told back as the act it could be corrected with.
//
// Holds: amounts are exact, so that correcting an entry with its own act changes nothing; vessels, runs and entries are
// named by number. Nothing for what no act says: verdicts and accepted gas checks (they come with their run), what took
// an entry out, and kinds this program does not know.
// Leaves out: a picture's bytes. Cultures of lots and additions come back by the kind they are of when no other entry
// brings one of that name.
#pragma once

#include <optional>

#include "app/act.hpp"
#include "app/describe.hpp"
#include "ledger/entry.hpp"

namespace undercroft::app {

[[nodiscard]] std::optional<Act> act_of(const ledger::Entry& entry, const Telling& telling);

}  // namespace undercroft::app
