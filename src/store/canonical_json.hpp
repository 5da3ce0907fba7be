// Writes JSON in the one spelling of RFC 8785 (JSON Canonicalization Scheme), so that what is hashed
// is the same on every machine.
//
// Holds: no white space, object names sorted by their UTF-16 code units, the shortest escapes.
// Leaves out: fractions. Numbers in the book are whole and at most 2^53 - 1 either way, where every
// JSON reader agrees on them; decimals travel as strings. Reading is done in entry_codec.cpp.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace undercroft::store {

inline constexpr std::int64_t k_largest_whole_number = (std::int64_t{1} << 53) - 1;

// Order of two UTF-8 texts by their UTF-16 code units (RFC 8785 section 3.2.3). It differs from the
// order of bytes where a character beyond U+FFFF meets one of U+E000 to U+FFFF.
struct Utf16Less {
    bool operator()(std::string_view a, std::string_view b) const;
};

[[nodiscard]] bool is_utf8(std::string_view text);

// `text` must be valid UTF-8.
[[nodiscard]] std::string canonical_text(std::string_view text);
// `value` must lie within k_largest_whole_number.
[[nodiscard]] std::string canonical_number(std::int64_t value);
// The members are canonical already.
[[nodiscard]] std::string canonical_list(const std::vector<std::string>& members);

class CanonicalObject {
public:
    // `value` is canonical already. A name is added once.
    void add(std::string name, std::string value);
    [[nodiscard]] bool empty() const { return m_members.empty(); }
    [[nodiscard]] std::string text() const;

private:
    std::map<std::string, std::string, Utf16Less> m_members;
};

}  // namespace undercroft::store
