// Entries as bytes that are quick to read back, for the cache beside a book (book_cache.hpp). Never a book's own form:
// that is canonical JSON (entry_codec.hpp), which every program reads for ever; this one only the program that wrote
// it.
//
// Holds: entries_of_image(image_of(e)) is e, every member of it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/entry.hpp"

namespace undercroft::store {

// None of kind Unknown.
[[nodiscard]] std::string image_of(std::span<const ledger::Entry> entries);

// The list has room for `room` more. Nothing when the bytes are not those of an image; a damaged one never does harm.
[[nodiscard]] std::optional<std::vector<ledger::Entry>> entries_of_image(std::string_view image, std::size_t room);

// Changes with every kind, field and word of entries, so that a program never reads an image of another form.
// 32 raw bytes.
[[nodiscard]] std::string shape_of_images();

}  // namespace undercroft::store
