// A cellar and its states as text, to the last bit: two that are told alike are alike.
#pragma once

#include <string>

#include "engine/state/state.hpp"
#include "ledger/replay.hpp"

namespace undercroft::testing {

// Everything about a cellar that must not depend on how its entries arrived.
[[nodiscard]] std::string told(const ledger::Cellar& cellar);
[[nodiscard]] std::string told(const engine::StateBook& states);

}  // namespace undercroft::testing
