// What must hold of an entry before it can stand in a book, beyond the shape of its fields.
#pragma once

#include <string_view>

#include "base/result.hpp"
#include "ledger/entry.hpp"

namespace undercroft::store {

// A UUID of version 7 in lower case and an index of 0 to 999999.
[[nodiscard]] bool is_key(const ledger::EntryKey& key);
// The text of one.
[[nodiscard]] bool is_key_text(std::string_view text);

// Bad_input for a key that is none, a path that is not made of keys, an index beyond the sitting, a person or an
// origin that is named by anything but a commitment or hash.
[[nodiscard]] Result<void> check_entry(const ledger::Entry& entry);

// A body of that kind with nothing in it; Unknown for a kind this program does not know.
[[nodiscard]] ledger::Body empty_body(std::string_view kind);

}  // namespace undercroft::store
