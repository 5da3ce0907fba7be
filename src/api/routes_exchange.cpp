// Whole books, out and in.
#include <algorithm>
#include <array>

#include "api/route.hpp"
#include "render/transfer.hpp"

namespace undercroft::api {
namespace {

// "kiln-lane" of "Kiln Lane": a name for a file that any system takes.
std::string file_name_of(const std::string& book) {
    std::string name;
    for (const char c : book) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (c >= 'A' && c <= 'Z')
            name += static_cast<char>(c - 'A' + 'a');
        else if (plain)
            name += c;
        else if (!name.empty() && name.back() != '-')
            name += '-';
    }
    while (!name.empty() && name.back() == '-') name.pop_back();
    return name.empty() ? "book" : name;
}

Answer download(std::string file, std::string media_type, const std::string& name) {
    Answer answer;
    answer.media_type = std::move(media_type);
    answer.file = std::move(file);
    answer.headers.emplace_back("Content-Disposition", "attachment; filename=\"" + name + "\"");
    return answer;
}

Result<Answer> export_book(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const app::AboutView about, call.book().about());
    TRY(std::string file, call.lent.new_file(".jsonl"));
    TRY([[maybe_unused]] const ledger::ExportTotals totals, call.cellar->exporter.export_to_file(file));
    return download(std::move(file), "application/jsonl", file_name_of(about.book.name) + "-" + about.today + ".jsonl");
}

Result<Answer> backup(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const app::AboutView about, call.book().about());
    TRY(std::string file, call.lent.new_file(".undercroft"));
    TRY([[maybe_unused]] const app::BackupView view, call.book().backup(file));
    return download(std::move(file), "application/octet-stream",
                    file_name_of(about.book.name) + "-" + about.today + ".undercroft");
}

Result<Answer> sheet(Call& call, app::Booking booking) {
    TRY_VOID(call.query.done());
    Fields fields(call.body, "");
    app::SheetRequest request;
    request.file = "sheet";
    fields.text("text", request.bytes, Need::must);
    fields.texts("map", request.maps);
    fields.text("file", request.file);
    fields.text("vessel", request.vessel);
    fields.text("taster", request.taster);
    fields.text("by", request.by);
    TRY_VOID(fields.done());
    TRY(const app::SheetView view, call.cellar->transfer.import_sheet(request, booking));
    return json_answer(render::json_of(view), view.booked ? 201 : 200);
}

Result<Answer> preview_sheet(Call& call) {
    return sheet(call, app::Booking::what_if);
}
Result<Answer> book_sheet(Call& call) {
    return sheet(call, app::Booking::now);
}

Result<Answer> import(Call& call, app::Booking booking) {
    const std::vector<std::string> renames = call.query.texts("renames");
    const std::string from_copy = call.query.text("from_copy");
    TRY_VOID(call.query.done());
    if (!from_copy.empty() && from_copy != "true" && from_copy != "false")
        return fail(ErrorKind::bad_input, "from_copy",
                    "\"" + from_copy.substr(0, 40) + "\" is neither true nor false.");
    const bool copy = from_copy == "true";
    if (copy && !renames.empty())
        return fail(ErrorKind::bad_input, "renames", "A copy of this book has its vessels: nothing of it is renamed.");
    auto other = call.lent.read_copy(call.request.body, "export");
    if (!other) {
        Error error = std::move(other).error();
        // Damage is in what was sent, not here.
        if (error.kind == ErrorKind::storage) error.kind = ErrorKind::bad_input;
        return tl::unexpected(std::move(error));
    }
    app::Transfer& transfer = call.cellar->transfer;
    TRY(const app::ImportView view,
        copy ? transfer.import_copy(*other, booking) : transfer.import_book(*other, renames, booking));
    return json_answer(render::json_of(view), view.booked ? 201 : 200);
}

Result<Answer> preview_import(Call& call) {
    return import(call, app::Booking::what_if);
}
Result<Answer> book_import(Call& call) {
    return import(call, app::Booking::now);
}

constexpr auto k_exchange_routes = std::to_array<Route>({
    {"GET", "/export", export_book},
    {"GET", "/backup", backup},
    {"POST", "/import-csv/preview", preview_sheet, Needs::book, Sends::json, k_most_import},
    {"POST", "/import-csv", book_sheet, Needs::book, Sends::json, k_most_import},
    {"POST", "/import/preview", preview_import, Needs::book, Sends::lines, k_most_import},
    {"POST", "/import", book_import, Needs::book, Sends::lines, k_most_import},
});

}  // namespace

std::span<const Route> exchange_routes() {
    return k_exchange_routes;
}

}  // namespace undercroft::api
