// Cultures and allergens of every vessel and run found by search: from each place where something was brought, along
// every way it can have gone since (pours, gear, residues), until something ended it. One organism at a time, forwards
// from its source; knows nothing of the replay's liquids, nor of the table of dense_reference.hpp.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "ledger/entry.hpp"
#include "ledger/liquid.hpp"

namespace undercroft::testing {

enum class Amount { known, unknown };

struct Reached {
    std::map<std::string, ledger::Certainty> cultures;  // by "<key of the first entry of the chain>/<which of its own>"
    std::map<std::string, Amount> allergens;            // by group
};

// By the key of the first entry of the chain of a vessel or run; what nothing reaches is left out.
[[nodiscard]] std::map<std::string, Reached> all_ways(const std::vector<ledger::Entry>& entries);

}  // namespace undercroft::testing
