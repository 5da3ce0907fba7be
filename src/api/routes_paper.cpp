// What a book puts on paper, as PDF.
#include <array>
#include <sstream>

#include "api/route.hpp"
#include "paper/print.hpp"

namespace undercroft::api {
namespace {

bool flag(Query& query, const char* name, std::optional<Error>& wrong) {
    const std::string text = query.text(name);
    if (!text.empty() && text != "true" && text != "false" && !wrong)
        wrong = Error{ErrorKind::bad_input, name, "\"" + text.substr(0, 40) + "\" is neither true nor false.", {}, {}};
    return text == "true";
}

Result<Answer> print(Call& call) {
    Query& query = call.query;
    std::optional<Error> wrong;
    paper::PrintRequest request;
    request.what = call.named;
    request.subject = query.text("subject");
    request.vessels = query.texts("vessels");
    request.tasters = query.texts("tasters");
    request.twice = query.texts("twice");
    request.set = query.text("set");
    request.full = flag(query, "full", wrong);
    request.name = query.text("name");
    request.grid = query.text("grid");
    request.paper = query.text("paper");
    request.count = query.text("count");
    request.first = query.text("first");
    request.year = query.text("year");
    request.picture_entry = query.text("picture");
    request.outlines = flag(query, "outlines", wrong);
    request.pages = !flag(query, "without_pages", wrong);
    TRY_VOID(query.done());
    if (wrong) return tl::unexpected(*wrong);
    TRY(paper::Printed printed, paper::print(call.book(), request, [&call]() -> Result<std::string> {
            std::ostringstream lines;
            TRY([[maybe_unused]] const ledger::ExportTotals totals, call.cellar->exporter.export_to(lines));
            return lines.str();
        }));
    Answer answer;
    answer.media_type = "application/pdf";
    answer.body = std::move(printed.pdf);
    answer.headers.emplace_back("Content-Disposition", "inline; filename=\"" + request.what + ".pdf\"");
    return answer;
}

constexpr auto k_paper_routes = std::to_array<Route>({{"GET", "/print/{what}", print}});

}  // namespace

std::span<const Route> paper_routes() {
    return k_paper_routes;
}

}  // namespace undercroft::api
