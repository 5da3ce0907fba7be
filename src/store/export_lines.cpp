#include "store/export_lines.hpp"

#include "base/base64.hpp"
#include "store/canonical_json.hpp"
#include "store/digest.hpp"

namespace undercroft::store {

std::string line_of_facts(std::string_view canonical, std::string_view link) {
    return "{\"book\":" + std::string(canonical) + ",\"export\":" + std::to_string(k_export_format) + ",\"link\":\"" +
           hex_of(link) + "\"}\n";
}

std::string line_of_person(const ledger::Person& person) {
    std::string line = "{\"person\":{\"commitment\":\"" + person.commitment + "\"";
    if (!person.name.empty()) line += ",\"name\":" + canonical_text(person.name) + ",\"salt\":\"" + person.salt + "\"";
    return line + "}}\n";
}

std::string line_of_picture(const ledger::Picture& picture) {
    const std::string commitment = "\"commitment\":\"" + picture.commitment + "\"";
    if (picture.is_forgotten()) return "{\"picture\":{" + commitment + "}}\n";
    return "{\"picture\":{\"bytes\":\"" + base64_of(picture.bytes) + "\"," + commitment + ",\"media_type\":\"" +
           picture.media_type + "\",\"salt\":\"" + picture.salt + "\"}}\n";
}

std::string line_of_entry(std::int64_t sequence, std::string_view canonical, std::string_view link) {
    return "{\"entry\":" + std::string(canonical) + ",\"link\":\"" + hex_of(link) +
           "\",\"sequence\":" + canonical_number(sequence) + "}\n";
}

std::string line_of_end(const ledger::ExportTotals& totals) {
    return "{\"end\":{\"entries\":" + canonical_number(totals.entries) + ",\"head\":\"" + totals.head +
           "\",\"persons\":" + canonical_number(totals.persons) + ",\"pictures\":" + canonical_number(totals.pictures) +
           "}}\n";
}

}  // namespace undercroft::store
