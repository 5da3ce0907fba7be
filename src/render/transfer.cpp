#include "render/transfer.hpp"

#include <fmt/core.h>

#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"

namespace undercroft::render {
namespace {

std::string number_of(std::int64_t count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string entries_text(std::int64_t count) {
    return number_of(count, "entry", "entries");
}

std::string booked_text(std::int64_t first, std::int64_t last) {
    return first == last ? fmt::format("Booked entry #{}.\n", first)
                         : fmt::format("Booked entries #{}-#{}.\n", first, last);
}

std::string remark_lines(const std::vector<std::string>& remarks) {
    std::string out = remarks.empty() ? "" : "\n";
    for (const std::string& remark : remarks) out += wrapped("  * ", remark);
    return out;
}

std::string totals_text(const std::string& path, const ledger::ExportTotals& totals) {
    return "  " + path + "\n  " + number_of(totals.persons, "person", "people") + ", " +
           number_of(totals.pictures, "picture", "pictures") + "\n  head " + totals.head + "\n";
}

std::string json_of_totals(const app::BookLine& book, const std::string& path, const ledger::ExportTotals& totals) {
    Json json = head_of(book);
    json["path"] = path;
    json["persons"] = totals.persons;
    json["pictures"] = totals.pictures;
    json["entries"] = totals.entries;
    json["head"] = totals.head;
    return line_of(json);
}

Json numbers_of(bool booked, std::int64_t first, std::int64_t last) {
    return booked && first > 0 ? Json{first, last} : Json(nullptr);
}

}  // namespace

std::string text_of(const app::ExportView& view) {
    return title(view.book, entries_text(view.totals.entries) + " written out", "") +
           totals_text(view.path, view.totals);
}

std::string text_of(const app::RestoreView& view) {
    return title(view.book, entries_text(view.totals.entries) + " restored", "") + totals_text(view.path, view.totals);
}

std::string text_of(const app::ImportView& view) {
    std::string out;
    if (view.booked && view.entries > 0)
        out += booked_text(view.first_number, view.last_number);
    else
        out += view.already ? "All of it is here already: nothing was booked.\n" : "What if: nothing was booked.\n";
    out += title(view.book, (view.from_copy ? "from another copy of " : "from ") + view.from, "book " + view.from_id);
    Table counts({Align::right, Align::left});
    counts.row({std::to_string(view.entries), (view.entries == 1 ? "entry" : "entries") +
                                                  std::string(" new here, in ") +
                                                  number_of(view.sittings, "sitting", "sittings")});
    if (view.already_here > 0)
        counts.row({std::to_string(view.already_here), view.already_here == 1 ? "was here" : "were here"});
    out += "\n" + counts.text();
    for (const auto& [theirs, ours] : view.renamed) out += "  " + theirs + " is called " + ours + " here\n";
    if (!view.came_in.empty()) {
        Table table({Align::left, Align::left, Align::right});
        table.head({"", "", "holds now"});
        for (const app::CameIn& one : view.came_in)
            table.row({one.what, one.name, one.holds == Volume{} ? "empty" : text_of(one.holds, view.book.unit)});
        out += heading("Comes in") + table.text();
    }
    return out + remark_lines(view.remarks);
}

std::string text_of(const app::CompareView& view) {
    std::string out = title(view.book, view.same() ? "the copies hold the same" : "the copies have parted",
                            fmt::format("entry #{}", view.book.sequence));
    out += "  beside " + view.other + "\n\n";
    out += view.alike == 0 ? "  They part at the first entry.\n"
                           : fmt::format("  Alike up to entry #{}, booked {}.\n", view.alike, view.alike_until);
    out += fmt::format("  {} in both.\n", entries_text(view.in_both));
    if (!view.here.empty())
        out +=
            heading(entries_text(static_cast<std::int64_t>(view.here.size())) + " only here") + entry_lines(view.here);
    if (!view.there.empty())
        out += heading(entries_text(static_cast<std::int64_t>(view.there.size())) + " only there") +
               entry_lines(view.there);
    for (const std::string& sitting : view.clash)
        out += wrapped("  !! ", "Sitting " + sitting + " is in both and says different things.");
    if (!view.there.empty())
        out += "\nNothing is merged by itself. undercroft import --from-copy brings over what is only there.\n";
    return out;
}

std::string text_of(const app::SheetView& view) {
    std::string out;
    const bool nothing_new = view.readings + view.tastings + view.notes == 0;
    if (view.booked)
        out += booked_text(view.first_number, view.last_number);
    else
        out += nothing_new ? "Nothing in it is new: nothing was booked.\n" : "What if: nothing was booked.\n";
    out += title(view.book, number_of(view.rows, "row", "rows") + " of " + view.file, "");
    Table counts({Align::right, Align::left});
    const auto count = [&counts](int number, std::string_view one, std::string_view many) {
        if (number > 0) counts.row({std::to_string(number), std::string(number == 1 ? one : many)});
    };
    count(view.readings, "reading", "readings");
    count(view.tastings, "tasting", "tastings");
    count(view.notes, "note", "notes");
    if (!nothing_new)
        counts.row(
            {std::to_string(view.sittings), (view.sittings == 1 ? "sitting, " : "sittings, ") + view.first_day +
                                                (view.first_day == view.last_day ? "" : " to " + view.last_day)});
    count(view.already, "was here already", "were here already");
    count(view.passed_over, "row without anything to book", "rows without anything to book");
    out += "\n" + counts.text();
    if (!view.subjects.empty()) {
        Table table({Align::left, Align::right});
        for (const auto& [name, entries] : view.subjects) table.row({name, entries_text(entries)});
        out += "\n" + table.text();
    }
    return out + remark_lines(view.remarks);
}

std::string json_of(const app::ExportView& view) {
    return json_of_totals(view.book, view.path, view.totals);
}

std::string json_of(const app::RestoreView& view) {
    return json_of_totals(view.book, view.path, view.totals);
}

std::string json_of(const app::ImportView& view) {
    Json json = head_of(view.book);
    json["booked"] = view.booked;
    json["already"] = view.already;
    json["from_copy"] = view.from_copy;
    json["from"] = {{"name", view.from}, {"id", view.from_id}};
    json["sittings"] = view.sittings;
    json["entries"] = view.entries;
    json["already_here"] = view.already_here;
    json["numbers"] = numbers_of(view.booked, view.first_number, view.last_number);
    json["renamed"] = Json::array();
    for (const auto& [theirs, ours] : view.renamed) json["renamed"].push_back({{"theirs", theirs}, {"ours", ours}});
    json["came_in"] = Json::array();
    for (const app::CameIn& one : view.came_in)
        json["came_in"].push_back({{"what", one.what}, {"name", one.name}, {"holds", amount(one.holds)}});
    json["remarks"] = view.remarks;
    return line_of(json);
}

std::string json_of(const app::CompareView& view) {
    Json json = head_of(view.book);
    json["other"] = view.other;
    json["same"] = view.same();
    json["alike"] = view.alike;
    json["alike_until"] = view.alike_until;
    json["in_both"] = view.in_both;
    json["only_here"] = list_of(view.here);
    json["only_there"] = list_of(view.there);
    json["clash"] = view.clash;
    return line_of(json);
}

std::string json_of(const app::SheetView& view) {
    Json json = head_of(view.book);
    json["file"] = view.file;
    json["booked"] = view.booked;
    json["rows"] = view.rows;
    json["passed_over"] = view.passed_over;
    json["already"] = view.already;
    json["readings"] = view.readings;
    json["tastings"] = view.tastings;
    json["notes"] = view.notes;
    json["sittings"] = view.sittings;
    json["first_day"] = view.first_day;
    json["last_day"] = view.last_day;
    json["subjects"] = Json::array();
    for (const auto& [name, entries] : view.subjects)
        json["subjects"].push_back({{"name", name}, {"entries", entries}});
    json["numbers"] = numbers_of(view.booked, view.first_number, view.last_number);
    json["remarks"] = view.remarks;
    return line_of(json);
}

}  // namespace undercroft::render
