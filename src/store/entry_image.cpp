#include "store/entry_image.hpp"

#include <bit>
#include <chrono>
#include <cstdint>
#include <cstring>
#include <map>
#include <type_traits>
#include <unordered_map>
#include <utility>

#include "store/digest.hpp"
#include "store/entry_fields.hpp"

namespace undercroft::store {
namespace {

// Raised when how anything is written changes; what is written is in the shape already.
constexpr std::string_view k_image_form = "entry image 1";

// Keys of sittings and commitments come again and again: written once, then by number.
constexpr std::size_t k_uuid_length = 36;
constexpr std::size_t k_commitment_length = 64;
constexpr bool comes_again(std::size_t length) {
    return length == k_uuid_length || length == k_commitment_length;
}

template <class T>
struct ListTraits {
    static constexpr bool k_optional = false, k_list = false, k_map = false;
};
template <class T>
struct ListTraits<std::optional<T>> {
    static constexpr bool k_optional = true, k_list = false, k_map = false;
    using Member = T;
};
template <class T>
struct ListTraits<std::vector<T>> {
    static constexpr bool k_optional = false, k_list = true, k_map = false;
    using Member = T;
};
template <class T>
struct ListTraits<std::map<std::string, T>> {
    static constexpr bool k_optional = false, k_list = false, k_map = true;
    using Member = T;
};

bool is_path(const char* name) {
    return std::strcmp(name, "path") == 0;
}

// An entry that is on its way to bytes.
class ImageWriter {
public:
    void entry(const ledger::Entry& entry) {
        m_own_place = entry.key.text();
        envelope_fields(*this, entry);
        put(entry.sequence);
        put(static_cast<std::int64_t>(entry.body.index()));
        std::visit(
            [this](const auto& body) {
                if constexpr (!std::is_same_v<std::remove_cvref_t<decltype(body)>, ledger::Unknown>)
                    fields(*this, body);
            },
            entry.body);
    }
    template <class T>
    void operator()(const char* name, const T& member) {
        if constexpr (std::is_same_v<T, std::string>)
            if (is_path(name)) {
                // Nearly every entry stands at its own place.
                put(member == m_own_place);
                if (member == m_own_place) return;
            }
        put(member);
    }
    void put(std::int64_t number) {
        auto bits = (static_cast<std::uint64_t>(number) << 1) ^ static_cast<std::uint64_t>(number >> 63);
        for (; bits >= 0x80; bits >>= 7) m_bytes.push_back(static_cast<char>(bits | 0x80));
        m_bytes.push_back(static_cast<char>(bits));
    }
    [[nodiscard]] std::string take() { return std::move(m_bytes); }

private:
    template <class T>
    void put(const T& value) {
        using Traits = ListTraits<T>;
        if constexpr (std::is_same_v<T, bool> || std::is_same_v<T, int> || std::is_enum_v<T>) {
            put(static_cast<std::int64_t>(value));
        } else if constexpr (std::is_same_v<T, std::string>) {
            put_text(value);
        } else if constexpr (std::is_same_v<T, Volume>) {
            put(value.ul());
        } else if constexpr (std::is_same_v<T, Mass>) {
            put(value.mg());
        } else if constexpr (std::is_same_v<T, Length>) {
            put(value.um());
        } else if constexpr (std::is_same_v<T, Instant>) {
            put(value.ms);
        } else if constexpr (std::is_same_v<T, Decimal>) {
            put(value.mantissa());
            put(value.places());
        } else if constexpr (std::is_same_v<T, Day>) {
            put(static_cast<std::int64_t>(std::chrono::sys_days{value}.time_since_epoch().count()));
        } else if constexpr (std::is_same_v<T, ledger::EntryKey>) {
            put_text(value.sitting);
            put(value.index);
        } else if constexpr (Traits::k_optional) {
            put(value.has_value());
            if (value) put(*value);
        } else if constexpr (Traits::k_list) {
            put(static_cast<std::int64_t>(value.size()));
            for (const auto& member : value) put(member);
        } else if constexpr (Traits::k_map) {
            put(static_cast<std::int64_t>(value.size()));
            for (const auto& [name, member] : value) {
                put_text(name);
                put(member);
            }
        } else {
            fields(*this, value);
        }
    }
    // Its length, or below zero the number of one that was there before.
    void put_text(const std::string& text) {
        if (comes_again(text.size())) {
            const auto [spot, is_new] = m_number_of.emplace(text, static_cast<std::int64_t>(m_number_of.size()));
            if (!is_new) return put(-1 - spot->second);
        }
        put(static_cast<std::int64_t>(text.size()));
        m_bytes += text;
    }

    std::string m_bytes;
    std::string m_own_place;
    std::unordered_map<std::string, std::int64_t> m_number_of;
};

// … and back. After anything that does not fit, nothing is read any more.
class ImageReader {
public:
    explicit ImageReader(std::string_view image) : m_at(image.data()), m_end(image.data() + image.size()) {}

    [[nodiscard]] bool good() const { return m_good; }
    [[nodiscard]] bool at_end() const { return m_at == m_end; }

    void entry(ledger::Entry& entry) {
        m_key = &entry.key;
        envelope_fields(*this, entry);
        take(entry.sequence);
        std::int64_t kind = 0;
        take(kind);
        m_good = m_good && take_body(entry.body, kind, std::make_index_sequence<std::variant_size_v<ledger::Body>>{});
    }
    template <class T>
    void operator()(const char* name, T& member) {
        if constexpr (std::is_same_v<T, std::string>)
            if (is_path(name)) {
                bool own = false;
                take(own);
                if (own && m_good) member = m_key->text();
                if (own) return;
            }
        take(member);
    }
    void take(std::int64_t& number) {
        std::uint64_t bits = 0;
        for (unsigned shift = 0; m_good; shift += 7) {
            if (m_at == m_end || shift > 63) return fail();
            const auto byte = static_cast<unsigned char>(*m_at++);
            bits |= static_cast<std::uint64_t>(byte & 0x7F) << shift;
            if (byte < 0x80) break;
        }
        number = static_cast<std::int64_t>(bits >> 1) ^ -static_cast<std::int64_t>(bits & 1);
    }

private:
    void fail() { m_good = false; }

    template <std::size_t... Kind>
    bool take_body(ledger::Body& body, std::int64_t kind, std::index_sequence<Kind...>) {
        return ((static_cast<std::int64_t>(Kind) == kind && take_kind<Kind>(body)) || ...);
    }
    template <std::size_t Kind>
    bool take_kind(ledger::Body& body) {
        if constexpr (std::is_same_v<std::variant_alternative_t<Kind, ledger::Body>, ledger::Unknown>) {
            return false;
        } else {
            fields(*this, body.template emplace<Kind>());
            return m_good;
        }
    }
    // How many follow, each of a byte at least.
    std::size_t take_count() {
        std::int64_t count = 0;
        take(count);
        if (count < 0 || count > m_end - m_at) fail();
        return m_good ? static_cast<std::size_t>(count) : 0;
    }
    template <class T>
    void take(T& value) {
        using Traits = ListTraits<T>;
        std::int64_t number = 0;
        if constexpr (std::is_same_v<T, bool> || std::is_same_v<T, int> || std::is_enum_v<T>) {
            take(number);
            value = static_cast<T>(number);
        } else if constexpr (std::is_same_v<T, std::string>) {
            take_text(value);
        } else if constexpr (std::is_same_v<T, Volume>) {
            take(number);
            value = Volume::from_ul(number);
        } else if constexpr (std::is_same_v<T, Mass>) {
            take(number);
            value = Mass::from_mg(number);
        } else if constexpr (std::is_same_v<T, Length>) {
            take(number);
            value = Length::from_um(number);
        } else if constexpr (std::is_same_v<T, Instant>) {
            take(value.ms);
        } else if constexpr (std::is_same_v<T, Decimal>) {
            take(number);
            int places = 0;
            take(places);
            value = Decimal{number, places};
        } else if constexpr (std::is_same_v<T, Day>) {
            take(number);
            value = Day{std::chrono::sys_days{std::chrono::days{number}}};
        } else if constexpr (std::is_same_v<T, ledger::EntryKey>) {
            take_text(value.sitting);
            take(value.index);
        } else if constexpr (Traits::k_optional) {
            bool there = false;
            take(there);
            if (there) take(value.emplace());
        } else if constexpr (Traits::k_list) {
            const std::size_t count = take_count();
            value.reserve(count);
            for (std::size_t i = 0; i < count && m_good; ++i) take(value.emplace_back());
        } else if constexpr (Traits::k_map) {
            const std::size_t count = take_count();
            for (std::size_t i = 0; i < count && m_good; ++i) {
                std::string name;
                take_text(name);
                take(value[name]);
            }
        } else {
            fields(*this, value);
        }
    }
    void take_text(std::string& text) {
        std::int64_t length = 0;
        take(length);
        if (length < 0) {
            const auto number = static_cast<std::uint64_t>(-1 - length);
            if (number >= m_again.size()) return fail();
            text = m_again[number];
            return;
        }
        if (!m_good || length > m_end - m_at) return fail();
        text.assign(m_at, static_cast<std::size_t>(length));
        m_at += length;
        if (comes_again(text.size())) m_again.emplace_back(text);
    }

    const char* m_at;
    const char* m_end;
    bool m_good = true;
    const ledger::EntryKey* m_key = nullptr;
    std::vector<std::string> m_again;
};

// Names of all that is written, in order.
class ImageShape {
public:
    template <class T>
    void operator()(const char* name, const T&) {
        m_text += name;
        m_text += ' ';
        of<T>();
    }
    template <class T>
    void of() {
        using Traits = ListTraits<T>;
        if constexpr (std::is_enum_v<T>) {
            for (const std::string& word : ledger::all_words<T>()) m_text += word + "|";
        } else if constexpr (Traits::k_optional || Traits::k_list || Traits::k_map) {
            m_text += Traits::k_optional ? "?" : Traits::k_list ? "[" : "{";
            of<typename Traits::Member>();
        } else if constexpr (std::is_class_v<T> && !is_plain<T>()) {
            m_text += "(";
            const T none{};
            fields(*this, none);
            m_text += ")";
        }
        m_text += ",";
    }
    template <std::size_t... Kind>
    void of_bodies(std::index_sequence<Kind...>) {
        (of_body<std::variant_alternative_t<Kind, ledger::Body>>(), ...);
    }
    [[nodiscard]] const std::string& text() const { return m_text; }

private:
    template <class T>
    static constexpr bool is_plain() {
        return std::is_same_v<T, std::string> || std::is_same_v<T, Volume> || std::is_same_v<T, Mass> ||
               std::is_same_v<T, Length> || std::is_same_v<T, Instant> || std::is_same_v<T, Decimal> ||
               std::is_same_v<T, Day> || std::is_same_v<T, ledger::EntryKey>;
    }
    template <class T>
    void of_body() {
        m_text += ledger::kind_word(T{}) + "(";
        if constexpr (!std::is_same_v<T, ledger::Unknown>) {
            const T none{};
            fields(*this, none);
        }
        m_text += ")";
    }

    std::string m_text{k_image_form};
};

}  // namespace

std::string image_of(std::span<const ledger::Entry> entries) {
    ImageWriter writer;
    writer.put(static_cast<std::int64_t>(entries.size()));
    for (const ledger::Entry& entry : entries) writer.entry(entry);
    return writer.take();
}

std::optional<std::vector<ledger::Entry>> entries_of_image(std::string_view image, std::size_t room) {
    ImageReader reader{image};
    std::int64_t count = 0;
    reader.take(count);
    if (!reader.good() || count < 0 || static_cast<std::uint64_t>(count) > image.size()) return std::nullopt;
    std::vector<ledger::Entry> entries;
    entries.reserve(static_cast<std::size_t>(count) + room);
    for (std::int64_t i = 0; i < count && reader.good(); ++i) reader.entry(entries.emplace_back());
    if (!reader.good() || !reader.at_end()) return std::nullopt;
    return entries;
}

std::string shape_of_images() {
    ImageShape shape;
    const ledger::Entry none;
    envelope_fields(shape, none);
    shape.of_bodies(std::make_index_sequence<std::variant_size_v<ledger::Body>>{});
    return blake2b_256({shape.text()});
}

}  // namespace undercroft::store
