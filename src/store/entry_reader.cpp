#include "store/entry_reader.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <map>
#include <string>
#include <type_traits>
#include <vector>

#include "store/canonical_json.hpp"
#include "store/entry_codec.hpp"
#include "store/entry_fields.hpp"
#include "store/entry_rules.hpp"

namespace undercroft::store {
namespace {

// One past the value that begins at `from`; npos when none does. Texts hold no escapes here.
std::size_t end_of_value(std::string_view text, std::size_t from) {
    int depth = 0;
    for (std::size_t i = from; i < text.size(); ++i) {
        switch (text[i]) {
            case '"':
                i = text.find('"', i + 1);
                if (i == std::string_view::npos) return i;
                break;
            case '{':
            case '[':
                ++depth;
                break;
            case '}':
            case ']':
                if (depth == 0) return i;
                --depth;
                break;
            case ',':
                if (depth == 0) return i;
                break;
            default:
                break;
        }
    }
    return depth == 0 ? text.size() : std::string_view::npos;
}

// Calls visit(value) for each member of "[…]"; false as soon as one does.
template <class Visit>
bool each_of_list(std::string_view text, Visit visit) {
    if (text.size() < 2 || text.front() != '[' || text.back() != ']') return false;
    const std::string_view inside = text.substr(1, text.size() - 2);
    for (std::size_t begin = 0; !inside.empty();) {
        const std::size_t end = end_of_value(inside, begin);
        if (end == std::string_view::npos || !visit(inside.substr(begin, end - begin))) return false;
        if (end == inside.size()) return true;
        if (inside[end] != ',') return false;
        begin = end + 1;
    }
    return true;
}

// Calls visit(name, value) for each member of "{…}"; false as soon as one does, or when a name is out of order.
template <class Visit>
bool each_of_object(std::string_view text, Visit visit) {
    if (text.size() < 2 || text.front() != '{' || text.back() != '}') return false;
    const std::string_view inside = text.substr(1, text.size() - 2);
    std::string_view before;
    for (std::size_t begin = 0; !inside.empty();) {
        if (begin >= inside.size() || inside[begin] != '"') return false;
        const std::size_t quote = inside.find('"', begin + 1);
        if (quote == std::string_view::npos || quote + 1 >= inside.size() || inside[quote + 1] != ':') return false;
        const std::string_view name = inside.substr(begin + 1, quote - begin - 1);
        if (begin > 0 && !Utf16Less{}(before, name)) return false;
        before = name;
        const std::size_t end = end_of_value(inside, quote + 2);
        if (end == std::string_view::npos || !visit(name, inside.substr(quote + 2, end - quote - 2))) return false;
        if (end == inside.size()) return true;
        if (inside[end] != ',') return false;
        begin = end + 1;
    }
    return true;
}

bool read(std::string_view json, std::string_view& text) {
    if (json.size() < 2 || json.front() != '"' || json.find('"', 1) != json.size() - 1) return false;
    text = json.substr(1, json.size() - 2);
    return text.size() <= k_longest_text;
}

bool read(std::string_view json, std::string& text) {
    std::string_view view;
    if (!read(json, view)) return false;
    text = view;
    return true;
}

bool read(std::string_view json, std::int64_t& number) {
    const auto [end, code] = std::from_chars(json.data(), json.data() + json.size(), number);
    if (code != std::errc{} || end != json.data() + json.size()) return false;
    if (number > k_largest_whole_number || number < -k_largest_whole_number) return false;
    // Neither "007" nor "-0".
    return number == 0 ? json == "0" : json[json.front() == '-' ? 1 : 0] != '0';
}

bool read(std::string_view json, Instant& instant) {
    return read(json, instant.ms);
}

bool read(std::string_view json, ledger::EntryKey& key) {
    std::string_view text;
    if (!read(json, text) || !is_key_text(text)) return false;
    const std::size_t colon = text.rfind(':');
    key.sitting = text.substr(0, colon);
    std::from_chars(text.data() + colon + 1, text.data() + text.size(), key.index);
    return true;
}

bool read(std::string_view json, Decimal& decimal) {
    std::string_view text;
    if (!read(json, text)) return false;
    const auto found = Decimal::parse(text);
    if (!found) return false;
    decimal = *found;
    // As it would be written: no zero too many in front, none missing, nothing below zero that is zero.
    const bool negative = text.front() == '-';
    if (negative) text.remove_prefix(1);
    const bool leads_with_zero = text.front() == '0' && text.size() > 1 && text[1] != '.';
    return text.front() != '.' && !leads_with_zero && !(negative && decimal.mantissa() == 0);
}

bool read(std::string_view json, Day& day) {
    std::string_view text;
    if (!read(json, text)) return false;
    const auto found = parse_iso_day(text);
    if (found) day = *found;
    return found.has_value();
}

bool read(std::string_view json, Word auto& value) {
    std::string text;
    if (!read(json, text)) return false;
    const auto found = ledger::from_word<std::remove_reference_t<decltype(value)>>(text);
    if (found) value = *found;
    return found.has_value();
}

template <class T>
requires std::is_class_v<T>
bool read(std::string_view json, T& record);

// Gives every field of a record its value, and knows whether all of the text was used.
class FieldTaker {
public:
    explicit FieldTaker(std::string_view object) {
        m_good = each_of_object(object, [this](std::string_view name, std::string_view value) {
            // A name without a value is damage, not a field that was left out.
            if (m_count == m_members.size() || value.empty()) return false;
            m_members[m_count++] = {name, value};
            return true;
        });
    }

    template <class T>
    void operator()(const char* name, T& member) {
        const std::string_view value = take(name);
        if (value.empty())
            m_good = m_good && may_be_left_out<T>();
        else
            m_good = m_good && read_member(value, member);
    }

    // The value of a member, empty when it is not there.
    std::string_view take(std::string_view name) {
        for (std::size_t i = 0; i < m_count; ++i)
            if (m_members[i].first == name) {
                ++m_taken;
                return m_members[i].second;
            }
        return {};
    }
    // All fields read, and nothing there that is no field.
    [[nodiscard]] bool finished() const { return m_good && m_taken == m_count; }

private:
    template <class T>
    static constexpr bool may_be_left_out() {
        return !Word<T> && !std::is_same_v<T, Instant> && !std::is_same_v<T, Decimal>;
    }

    // What is empty or zero is left out of an object, so it must not be there.
    static bool read_member(std::string_view json, bool& flag) {
        flag = true;
        return json == "true";
    }
    static bool read_member(std::string_view json, int& count) {
        std::int64_t number = 0;
        if (!read(json, number) || number > std::numeric_limits<int>::max() || number < std::numeric_limits<int>::min())
            return false;
        count = static_cast<int>(number);
        return count != 0;
    }
    static bool read_member(std::string_view json, Volume& volume) {
        std::int64_t number = 0;
        const bool good = read(json, number);
        volume = Volume::from_ul(number);
        return good && number != 0;
    }
    static bool read_member(std::string_view json, Mass& mass) {
        std::int64_t number = 0;
        const bool good = read(json, number);
        mass = Mass::from_mg(number);
        return good && number != 0;
    }
    static bool read_member(std::string_view json, Length& length) {
        std::int64_t number = 0;
        const bool good = read(json, number);
        length = Length::from_um(number);
        return good && number != 0;
    }
    static bool read_member(std::string_view json, std::string& text) { return read(json, text) && !text.empty(); }
    static bool read_member(std::string_view json, Instant& instant) { return read(json, instant); }
    static bool read_member(std::string_view json, ledger::EntryKey& key) { return read(json, key); }
    static bool read_member(std::string_view json, Decimal& decimal) { return read(json, decimal); }
    static bool read_member(std::string_view json, Word auto& value) { return read(json, value); }
    template <class T>
    static bool read_member(std::string_view json, std::optional<T>& value) {
        return read(json, value.emplace());
    }
    template <class T>
    static bool read_member(std::string_view json, std::vector<T>& members) {
        const auto add = [&members](std::string_view member) { return read(member, members.emplace_back()); };
        return each_of_list(json, add) && !members.empty();
    }
    template <class T>
    static bool read_member(std::string_view json, std::map<std::string, T>& members) {
        const auto add = [&members](std::string_view name, std::string_view value) {
            return name.size() <= k_longest_text && read(value, members[std::string(name)]);
        };
        return each_of_object(json, add) && !members.empty();
    }
    template <class T>
    requires std::is_class_v<T>
    static bool read_member(std::string_view json, T& record) { return json != "{}" && read(json, record); }

    std::array<std::pair<std::string_view, std::string_view>, 24> m_members;
    std::size_t m_count = 0;
    std::size_t m_taken = 0;
    bool m_good = false;
};

template <class T>
requires std::is_class_v<T>
bool read(std::string_view json, T& record) {
    FieldTaker taker{json};
    fields(taker, record);
    return taker.finished();
}

// No escapes, no control characters, valid UTF-8: texts can be taken as they stand.
bool is_plain(std::string_view canonical) {
    bool plain = true;
    bool ascii = true;
    for (const char c : canonical) {  // no way out early: so it takes many bytes at once
        const auto byte = static_cast<unsigned char>(c);
        plain &= byte >= 0x20 && c != '\\';
        ascii &= byte < 0x80;
    }
    return plain && (ascii || is_utf8(canonical));
}

}  // namespace

std::optional<ledger::Entry> read_canonical(std::string_view canonical) {
    if (!is_plain(canonical)) return std::nullopt;
    FieldTaker envelope{canonical};
    std::string_view kind;
    const std::string_view format = envelope.take("format");
    if (!read(envelope.take("kind"), kind)) return std::nullopt;
    const std::string_view body = envelope.take("body");
    std::optional<ledger::Entry> entry{std::in_place};
    entry->sitting_size = 0;
    envelope_fields(envelope, *entry);
    if (!envelope.finished()) return std::nullopt;
    entry->body = empty_body(kind);
    const bool good = std::visit(
        [body](auto& of_kind) {
            if constexpr (std::is_same_v<std::remove_cvref_t<decltype(of_kind)>, ledger::Unknown>)
                return false;
            else
                return read(body, of_kind);
        },
        entry->body);
    if (!good || format != std::to_string(format_needed(*entry)) || !check_entry(*entry)) return std::nullopt;
    return entry;
}

}  // namespace undercroft::store
