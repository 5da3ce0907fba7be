#include "cli/print.hpp"

#include <sstream>

#include "paper/print.hpp"
#include "paper/printable.hpp"

namespace undercroft::cli {
namespace {

constexpr std::string_view k_print = "print ";

Result<paper::PrintRequest> request_of(Session& session, const Command& command, const Typed& t) {
    paper::PrintRequest request;
    request.what = std::string(command.name.substr(k_print.size()));
    request.tasters = t.all("--taster");
    request.twice = t.all("--twice");
    request.set = t.one("--set");
    request.full = t.has("--full");
    if (request.what == "tags" || request.what == "tasting")
        request.vessels = t.words;
    else
        request.subject = t.rest(0);
    request.name = t.one("--name");
    request.grid = t.one("--grid");
    request.paper = t.one("--paper");
    request.count = t.one("--count");
    request.first = t.one("--first");
    request.year = request.what == "letter" ? t.rest(0) : "";
    request.outlines = t.has("--outlines");
    request.pages = !t.has("--without-pages");
    if (t.one("--picture").starts_with("#")) {
        request.picture_entry = t.one("--picture");
    } else if (t.has("--picture")) {
        TRY(request.picture, session.host.read_file(t.one("--picture"), paper::k_largest_picture_bytes));
    }
    return request;
}

std::optional<Error> misworded(const paper::PrintRequest& request, const Command& command) {
    const std::string& what = request.what;
    if (what == "pages" && !request.subject.empty())
        return wants_words(command.name, "\"" + request.subject + "\" is more than it asks for.").value();
    const bool wants_subject = what != "tags" && what != "letter" && what != "pages" && what != "tasting";
    if (wants_subject && request.subject.empty()) return wants_words(command.name, "Of what?").value();
    return std::nullopt;
}

// What a label says is kept from the moment it is on paper.
Result<void> keep_label(app::Book& book, const paper::PrintRequest& request) {
    app::SittingRequest sitting;
    sitting.acts.emplace_back(app::PrintLabel{request.subject, request.name});
    TRY([[maybe_unused]] const app::SittingView view, book.book(sitting));
    return {};
}

Result<app::PrintedView> printed(Session& session, const Command& command, const Typed& t) {
    TRY(const paper::PrintRequest request, request_of(session, command, t));
    if (const auto error = misworded(request, command)) return tl::unexpected(*error);
    const std::string file = t.one("--to");
    if (file.empty()) return fail(ErrorKind::bad_input, "--to", "Into which file? Say --to " + request.what + ".pdf.");
    const bool keeps = request.what == "labels" && !t.has("--what-if");
    TRY(const Opened opened, open_named_book(session, keeps ? For::booking : For::asking));
    TRY(paper::Printed paper, paper::print(*opened.book, request, [&opened]() -> Result<std::string> {
            std::ostringstream lines;
            TRY([[maybe_unused]] const ledger::ExportTotals totals, opened.file.exporter->export_to(lines));
            return lines.str();
        }));
    TRY_VOID(session.host.write_file(file, paper.pdf));
    paper.view.file = file;
    if (keeps) {
        TRY_VOID(keep_label(*opened.book, request));
        paper.view.kept = true;
    }
    return std::move(paper.view);
}

}  // namespace

int print(Session& session, const Command& command, const Typed& typed) {
    return session.give(printed(session, command, typed));
}

}  // namespace undercroft::cli
