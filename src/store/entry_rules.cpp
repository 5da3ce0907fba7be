#include "store/entry_rules.hpp"

#include <algorithm>

#include "store/digest.hpp"
#include "store/entry_codec.hpp"

namespace undercroft::store {
namespace {

using ledger::EntryKey;

constexpr std::size_t k_uuid_size = 36;
constexpr std::size_t k_key_size = k_uuid_size + 7;
constexpr int k_largest_index = 999'999;

// One key or several with a slash between: an entry placed after another, or in the place of one it supersedes.
bool is_path(std::string_view path) {
    while (true) {
        const auto slash = path.find('/');
        if (!is_key_text(path.substr(0, slash))) return false;
        if (slash == std::string_view::npos) return true;
        path.remove_prefix(slash + 1);
    }
}

Result<void> check_commitment(const char* field, const std::string& text) {
    if (text.empty() || is_commitment(text)) return {};
    return fail(
        ErrorKind::bad_input, field,
        "an entry names people by a commitment of 64 hex digits, never by name: a name could not be forgotten.");
}

Result<void> check_origin(const ledger::Entry& entry) {
    if (entry.origin_book.empty() && entry.origin_hash.empty()) return {};
    if (is_uuid(entry.origin_book, '4') && is_commitment(entry.origin_hash)) return {};
    return fail(ErrorKind::bad_input, "origin",
                "an entry that comes from another book names that book by its UUID and the entry there by a hash of 64 "
                "hex digits; every other entry names neither.");
}

template <std::size_t I = 0>
ledger::Body empty_body_from(std::string_view kind) {
    if constexpr (I == std::variant_size_v<ledger::Body>) {
        return ledger::Unknown{};
    } else {
        using B = std::variant_alternative_t<I, ledger::Body>;
        if constexpr (!std::is_same_v<B, ledger::Unknown>) {
            static const std::string word = ledger::kind_word(B{});
            if (word == kind) return B{};
        }
        return empty_body_from<I + 1>(kind);
    }
}

}  // namespace

bool is_key(const EntryKey& key) {
    return is_uuid(key.sitting, '7') && key.index >= 0 && key.index <= k_largest_index;
}

bool is_key_text(std::string_view text) {
    return text.size() == k_key_size && text[k_uuid_size] == ':' && is_uuid(text.substr(0, k_uuid_size), '7') &&
           std::all_of(text.begin() + k_uuid_size + 1, text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

Result<void> check_entry(const ledger::Entry& entry) {
    if (!is_key(entry.key) || (entry.supersedes && !is_key(*entry.supersedes)))
        return fail(ErrorKind::bad_input, "key",
                    "an entry is named by a UUID of version 7 in lower case and an index of 0 to 999999.");
    if (!is_path(entry.place.path))
        return fail(
            ErrorKind::bad_input, "path",
            "\"" + entry.place.path + "\" is no place: it is the key of an entry, or several with a slash between.");
    if (entry.sitting_size <= entry.key.index)
        return fail(ErrorKind::bad_input, "sitting_size",
                    "entry " + std::to_string(entry.key.index) + " lies outside a sitting of " +
                        std::to_string(entry.sitting_size) + ".");
    TRY_VOID(check_commitment("by", entry.by));
    TRY_VOID(check_origin(entry));
    if (const auto* tasting = std::get_if<ledger::Tasting>(&entry.body))
        TRY_VOID(check_commitment("taster", tasting->taster));
    if (const auto* take = std::get_if<ledger::Take>(&entry.body)) TRY_VOID(check_commitment("person", take->person));
    if (const auto* note = std::get_if<ledger::Note>(&entry.body); note != nullptr && !note->picture.empty())
        if (!is_commitment(note->picture))
            return fail(ErrorKind::bad_input, "picture", "an entry names a picture by a commitment of 64 hex digits.");
    return {};
}

ledger::Body empty_body(std::string_view kind) {
    return empty_body_from(kind);
}

}  // namespace undercroft::store
