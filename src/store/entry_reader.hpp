// Reads the canonical bytes of an entry in one pass, without building a document and writing it out again.
//
// Holds: accepts only bytes that encode() would write, and reads them as decode_entry() does. What it is not made
// for (escapes in texts, kinds and formats it does not know, damage) it leaves to decode_entry(): it answers nothing.
#pragma once

#include <optional>
#include <string_view>

#include "ledger/entry.hpp"

namespace undercroft::store {

[[nodiscard]] std::optional<ledger::Entry> read_canonical(std::string_view canonical);

}  // namespace undercroft::store
