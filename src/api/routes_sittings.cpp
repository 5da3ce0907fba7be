// Sittings: previewed, and booked.
#include <array>

#include "api/acts.hpp"
#include "api/route.hpp"
#include "render/json.hpp"

namespace undercroft::api {
namespace {

Result<Answer> preview(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const PostedSitting posted, sitting_from(call.body));
    TRY(const app::SittingView view, call.book().preview(posted.request));
    return json_answer(render::json_of(view));
}

Result<Answer> book(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const PostedSitting posted, sitting_from(call.body));
    if (posted.request.key.empty())
        return fail(ErrorKind::bad_input, "key",
                    "A sitting that is booked brings its own key, so that it is never booked twice.", {},
                    "Make a UUID of version 7 where the sitting is drafted, and send it again with every try.");
    if (!posted.expected) {
        TRY(const app::SittingView view, call.book().book(posted.request));
        return json_answer(render::json_of(view), view.already ? 200 : 201);
    }
    TRY(const app::AsShown outcome, call.book().book_as_shown(posted.request, *posted.expected));
    if (!outcome.stale) return json_answer(render::json_of(outcome.sitting), outcome.sitting.already ? 200 : 201);
    return json_answer(render::json_of(*outcome.stale, outcome.sitting), status_of(outcome.stale->kind));
}

constexpr auto k_sitting_routes = std::to_array<Route>({
    {"POST", "/sittings/preview", preview, Needs::book, Sends::json, k_most_picture},
    {"POST", "/sittings", book, Needs::book, Sends::json, k_most_picture},
});

}  // namespace

std::span<const Route> sitting_routes() {
    return k_sitting_routes;
}

}  // namespace undercroft::api
