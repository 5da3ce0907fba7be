// The hashes that bind a book together: BLAKE2b (RFC 7693) with a digest of 32 bytes, unkeyed.
//
// Holds: what is hashed is written down in docs/book-format.md and never changes; a link covers the
// one before it, so the last link of a book stands for all of it.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace undercroft::store {

inline constexpr std::size_t k_digest_bytes = 32;
inline constexpr std::size_t k_salt_digits = 32;  // in hex

// 32 raw bytes: BLAKE2b-256 over the parts one after the other.
[[nodiscard]] std::string blake2b_256(std::initializer_list<std::string_view> parts);

// Link 0: over the canonical bytes of the book's facts.
[[nodiscard]] std::string link_of_facts(std::string_view canonical);
// Link n: over link n - 1 and the canonical bytes of entry n.
[[nodiscard]] std::string link_of_entry(std::string_view previous_link, std::string_view canonical);

// What names an entry in any other book: over its canonical bytes alone. 32 raw bytes.
[[nodiscard]] std::string hash_of_entry(std::string_view canonical);

// Lower-case hex.
[[nodiscard]] std::string hex_of(std::string_view bytes);
// A digest or commitment in hex: 64 digits, lower case.
[[nodiscard]] bool is_commitment(std::string_view text);
// A salt: 16 bytes in hex, lower case.
[[nodiscard]] bool is_salt(std::string_view text);

// What an entry holds in place of a name: BLAKE2b-256(salt || name) in hex. `salt_hex` is 16 random bytes
// in hex, drawn by the caller once a person; empty when it is not.
[[nodiscard]] std::string commitment_of(std::string_view salt_hex, std::string_view name);

}  // namespace undercroft::store
