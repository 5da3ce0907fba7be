// Book's answers how a pull could be finished, and what came of those that were.
#include "app/book_look.hpp"
#include "app/finish_book.hpp"
#include "app/names.hpp"

namespace undercroft::app {

Result<FinishView> Book::plan_finish(const FinishRequest& request) {
    TRY(const Look here, look(Moment{}));
    if (request.subject.empty())
        return fail(ErrorKind::bad_input, "subject", "Which vessel does it stand in? Say its name.");
    TRY(const engine::HolderRef holder, holder_named(here, "subject", request.subject));
    TRY(FinishBasis basis, finish_basis(here.seen(), holder, request, gallons()));
    FinishRequest resolved = request;
    resolved.with.clear();
    TRY(FinishView view, finish_view(std::move(basis), resolved, m_tables, gallons()));
    view.book = line();
    if (!request.technique.empty()) {
        const auto option = [](const char* name, const std::string& value) {
            return value.empty() ? std::string() : std::string(" ") + name + " \"" + value + "\"";
        };
        view.command = "undercroft decide \"" + view.subject + "\" \"" + request.technique + "\"" +
                       option("--dose", request.dose) + option("--days", request.days) +
                       option("--volume", request.volume);
        for (const std::string& want : request.wants) view.command += option("--want", want);
    }
    return view;
}

Result<LearnedView> Book::learned(const Moment& moment) {
    TRY(const Look here, look(moment));
    LearnedView view = learned_view(here.seen());
    view.book = line();
    return view;
}

}  // namespace undercroft::app
