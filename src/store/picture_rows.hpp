// Pictures in the table `picture`.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "ledger/entry.hpp"
#include "ledger/picture.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

// Bad_input unless it is a PNG or JPEG of at most ledger::k_largest_picture bytes with the commitment made of it.
[[nodiscard]] Result<void> check_picture(const ledger::Picture& picture);

// Adds the row as it is: the caller has proved it, and that the book does not hold it yet.
[[nodiscard]] Result<void> insert_picture(Database& database, const ledger::Picture& picture);

// What becomes of a picture that an entry names and nobody has.
enum class MissingPicture { refused, as_forgotten };

// Inside a write transaction: adds the pictures that the book does not hold yet.
// Bad_input when an entry names one that neither the book nor `pictures` holds and that is refused, or when no entry
// names one of `pictures`.
[[nodiscard]] Result<void> insert_pictures(Database& database, const std::vector<ledger::Picture>& pictures,
                                           const std::vector<ledger::Entry>& entries, MissingPicture missing);

// Nothing when the book holds no picture of that commitment.
[[nodiscard]] Result<std::optional<ledger::Picture>> read_picture(Database& database, const std::string& commitment);

// Of every picture, in the order of commitments; the bytes of one are read when it is asked for.
[[nodiscard]] Result<std::vector<std::string>> picture_commitments(Database& database);

// Commitments of the pictures an entry names.
[[nodiscard]] std::set<std::string> pictures_named(const ledger::Entry& entry);

// False in a book of schema step 1, where there is no such table.
[[nodiscard]] Result<bool> has_pictures(Database& database);

}  // namespace undercroft::store
