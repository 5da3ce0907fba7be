#include "store/digest.hpp"

#include <sodium.h>

#include <algorithm>
#include <cstdlib>

namespace undercroft::store {
namespace {

// Domain tags: no bytes can be read as both a book and an entry.
constexpr std::string_view k_facts_tag = "undercroft book 1\n";
constexpr std::string_view k_entry_tag = "undercroft entry 1\n";
constexpr std::string_view k_origin_tag = "undercroft origin 1\n";

const unsigned char* bytes(std::string_view text) {
    return reinterpret_cast<const unsigned char*>(text.data());
}

bool is_lower_hex(std::string_view text) {
    return std::all_of(text.begin(), text.end(),
                       [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

int nibble(char c) {
    return c <= '9' ? c - '0' : c - 'a' + 10;
}

}  // namespace

std::string blake2b_256(std::initializer_list<std::string_view> parts) {
    static const bool ready = sodium_init() >= 0;
    crypto_generichash_blake2b_state state;
    if (!ready || crypto_generichash_blake2b_init(&state, nullptr, 0, k_digest_bytes) != 0) std::abort();
    for (const std::string_view part : parts) crypto_generichash_blake2b_update(&state, bytes(part), part.size());
    unsigned char digest[k_digest_bytes];
    crypto_generichash_blake2b_final(&state, digest, k_digest_bytes);
    return {reinterpret_cast<const char*>(digest), k_digest_bytes};
}

std::string link_of_facts(std::string_view canonical) {
    return blake2b_256({k_facts_tag, canonical});
}

std::string link_of_entry(std::string_view previous_link, std::string_view canonical) {
    return blake2b_256({k_entry_tag, previous_link, canonical});
}

std::string hash_of_entry(std::string_view canonical) {
    return blake2b_256({k_origin_tag, canonical});
}

std::string hex_of(std::string_view raw) {
    constexpr std::string_view k_digits = "0123456789abcdef";
    std::string text;
    for (const char c : raw) {
        const unsigned byte = static_cast<unsigned char>(c);
        text += k_digits[byte >> 4U];
        text += k_digits[byte & 15U];
    }
    return text;
}

bool is_commitment(std::string_view text) {
    return text.size() == 2 * k_digest_bytes && is_lower_hex(text);
}

bool is_salt(std::string_view text) {
    return text.size() == k_salt_digits && is_lower_hex(text);
}

std::string commitment_of(std::string_view salt_hex, std::string_view name) {
    if (!is_salt(salt_hex)) return {};
    std::string salt;
    for (std::size_t i = 0; i < salt_hex.size(); i += 2)
        salt += static_cast<char>(nibble(salt_hex[i]) * 16 + nibble(salt_hex[i + 1]));
    return hex_of(blake2b_256({salt, name}));
}

}  // namespace undercroft::store
