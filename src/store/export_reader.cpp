#include "store/export_reader.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

#include "base/base64.hpp"
#include "ledger/references.hpp"
#include "store/canonical_json.hpp"
#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "store/export_lines.hpp"
#include "store/picture_rows.hpp"

namespace undercroft::store {
namespace {

constexpr std::size_t k_hex_digits = 2 * k_digest_bytes;

// A few characters of what stands there, whole characters only.
std::string shown(std::string_view text) {
    constexpr std::size_t k_most = 24;
    std::size_t length = std::min(text.size(), k_most);
    while (length > 0 && length < text.size() && (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U) --length;
    const std::string_view cut = text.substr(0, length);
    if (cut.empty()) return "the end of the line";
    return is_utf8(cut) ? "\"" + std::string(cut) + "\"" : std::string("bytes that are no text");
}

// Finds out where JSON stops being JSON.
class SyntaxCheck : public nlohmann::json_sax<nlohmann::json> {
public:
    bool null() override { return true; }
    bool boolean(bool) override { return true; }
    bool number_integer(number_integer_t) override { return true; }
    bool number_unsigned(number_unsigned_t) override { return true; }
    bool number_float(number_float_t, const string_t&) override { return true; }
    bool string(string_t&) override { return true; }
    bool binary(binary_t&) override { return true; }
    bool start_object(std::size_t) override { return true; }
    bool key(string_t&) override { return true; }
    bool end_object() override { return true; }
    bool start_array(std::size_t) override { return true; }
    bool end_array() override { return true; }
    bool parse_error(std::size_t position, const std::string&, const nlohmann::json::exception&) override {
        m_position = position;
        return false;
    }
    // Byte of the text, from 0; nothing when all of it is JSON.
    static std::optional<std::size_t> wrong_in(std::string_view text) {
        SyntaxCheck check;
        if (nlohmann::json::sax_parse(text, &check)) return std::nullopt;
        return check.m_position == 0 ? 0 : check.m_position - 1;
    }

private:
    std::size_t m_position = 0;
};

}  // namespace

Failure ExportReader::damaged(std::size_t at, const std::string& what) const {
    return fail(ErrorKind::storage, m_name + " line " + std::to_string(m_number) + ", column " + std::to_string(at + 1),
                what, {}, "Take the export again from the book, or use another copy of it.");
}

Failure ExportReader::expected(std::size_t at, std::string_view wanted) const {
    return damaged(at, "expected " + std::string(wanted) + ", found " +
                           shown(std::string_view(m_line).substr(std::min(at, m_line.size()))) + ".");
}

Failure ExportReader::newer(const std::string& what) const {
    return fail(ErrorKind::read_only, m_name + " line " + std::to_string(m_number), what, {},
                "Use the program that wrote it, or a newer one.");
}

Result<void> ExportReader::read_line() {
    m_line.clear();
    m_at = 0;
    ++m_number;
    std::streambuf* buffer = m_in.rdbuf();
    using Traits = std::istream::traits_type;
    while (true) {
        const auto next = buffer->sbumpc();
        if (Traits::eq_int_type(next, Traits::eof())) {
            if (m_line.empty()) return damaged(0, "expected another line: the export is cut off here.");
            return expected(m_line.size(), "a line break: the export is cut off or damaged here");
        }
        const char c = Traits::to_char_type(next);
        if (c == '\n') return {};
        if (m_line.size() == k_longest_line)
            return damaged(m_line.size(), "expected a line break: no line is as long as this one.");
        m_line += c;
    }
}

Result<void> ExportReader::literal(std::string_view wanted) {
    for (std::size_t i = 0; i < wanted.size(); ++i)
        if (m_at + i >= m_line.size() || m_line[m_at + i] != wanted[i])
            return expected(m_at + i, "\"" + std::string(wanted.substr(i)) + "\"");
    m_at += wanted.size();
    return {};
}

Result<std::string> ExportReader::hex(std::size_t digits) {
    for (std::size_t i = 0; i < digits; ++i) {
        const char c = m_at + i < m_line.size() ? m_line[m_at + i] : ' ';
        if (!((c >= '0' && c <= '9') || (c >= 'a' && c <= 'f')))
            return expected(m_at + i, std::to_string(digits) + " hex digits in lower case");
    }
    m_at += digits;
    return m_line.substr(m_at - digits, digits);
}

Result<void> ExportReader::end_of_line() {
    if (m_at != m_line.size()) return expected(m_at, "the end of the line");
    return {};
}

Result<void> ExportReader::begin() {
    TRY_VOID(read_line());
    constexpr std::string_view k_start = "{\"book\":";
    constexpr std::string_view k_middle = ",\"export\":";
    if (!m_line.starts_with(k_start))
        return fail(ErrorKind::bad_input, m_name + " line 1, column 1",
                    "this is no export: expected a line that begins with {\"book\":.", {},
                    "Name a file that `undercroft export` wrote.");
    const std::size_t middle = m_line.rfind(k_middle);
    if (middle == std::string::npos) return expected(m_line.size(), "\"" + std::string(k_middle) + "\"");
    m_facts_canonical = m_line.substr(k_start.size(), middle - k_start.size());
    m_at = middle + k_middle.size();
    const std::string format = std::to_string(k_export_format);
    if (m_line.compare(m_at, format.size() + 1, format + ",") != 0) {
        const std::size_t end = m_line.find_first_not_of("0123456789", m_at);
        if (end != m_at && end != std::string::npos && m_line[end] == ',')
            return newer("this export is of format " + shown(m_line.substr(m_at, end - m_at)) + "; expected " + format +
                         ", the one this program knows.");
        return expected(m_at, "\"" + format + ",\"");
    }
    m_at += format.size();
    TRY_VOID(literal(",\"link\":\""));
    const std::size_t link_at = m_at;
    TRY(const std::string link, hex(k_hex_digits));
    TRY_VOID(literal("\"}"));
    TRY_VOID(end_of_line());
    m_link = link_of_facts(m_facts_canonical);
    if (hex_of(m_link) != link) {
        if (const auto wrong = SyntaxCheck::wrong_in(m_facts_canonical))
            return expected(k_start.size() + *wrong, "JSON to go on");
        return damaged(link_at, "expected " + hex_of(m_link) +
                                    ", the link that follows from the facts before it: one of the two was changed.");
    }
    auto facts = decode_facts(m_facts_canonical);
    if (!facts) return damaged(k_start.size(), "expected the facts of a book: " + facts.error().what);
    m_facts = *std::move(facts);
    if (m_facts.format > k_book_format)
        return newer("this is a book of format " + std::to_string(m_facts.format) + "; expected " +
                     std::to_string(k_book_format) + ", the newest this program knows.");
    return {};
}

Result<ExportReader::Item> ExportReader::next() {
    TRY_VOID(read_line());
    if (m_line.starts_with("{\"pi") && m_last == 0) return picture_line();
    if (m_line.starts_with("{\"p") && m_last == 0 && m_pictures.empty()) return person_line();
    if (m_line.starts_with("{\"end")) return end_line();
    return entry_line();
}

Result<ExportReader::Item> ExportReader::person_line() {
    ledger::Person person;
    TRY_VOID(literal("{\"person\":{\"commitment\":\""));
    const std::size_t commitment_at = m_at;
    TRY(person.commitment, hex(k_hex_digits));
    TRY_VOID(literal("\""));
    if (!m_line.substr(m_at).starts_with("}")) {
        TRY_VOID(literal(",\"name\":"));
        constexpr std::string_view k_after = ",\"salt\":\"";
        const std::size_t after = m_line.rfind(k_after);
        if (after == std::string::npos || after < m_at)
            return expected(m_line.size(), "\"" + std::string(k_after) + "\"");
        const std::string spelt = m_line.substr(m_at, after - m_at);
        const auto name = nlohmann::json::parse(spelt, nullptr, false);
        if (!name.is_string() || canonical_text(name.get_ref<const std::string&>()) != spelt)
            return expected(m_at, "a name as JSON text in its shortest spelling");
        person.name = name.get<std::string>();
        if (person.name.empty() || !check_text("name", person.name))
            return expected(m_at, "a name that can stand in a book");
        m_at = after;
        TRY_VOID(literal(k_after));
        TRY(person.salt, hex(k_salt_digits));
        TRY_VOID(literal("\""));
        if (commitment_of(person.salt, person.name) != person.commitment)
            return damaged(commitment_at, "expected " + commitment_of(person.salt, person.name) +
                                              ", the commitment that follows from salt and name: one of the three was "
                                              "changed.");
    }
    TRY_VOID(literal("}}"));
    TRY_VOID(end_of_line());
    if (person.commitment <= m_last_person)
        return damaged(commitment_at, "expected a commitment above " + m_last_person + ": people stand in that order.");
    m_last_person = person.commitment;
    m_persons.insert(person.commitment);
    m_unnamed.emplace(person.commitment, m_number);
    return Item{std::move(person)};
}

Result<ExportReader::Item> ExportReader::picture_line() {
    ledger::Picture picture;
    TRY_VOID(literal("{\"picture\":{"));
    const bool forgotten = m_line.compare(m_at, 2, "\"c") == 0;
    const std::size_t bytes_at = m_at;
    if (!forgotten) {
        TRY_VOID(literal("\"bytes\":\""));
        const std::size_t end = m_line.find('"', m_at);
        const auto bytes = bytes_of_base64(m_line.substr(m_at, end == std::string::npos ? end : end - m_at));
        if (end == std::string::npos || !bytes) return expected(m_at, "the bytes of a picture in base64");
        picture.bytes = *bytes;
        m_at = end;
        TRY_VOID(literal("\","));
    }
    TRY_VOID(literal("\"commitment\":\""));
    const std::size_t commitment_at = m_at;
    TRY(picture.commitment, hex(k_hex_digits));
    TRY_VOID(literal("\""));
    if (!forgotten) {
        picture.media_type = ledger::media_type_of(picture.bytes);
        if (picture.media_type.empty()) return expected(bytes_at, "the bytes of a PNG or JPEG in base64");
        TRY_VOID(literal(",\"media_type\":\"" + picture.media_type + "\",\"salt\":\""));
        TRY(picture.salt, hex(k_salt_digits));
        TRY_VOID(literal("\""));
        if (!check_picture(picture))
            return damaged(commitment_at,
                           "expected the commitment that follows from salt and bytes, of at most 8 MB: "
                           "one of the three was changed.");
    }
    TRY_VOID(literal("}}"));
    TRY_VOID(end_of_line());
    if (picture.commitment <= m_last_picture)
        return damaged(commitment_at,
                       "expected a commitment above " + m_last_picture + ": pictures stand in that order.");
    m_last_picture = picture.commitment;
    m_pictures.insert(picture.commitment);
    m_unnamed_pictures.emplace(picture.commitment, m_number);
    return Item{std::move(picture)};
}

Result<ExportReader::Item> ExportReader::entry_line() {
    ExportedEntry exported;
    TRY_VOID(literal("{\"entry\":"));
    const std::size_t begin = m_at;
    constexpr std::string_view k_middle = ",\"link\":\"";
    const std::string tail = "\",\"sequence\":" + std::to_string(m_last + 1) + "}";
    const std::size_t tail_length = k_middle.size() + k_hex_digits + tail.size();
    if (m_line.size() < begin + tail_length) return expected(m_line.size(), "a whole entry with its link and sequence");
    m_at = m_line.size() - tail_length;
    TRY_VOID(literal(k_middle));
    const std::size_t link_at = m_at;
    TRY(const std::string link, hex(k_hex_digits));
    TRY_VOID(literal(tail));
    exported.canonical = m_line.substr(begin, m_line.size() - tail_length - begin);
    exported.previous = m_link;
    exported.link = link_of_entry(m_link, exported.canonical);
    auto entry = decode_entry(exported.canonical);
    if (hex_of(exported.link) != link || !entry) {
        if (const auto wrong = SyntaxCheck::wrong_in(exported.canonical))
            return expected(begin + *wrong, "JSON to go on");
        if (!entry) return damaged(begin, "expected the bytes of an entry: " + entry.error().what);
        return damaged(link_at, "expected " + hex_of(exported.link) +
                                    ", the link that follows from this entry and the link before it: one of the two "
                                    "was changed, or a line is missing.");
    }
    if (const auto* unknown = std::get_if<ledger::Unknown>(&entry->body))
        return newer("this entry is of kind " + shown(unknown->kind) + ", which this program does not know.");
    m_link = exported.link;
    entry->sequence = ++m_last;
    TRY_VOID(follow_sitting(*entry));
    TRY_VOID(know_persons(*entry));
    TRY_VOID(know_pictures(*entry));
    exported.entry = *std::move(entry);
    return Item{std::move(exported)};
}

Result<void> ExportReader::follow_sitting(const ledger::Entry& entry) {
    const std::size_t at = m_line.find(entry.key.text());
    if (m_next_index == m_sitting_size) {
        m_sitting = entry.key.sitting;
        m_sitting_size = entry.sitting_size;
        m_next_index = 0;
        if (!m_sittings.insert(m_sitting).second)
            return damaged(at, "expected a sitting of its own: sitting " + m_sitting + " has been there before.");
    }
    if (entry.key != ledger::EntryKey{m_sitting, m_next_index} || entry.sitting_size != m_sitting_size)
        return damaged(at, "expected entry " + std::to_string(m_next_index) + " of the " +
                               std::to_string(m_sitting_size) + " of sitting " + m_sitting + ".");
    ++m_next_index;
    return {};
}

Result<void> ExportReader::know_persons(const ledger::Entry& entry) {
    Result<void> outcome;
    ledger::for_each_person(entry, [&](const std::string& commitment) {
        m_unnamed.erase(commitment);
        if (!m_persons.contains(commitment))
            outcome = damaged(m_line.find(commitment), "expected a person who has a line of their own above.");
    });
    return outcome;
}

Result<void> ExportReader::know_pictures(const ledger::Entry& entry) {
    for (const std::string& commitment : pictures_named(entry)) {
        m_unnamed_pictures.erase(commitment);
        if (!m_pictures.contains(commitment))
            return damaged(m_line.find(commitment), "expected a picture that has a line of its own above.");
    }
    return {};
}

Result<ExportReader::Item> ExportReader::end_line() {
    const ledger::ExportTotals totals{static_cast<std::int64_t>(m_persons.size()),
                                      static_cast<std::int64_t>(m_pictures.size()), m_last, hex_of(m_link)};
    std::string due = line_of_end(totals);
    due.pop_back();
    TRY_VOID(literal(due));
    TRY_VOID(end_of_line());
    if (m_next_index != m_sitting_size)
        return damaged(0, "expected the rest of sitting " + m_sitting + ": it has " + std::to_string(m_next_index) +
                              " of " + std::to_string(m_sitting_size) + " entries.");
    if (!m_unnamed.empty()) {
        m_number = m_unnamed.begin()->second;
        return damaged(0, "expected a person whom an entry names.");
    }
    if (!m_unnamed_pictures.empty()) {
        m_number = m_unnamed_pictures.begin()->second;
        return damaged(0, "expected a picture that an entry names.");
    }
    if (m_in.rdbuf()->sgetc() != std::istream::traits_type::eof()) {
        ++m_number;
        return damaged(0, "expected nothing more: the line before ends the export.");
    }
    return Item{totals};
}

}  // namespace undercroft::store
