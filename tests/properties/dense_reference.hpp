// The cellar worked out the plain way: a table of holders by lots in long doubles. Cultures are searched in
// all_ways.hpp. Knows nothing of the mix graph; it is what the replay is held to.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ledger/entry.hpp"
#include "ledger/replay.hpp"

namespace undercroft::testing {

struct DenseHolder {
    std::int64_t ul = 0;
    // By "<key of the first entry of the chain>/<lot, found, addition or priming>": microlitres of it.
    std::map<std::string, long double> parts;
    std::map<std::string, std::optional<long double>> allergens;  // mg/L
    bool is_run = false;
    std::int64_t fill = 0;  // of a run
};

struct DenseCellar {
    std::map<std::string, DenseHolder> holders;  // by key of the first entry of the chain
    std::int64_t in = 0;
    std::int64_t out = 0;
};

[[nodiscard]] DenseCellar dense_cellar_of(const std::vector<ledger::Entry>& entries);

// The name a lot of a replayed cellar goes by in DenseHolder::parts; by index in Cellar::lots.
[[nodiscard]] std::vector<std::string> dense_lot_names(const ledger::Cellar& cellar);
[[nodiscard]] std::vector<std::string> dense_culture_names(const ledger::Cellar& cellar);

}  // namespace undercroft::testing
