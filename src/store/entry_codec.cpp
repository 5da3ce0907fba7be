#include "store/entry_codec.hpp"

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <type_traits>
#include <utility>

#include "store/canonical_json.hpp"
#include "store/digest.hpp"
#include "store/entry_fields.hpp"
#include "store/entry_reader.hpp"
#include "store/entry_rules.hpp"

namespace undercroft::store {
namespace {

using ledger::EntryKey;

constexpr std::pair<Gallons, const char*> k_gallon_words[] = {
    {Gallons::unset, "unset"}, {Gallons::us, "us"}, {Gallons::imperial, "imperial"}};

const char* word_in_book(Gallons value) {
    for (const auto& [known, text] : k_gallon_words)
        if (known == value) return text;
    return "unset";
}

template <class E>
const char* word_in_book(E value) {
    return ledger::word(value);
}

template <class E>
std::optional<E> from_word_in_book(const std::string& text) {
    if constexpr (std::is_same_v<E, Gallons>) {
        for (const auto& [known, spelling] : k_gallon_words)
            if (text == spelling) return known;
        return std::nullopt;
    } else {
        return ledger::from_word<E>(text);
    }
}

// --- writing -----------------------------------------------------------------------------------

// Collects the fields of one object; the first one that cannot stand in the book is the error.
class FieldWriter {
public:
    void operator()(const char* name, const std::string& text) {
        if (!text.empty()) put(name, written(name, text));
    }
    void operator()(const char* name, bool flag) {
        if (flag) m_object.add(name, "true");
    }
    void operator()(const char* name, int count) {
        if (count != 0) m_object.add(name, canonical_number(count));
    }
    void operator()(const char* name, Volume volume) { amount(name, volume.ul()); }
    void operator()(const char* name, Mass mass) { amount(name, mass.mg()); }
    void operator()(const char* name, Length length) { amount(name, length.um()); }
    void operator()(const char* name, Instant instant) { put(name, written(name, instant.ms)); }
    void operator()(const char* name, const EntryKey& key) {
        if (key != EntryKey{}) put(name, written(name, key));
    }
    void operator()(const char* name, const std::optional<EntryKey>& key) {
        if (key) put(name, written(name, *key));
    }
    void operator()(const char* name, Decimal decimal) { put(name, written(name, decimal)); }
    void operator()(const char* name, const std::optional<Decimal>& decimal) {
        if (decimal) put(name, written(name, *decimal));
    }
    void operator()(const char* name, const std::optional<Day>& day) {
        if (day) put(name, written(name, *day));
    }
    template <Word T>
    void operator()(const char* name, const std::optional<T>& value) {
        if (value) (*this)(name, *value);
    }
    void operator()(const char* name, Word auto value) { m_object.add(name, canonical_text(word_in_book(value))); }
    template <class T>
    void operator()(const char* name, const std::vector<T>& members) {
        if (members.empty()) return;
        std::vector<std::string> texts;
        for (const T& member : members) texts.push_back(taken(written(name, member)));
        m_object.add(name, canonical_list(texts));
    }
    template <class T>
    void operator()(const char* name, const std::map<std::string, T>& members) {
        if (members.empty()) return;
        CanonicalObject object;
        for (const auto& [key, value] : members) {
            keep(check_text(name, key));
            object.add(key, taken(written(name, value)));
        }
        m_object.add(name, object.text());
    }
    template <class T>
    requires std::is_class_v<T>
    void operator()(const char* name, const T& record) {
        FieldWriter inner;
        fields(inner, record);
        if (inner.m_error) keep(Failure{*inner.m_error});
        if (!inner.m_object.empty()) m_object.add(name, inner.m_object.text());
    }

    void add(const char* name, std::string canonical) { m_object.add(name, std::move(canonical)); }

    [[nodiscard]] Result<std::string> finish() const {
        if (m_error) return Failure{*m_error};
        return m_object.text();
    }

private:
    static Result<std::string> written(const char* name, const std::string& text) {
        TRY_VOID(check_text(name, text));
        return canonical_text(text);
    }
    static Result<std::string> written(const char* name, std::int64_t number) {
        if (number > k_largest_whole_number || number < -k_largest_whole_number)
            return fail(ErrorKind::bad_input, name,
                        std::to_string(number) + " is too large: a book counts to " +
                            std::to_string(k_largest_whole_number) + ".");
        return canonical_number(number);
    }
    static Result<std::string> written(const char* name, const EntryKey& key) {
        if (!is_key(key))
            return fail(ErrorKind::bad_input, name,
                        "an entry is named by a UUID of version 7 in lower case and an index of 0 to 999999.");
        return canonical_text(key.text());
    }
    static Result<std::string> written(const char* name, Decimal decimal) {
        // places() outside 0 to 9 is a bug of the caller; reading back tells of too many digits.
        const auto again = Decimal::parse(decimal.text());
        if (!again || *again != decimal)
            return fail(ErrorKind::bad_input, name, "a decimal has at most 15 digits, 9 of them after the point.");
        return canonical_text(decimal.text());
    }
    static Result<std::string> written(const char* name, Day day) {
        const auto again = parse_iso_day(iso_text(day));
        if (!again || *again != day)
            return fail(ErrorKind::bad_input, name, "a day lies in the calendar, in the years 0 to 9999.");
        return canonical_text(iso_text(day));
    }
    template <class T>
    requires std::is_class_v<T>
    static Result<std::string> written(const char*, const T& record) {
        FieldWriter inner;
        fields(inner, record);
        return inner.finish();
    }

    void amount(const char* name, std::int64_t number) {
        if (number != 0) put(name, written(name, number));
    }
    void put(const char* name, Result<std::string> value) { m_object.add(name, taken(std::move(value))); }
    std::string taken(Result<std::string> value) {
        if (value) return *std::move(value);
        if (!m_error) m_error = std::move(value).error();
        return {};
    }
    void keep(const Result<void>& outcome) {
        if (!outcome && !m_error) m_error = outcome.error();
    }

    CanonicalObject m_object;
    std::optional<Error> m_error;
};

// --- reading -----------------------------------------------------------------------------------

// Reads what is there and notes what does not read. Encoding the result again and comparing the bytes
// finds everything else: unknown fields, another order, a field that should have been left out.
class FieldReader {
public:
    FieldReader(const nlohmann::json& object, std::string& wrong) : m_object(object), m_wrong(wrong) {}

    template <class T>
    void operator()(const char* name, T& member) {
        const auto found = m_object.find(name);
        if (found == m_object.end()) return;
        if (!read(*found, member) && m_wrong.empty()) m_wrong = name;
    }

private:
    static bool read(const nlohmann::json& json, std::string& text) {
        if (!json.is_string()) return false;
        text = json.get_ref<const std::string&>();
        return true;
    }
    static bool read(const nlohmann::json& json, bool& flag) {
        if (!json.is_boolean()) return false;
        flag = json.get<bool>();
        return true;
    }
    static bool read(const nlohmann::json& json, std::int64_t& number) {
        if (!json.is_number_integer()) return false;
        number = json.get<std::int64_t>();
        return number <= k_largest_whole_number && number >= -k_largest_whole_number;
    }
    static bool read(const nlohmann::json& json, int& count) {
        std::int64_t number = 0;
        if (!read(json, number) || number > std::numeric_limits<int>::max() || number < std::numeric_limits<int>::min())
            return false;
        count = static_cast<int>(number);
        return true;
    }
    static bool read(const nlohmann::json& json, Volume& volume) {
        std::int64_t number = 0;
        const bool good = read(json, number);
        volume = Volume::from_ul(number);
        return good;
    }
    static bool read(const nlohmann::json& json, Mass& mass) {
        std::int64_t number = 0;
        const bool good = read(json, number);
        mass = Mass::from_mg(number);
        return good;
    }
    static bool read(const nlohmann::json& json, Length& length) {
        std::int64_t number = 0;
        const bool good = read(json, number);
        length = Length::from_um(number);
        return good;
    }
    static bool read(const nlohmann::json& json, Instant& instant) { return read(json, instant.ms); }
    static bool read(const nlohmann::json& json, EntryKey& key) {
        std::string text;
        if (!read(json, text)) return false;
        const auto found = EntryKey::from_text(text);
        if (!found || !is_key(*found)) return false;
        key = *found;
        return true;
    }
    static bool read(const nlohmann::json& json, Decimal& decimal) {
        std::string text;
        if (!read(json, text)) return false;
        const auto found = Decimal::parse(text);
        if (found) decimal = *found;
        return found.has_value();
    }
    static bool read(const nlohmann::json& json, Day& day) {
        std::string text;
        if (!read(json, text)) return false;
        const auto found = parse_iso_day(text);
        if (found) day = *found;
        return found.has_value();
    }
    static bool read(const nlohmann::json& json, Word auto& value) {
        std::string text;
        if (!read(json, text)) return false;
        const auto found = from_word_in_book<std::remove_reference_t<decltype(value)>>(text);
        if (found) value = *found;
        return found.has_value();
    }
    template <class T>
    static bool read(const nlohmann::json& json, std::optional<T>& value) {
        return read(json, value.emplace());
    }
    template <class T>
    static bool read(const nlohmann::json& json, std::vector<T>& members) {
        if (!json.is_array()) return false;
        return std::all_of(json.begin(), json.end(),
                           [&](const nlohmann::json& member) { return read(member, members.emplace_back()); });
    }
    template <class T>
    static bool read(const nlohmann::json& json, std::map<std::string, T>& members) {
        if (!json.is_object()) return false;
        const auto items = json.items();
        return std::all_of(items.begin(), items.end(),
                           [&](const auto& item) { return read(item.value(), members[item.key()]); });
    }
    template <class T>
    requires std::is_class_v<T>
    static bool read(const nlohmann::json& json, T& record) {
        if (!json.is_object()) return false;
        std::string wrong;
        FieldReader inner{json, wrong};
        fields(inner, record);
        return wrong.empty();
    }

    const nlohmann::json& m_object;
    std::string& m_wrong;
};

Failure damaged(const std::string& what) {
    return fail(ErrorKind::storage, "entry", "the stored bytes are not those of an entry: " + what);
}

nlohmann::json parsed_object(std::string_view canonical) {
    nlohmann::json json = nlohmann::json::parse(canonical, nullptr, /*allow_exceptions=*/false);
    return json.is_object() ? json : nlohmann::json{};
}

int whole(const nlohmann::json& object, const char* name) {
    const auto found = object.find(name);
    if (found == object.end() || !found->is_number_integer()) return 0;
    const auto number = found->get<std::int64_t>();
    return number > 0 && number <= std::numeric_limits<int>::max() ? static_cast<int>(number) : 0;
}

}  // namespace

bool is_uuid(std::string_view text, char version) {
    if (text.size() != 36 || text[14] != version || std::string_view("89ab").find(text[19]) == std::string_view::npos)
        return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool dash = i == 8 || i == 13 || i == 18 || i == 23;
        if (dash ? c != '-' : !((c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'))) return false;
    }
    return true;
}

Result<void> check_text(std::string_view field, std::string_view text) {
    const std::string where{field};
    if (text.size() > k_longest_text)
        return fail(ErrorKind::bad_input, where,
                    "a text of " + std::to_string(text.size()) + " bytes is too long: at most " +
                        std::to_string(k_longest_text) + ".");
    if (text.find('\0') != std::string_view::npos)
        return fail(ErrorKind::bad_input, where, "the text holds a NUL character; leave it out.");
    if (!is_utf8(text)) return fail(ErrorKind::bad_input, where, "the text is not valid UTF-8.");
    return {};
}

Result<std::string> encode(const ledger::Entry& entry) {
    if (const auto* unknown = std::get_if<ledger::Unknown>(&entry.body)) return unknown->canonical;
    TRY_VOID(check_entry(entry));

    FieldWriter body;
    std::visit(
        [&](const auto& of_kind) {
            if constexpr (!std::is_same_v<std::remove_cvref_t<decltype(of_kind)>, ledger::Unknown>)
                fields(body, of_kind);
        },
        entry.body);
    TRY(std::string body_text, body.finish());
    FieldWriter whole_entry;
    envelope_fields(whole_entry, entry);
    whole_entry.add("format", canonical_number(format_needed(entry)));
    whole_entry.add("kind", canonical_text(ledger::kind_word(entry.body)));
    whole_entry.add("body", std::move(body_text));
    return whole_entry.finish();
}

Result<std::string> encode(const ledger::BookFacts& facts) {
    FieldWriter writer;
    fields(writer, facts);
    return writer.finish();
}

Result<ledger::Entry> decode_entry(std::string_view canonical) {
    if (auto entry = read_canonical(canonical)) return *std::move(entry);
    return decode_thoroughly(canonical);
}

Result<ledger::Entry> decode_thoroughly(std::string_view canonical) {
    const nlohmann::json json = parsed_object(canonical);
    if (json.is_null()) return damaged("they are no JSON object.");
    const auto kind = json.find("kind");
    const int format = whole(json, "format");
    if (kind == json.end() || !kind->is_string() || format == 0) return damaged("kind or format is missing.");

    ledger::Entry entry;
    entry.sitting_size = 0;
    std::string wrong;
    FieldReader reader{json, wrong};
    envelope_fields(reader, entry);
    if (wrong.empty() && (!is_key(entry.key) || entry.sitting_size <= entry.key.index)) wrong = "key";
    if (!wrong.empty()) return damaged("\"" + wrong + "\" does not read.");

    const std::string& kind_text = kind->get_ref<const std::string&>();
    entry.body = empty_body(kind_text);
    if (format > k_entry_format || std::holds_alternative<ledger::Unknown>(entry.body)) {
        entry.body = ledger::Unknown{kind_text, std::string(canonical)};
        return entry;
    }
    const auto body = json.find("body");
    if (body == json.end() || !body->is_object()) return damaged("\"body\" is missing.");
    FieldReader body_reader{*body, wrong};
    std::visit(
        [&](auto& of_kind) {
            if constexpr (!std::is_same_v<std::remove_cvref_t<decltype(of_kind)>, ledger::Unknown>)
                fields(body_reader, of_kind);
        },
        entry.body);
    if (!wrong.empty()) return damaged("\"body." + wrong + "\" does not read.");
    const auto again = encode(entry);
    if (!again || *again != canonical) return damaged("they are not in canonical form.");
    return entry;
}

Result<ledger::BookFacts> decode_facts(std::string_view canonical) {
    const nlohmann::json json = parsed_object(canonical);
    ledger::BookFacts facts;
    facts.format = 0;
    std::string wrong = json.is_null() ? "facts" : "";
    FieldReader reader{json, wrong};
    if (wrong.empty()) fields(reader, facts);
    if (wrong.empty() && (!is_uuid(facts.id, '4') || facts.format < 1)) wrong = "id or format";
    // A newer format may say more than we know; of our own, every byte must be as we write it.
    if (wrong.empty() && facts.format <= k_book_format) {
        const auto again = encode(facts);
        if (!again || *again != canonical) wrong = "canonical form";
    }
    if (!wrong.empty())
        return fail(ErrorKind::storage, "book", "the facts of the book are damaged: \"" + wrong + "\" does not read.");
    return facts;
}

int format_needed(const ledger::Entry& entry) {
    return std::visit(
        [](const auto& body) {
            using One = std::remove_cvref_t<decltype(body)>;
            if constexpr (std::is_same_v<One, ledger::Note>) return body.picture.empty() ? 1 : 2;
            if constexpr (std::is_same_v<One, ledger::VesselJoins>) return body.gauge == ledger::Gauge{} ? 1 : 3;
            if constexpr (std::is_same_v<One, ledger::Care>)
                if (body.method || body.kill || body.agent || body.in_pores) return 3;
            if constexpr (std::is_same_v<One, ledger::Tasting>)
                if (!body.defines.empty()) return 4;
            if constexpr (requires { body.reason; })
                if (body.reason == ledger::Reason::split) return 3;
            if constexpr (requires { body.gear; })
                if (!body.gear.empty()) return 3;
            return 1;
        },
        entry.body);
}

int format_of(std::string_view canonical) {
    return whole(parsed_object(canonical), "format");
}

bool is_known_kind(std::string_view kind) {
    return !std::holds_alternative<ledger::Unknown>(empty_body(kind));
}

}  // namespace undercroft::store
