#include "store/canonical_json.hpp"

#include <algorithm>
#include <cassert>
#include <cstdio>

namespace undercroft::store {
namespace {

// UTF-8 lead bytes in the order of the UTF-16 code units they become: characters beyond U+FFFF (lead
// byte 0xF0 and up) are surrogates there, below U+E000 (lead bytes 0xEE and 0xEF).
int rank(char c) {
    const int byte = static_cast<unsigned char>(c);
    return byte == 0xEE || byte == 0xEF ? byte + 0x10 : byte;
}

bool is_continuation(char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

}  // namespace

bool Utf16Less::operator()(std::string_view a, std::string_view b) const {
    return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                        [](char x, char y) { return rank(x) < rank(y); });
}

bool is_utf8(std::string_view text) {
    std::size_t i = 0;
    while (i < text.size()) {
        const unsigned lead = static_cast<unsigned char>(text[i]);
        std::size_t length = 1;
        if (lead >= 0x80) {
            if (lead < 0xC2 || lead > 0xF4) return false;
            length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
            if (text.size() - i < length) return false;
            for (std::size_t k = 1; k < length; ++k)
                if (!is_continuation(text[i + k])) return false;
            const unsigned second = static_cast<unsigned char>(text[i + 1]);
            // Overlong forms, surrogates, beyond U+10FFFF (RFC 3629 section 4).
            if ((lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F) || (lead == 0xF0 && second < 0x90) ||
                (lead == 0xF4 && second > 0x8F))
                return false;
        }
        i += length;
    }
    return true;
}

std::string canonical_text(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        switch (c) {
            case '"':
                out += "\\\"";
                break;
            case '\\':
                out += "\\\\";
                break;
            case '\b':
                out += "\\b";
                break;
            case '\f':
                out += "\\f";
                break;
            case '\n':
                out += "\\n";
                break;
            case '\r':
                out += "\\r";
                break;
            case '\t':
                out += "\\t";
                break;
            default:
                if (const unsigned byte = static_cast<unsigned char>(c); byte < 0x20) {
                    char escape[8];
                    std::snprintf(escape, sizeof escape, "\\u%04x", byte);
                    out += escape;
                } else {
                    out += c;
                }
        }
    }
    return out + "\"";
}

std::string canonical_number(std::int64_t value) {
    assert(value <= k_largest_whole_number && value >= -k_largest_whole_number);
    return std::to_string(value);
}

std::string canonical_list(const std::vector<std::string>& members) {
    std::string out = "[";
    for (const std::string& member : members) {
        if (out.size() > 1) out += ',';
        out += member;
    }
    return out + "]";
}

void CanonicalObject::add(std::string name, std::string value) {
    [[maybe_unused]] const bool fresh = m_members.emplace(std::move(name), std::move(value)).second;
    assert(fresh);
}

std::string CanonicalObject::text() const {
    std::string out = "{";
    for (const auto& [name, value] : m_members) {
        if (out.size() > 1) out += ',';
        out += canonical_text(name) + ":" + value;
    }
    return out + "}";
}

}  // namespace undercroft::store
