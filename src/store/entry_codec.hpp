// Turns entries and the book's facts into their canonical bytes and back.
//
// Holds: one entry has one text and one text is one entry: decode(encode(e)) is e, and decode refuses
// bytes that encode would not write. The sequence is no part of the bytes; the recorded time is.
// Numbers are whole, decimals are strings with the digits as written, days are ISO texts. Left out of
// an object: a field that is absent or an empty text, list or record, an amount or count of 0, a flag
// that is false. Words of an enumeration, instants and decimals that must be there are always written.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "ledger/entry.hpp"
#include "ledger/journal.hpp"

namespace undercroft::store {

inline constexpr int k_book_format = 1;
inline constexpr int k_entry_format = 4;                  // highest; an entry is written in the lowest that can say it
inline constexpr std::size_t k_longest_text = 64 * 1024;  // bytes of a single text

// Errors, bad_input and naming the field: text that is not UTF-8, holds a NUL or is longer than
// k_longest_text; a key that is no UUID of version 7 with an index of 0 to 999999; an amount beyond
// 2^53 - 1; a decimal of more than 15 digits; a day outside the years 0 to 9999; `by`, a taster or a
// receiver that is not a commitment; a path that is not made of keys.
// An entry of kind Unknown gives back the bytes it was read from.
[[nodiscard]] Result<std::string> encode(const ledger::Entry& entry);
[[nodiscard]] Result<std::string> encode(const ledger::BookFacts& facts);

// Sequence 0. An entry of an unknown kind or a higher format comes back as ledger::Unknown.
// Errors: storage, when the bytes are not those of any entry.
[[nodiscard]] Result<ledger::Entry> decode_entry(std::string_view canonical);
// The same without the quick way for what is in order: what that way is held to.
[[nodiscard]] Result<ledger::Entry> decode_thoroughly(std::string_view canonical);
// Of a newer format, reads what it knows.
[[nodiscard]] Result<ledger::BookFacts> decode_facts(std::string_view canonical);

// The lowest format that can say this entry (docs/book-format.md).
[[nodiscard]] int format_needed(const ledger::Entry& entry);
// The "format" of an entry's canonical bytes; 0 when there is none.
[[nodiscard]] int format_of(std::string_view canonical);
// True for the kinds this program can write.
[[nodiscard]] bool is_known_kind(std::string_view kind);

// Lower-case UUID text (RFC 9562) of that version.
[[nodiscard]] bool is_uuid(std::string_view text, char version);

// Bad_input when the text cannot stand in the book.
[[nodiscard]] Result<void> check_text(std::string_view field, std::string_view text);

}  // namespace undercroft::store
