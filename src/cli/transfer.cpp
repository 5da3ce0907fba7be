#include "cli/transfer.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include "app/book_line.hpp"
#include "app/transfer.hpp"
#include "paper/book_pages.hpp"
#include "render/transfer.hpp"

namespace undercroft::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t k_largest_sheet = std::uintmax_t{64} * 1024 * 1024;

Result<void> check_file(const std::string& path) {
    std::error_code code;
    if (!fs::exists(path, code))
        return fail(ErrorKind::not_found, path, "there is no such file.", {}, "Check the name.");
    if (fs::is_directory(path, code)) return fail(ErrorKind::bad_input, path, "this is a folder, no file.");
    return {};
}

int write_export(Session& session, const std::string& path) {
    const auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    const bool to_output = path == "-";
    const auto totals =
        to_output ? opened->file.exporter->export_to(session.host.out) : opened->file.exporter->export_to_file(path);
    if (!totals) {
        // The output holds the lines written so far: an answer in JSON among them would be taken for one.
        if (to_output) session.form = Form::text;
        return session.refuse(totals.error());
    }
    const app::ExportView view{app::line_of(*opened->file.journal, totals->entries), path, *totals};
    if (to_output)
        session.host.err << render::text_of(view) << std::flush;
    else
        session.answer(view);
    return k_ok;
}

Result<app::RestoreView> restore_from(Session& session, const std::string& name) {
    TRY(const std::string path, path_of_book(session));
    ledger::ExportTotals totals;
    if (name == "-") {
        TRY(totals, session.host.restore(path, session.host.in, "standard input"));
    } else {
        TRY_VOID(check_file(name));
        std::ifstream in{name, std::ios::binary};
        if (!in) return fail(ErrorKind::storage, name, "the system does not let the file be read.");
        TRY(totals, session.host.restore(path, in, name));
    }
    TRY(const OpenBook file, session.host.open_book(path, For::asking));
    return app::RestoreView{app::line_of(*file.journal, totals.entries), path, totals};
}

// What a scanner or a phone read off printed pages, one code a line.
Result<app::RestoreView> restore_from_pages(Session& session, const std::string& name) {
    TRY(const std::string path, path_of_book(session));
    std::ifstream file;
    if (name != "-") {
        TRY_VOID(check_file(name));
        file.open(name, std::ios::binary);
        if (!file) return fail(ErrorKind::storage, name, "the system does not let the file be read.");
    }
    std::istream& in = name == "-" ? session.host.in : file;
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) lines.push_back(std::move(line));
    TRY(const std::string exported, paper::export_of(lines));
    std::istringstream book(exported);
    TRY(const ledger::ExportTotals totals, session.host.restore(path, book, name == "-" ? "standard input" : name));
    TRY(const OpenBook opened, session.host.open_book(path, For::asking));
    return app::RestoreView{app::line_of(*opened.journal, totals.entries), path, totals};
}

Result<std::string> bytes_of(const std::string& path) {
    TRY_VOID(check_file(path));
    std::error_code code;
    if (const auto size = fs::file_size(path, code); !code && size > k_largest_sheet)
        return fail(ErrorKind::bad_input, path, "the sheet is larger than 64 MiB; split it.");
    std::ifstream in{path, std::ios::binary};
    std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    if (!in && !in.eof()) return fail(ErrorKind::storage, path, "the system does not let the file be read.");
    return bytes;
}

app::Booking booking_of(const Typed& t) {
    return t.has("--what-if") ? app::Booking::what_if : app::Booking::now;
}

}  // namespace

int transfer(Session& session, const Command& command, const Typed& t) {
    const std::string_view name = command.name;
    if (t.words.size() != 1)
        return session.refuse(
            wants_words(name, t.words.empty() ? "Which file?" : "\"" + t.rest(1) + "\" is more than it asks for.")
                .value());
    const std::string& file = t.words.front();
    if (name == "export") return write_export(session, file);
    if (name == "from-pages") return session.give(restore_from_pages(session, file));
    if (name == "restore") return session.give(restore_from(session, file));

    const bool asking = name == "compare" || t.has("--what-if");
    const auto opened = open_named_book(session, asking ? For::asking : For::booking);
    if (!opened) return session.refuse(opened.error());
    app::Transfer transfer{*opened->file.journal, *opened->file.bulk, *opened->zone, session.host.tables,
                           session.host.surroundings};
    if (name == "import-csv") {
        auto bytes = bytes_of(file);
        if (!bytes) return session.refuse(bytes.error());
        return session.give(transfer.import_sheet(
            {file, *std::move(bytes), t.all("--map"), t.one("--vessel"), t.one("--taster"), t.one("--by")},
            booking_of(t)));
    }
    const auto other = session.host.read_copy(file);
    if (!other) return session.refuse(other.error());
    if (name == "compare") return session.give(transfer.compare(*other, file));
    if (t.has("--from-copy") && t.has("--rename"))
        return session.refuse({ErrorKind::bad_input,
                               "--rename",
                               "A copy of this book has its vessels: nothing of it is "
                               "renamed.",
                               {},
                               ""});
    return session.give(t.has("--from-copy") ? transfer.import_copy(*other, booking_of(t))
                                             : transfer.import_book(*other, t.all("--rename"), booking_of(t)));
}

}  // namespace undercroft::cli
