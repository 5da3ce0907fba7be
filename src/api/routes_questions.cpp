// Questions of a book.
#include <array>

#include "api/acts.hpp"
#include "api/openapi.hpp"
#include "api/route.hpp"
#include "app/choices.hpp"
#include "app/river_outline.hpp"

namespace undercroft::api {
namespace {

constexpr int k_most_entries = 1000;

app::Moment moment_of(Query& query) {
    app::Moment moment;
    moment.on = query.text("on");
    moment.known_on = query.text("known_on");
    return moment;
}

Result<Answer> about(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const app::AboutView view, call.book().about());
    return json_answer(render::json_of(view, call.lent.version));
}

Result<Answer> tables(Call& call) {
    TRY_VOID(call.query.done());
    return json_answer(render::json_of(app::choices_of(call.lent.tables)));
}

Result<Answer> cellar(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().cellar(moment));
}

Result<Answer> holding(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().show(call.number(), moment));
}

Result<Answer> age(Call& call) {
    app::AgeRequest request;
    request.name = call.number();
    request.on = call.query.text("on");
    request.known_on = call.query.text("known_on");
    request.from = call.query.text("from");
    request.state = call.query.text("state");
    request.older_than = call.query.texts("older_than");
    TRY_VOID(call.query.done());
    return given(call.book().age(request));
}

Result<Answer> river(Call& call) {
    const app::Moment moment = moment_of(call.query);
    constexpr std::int64_t k_most_strokes = 1'000'000;
    const std::int64_t lots = call.query.number("most_lots", 0, 0, k_most_strokes);
    const std::int64_t steps = call.query.number("most_steps", 0, 0, k_most_strokes);
    TRY_VOID(call.query.done());
    TRY(app::RiverView river, call.book().river(call.number(), moment));
    return json_answer(render::json_of(
        app::outline_of(std::move(river), static_cast<std::size_t>(lots), static_cast<std::size_t>(steps))));
}

Result<Answer> readings(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().readings(call.number(), moment));
}

Result<Answer> trace_of(Call& call, const std::string& name) {
    const std::string direction = call.query.text("direction");
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    if (direction == "back") return given(call.book().trace_back(name, moment));
    if (direction == "forward") return given(call.book().trace_forward(name, moment));
    return fail(
        ErrorKind::bad_input, "direction",
        "\"" + direction.substr(0, 40) + "\" is no direction; say back (what is in it) or forward (where it went).");
}

Result<Answer> trace_holding(Call& call) {
    return trace_of(call, call.number());
}

Result<Answer> trace_name(Call& call) {
    const std::string name = call.query.text("name");
    if (name.empty()) return fail(ErrorKind::bad_input, "name", "Of what? Name a vessel, a run, a lot or a culture.");
    return trace_of(call, name);
}

Result<Answer> shelf(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().shelf(moment));
}

Result<Answer> recall(Call& call) {
    const std::string name = call.query.text("name");
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    if (name.empty()) return fail(ErrorKind::bad_input, "name", "Of what? Name a lot, an addition or a culture.");
    return given(call.book().recall(name, moment));
}

Result<Answer> weighing(Call& call) {
    app::WeighRequest request;
    request.vessel = call.number();
    request.twin = call.query.text("twin");
    request.scale = call.query.text("scale");
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().weigh(request, moment));
}

Result<Answer> panel(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().panel(call.number(), moment));
}

Result<Answer> gap(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().gap(call.number(), moment));
}

Result<Answer> learned(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().learned(moment));
}

Result<Answer> tasting_words(Call& call) {
    const std::string word = call.query.text("word");
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().tasting_words(word, moment));
}

Result<Answer> dregs(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().dregs(call.number(), moment));
}

Result<Answer> entries(Call& call) {
    app::EntriesRequest request;
    request.subject = call.query.text("subject");
    request.kind = call.query.text("kind");
    request.words = call.query.text("words");
    request.before = call.query.number("before", 0, 1, std::int64_t{1'000'000'000'000});
    request.most = static_cast<int>(call.query.number("most", request.most, 1, k_most_entries));
    TRY_VOID(call.query.done());
    return given(call.book().entries(request));
}

Result<Answer> entry(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const app::EntryView view, call.book().entry(std::stoll(call.named)));
    return json_answer(with_member(render::json_of(view), "act", view.act ? json_of(*view.act).dump() : "null"));
}

Result<Answer> flow(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().flow(call.number(), moment));
}

Result<Answer> due(Call& call) {
    std::string within = call.query.text("within");
    TRY_VOID(call.query.done());
    return given(call.book().due(within.empty() ? "14 days" : within));
}

Result<Answer> round(Call& call) {
    TRY_VOID(call.query.done());
    return given(call.book().round());
}

Result<Answer> gear(Call& call) {
    const app::Moment moment = moment_of(call.query);
    TRY_VOID(call.query.done());
    return given(call.book().gear(moment));
}

Result<Answer> findings(Call& call) {
    TRY_VOID(call.query.done());
    return given(call.book().findings());
}

Result<Answer> check(Call& call) {
    app::CheckRequest request;
    request.checks = call.query.texts("check");
    request.head = call.query.text("head");
    TRY_VOID(call.query.done());
    return given(call.book().check(request));
}

Result<Answer> picture(Call& call) {
    TRY_VOID(call.query.done());
    TRY(app::PictureView view, call.book().picture(call.number()));
    Answer answer;
    answer.media_type = view.media_type;
    answer.body = std::move(view.bytes);
    return answer;
}

Result<Answer> openapi(Call& call) {
    TRY_VOID(call.query.done());
    return json_answer(std::string(openapi_document()));
}

constexpr auto k_question_routes = std::to_array<Route>({
    {"GET", "/book", about},
    {"GET", "/tables", tables, Needs::nothing},
    {"GET", "/cellar", cellar},
    {"GET", "/holdings/{n}", holding},
    {"GET", "/holdings/{n}/age", age},
    {"GET", "/holdings/{n}/river", river},
    {"GET", "/holdings/{n}/readings", readings},
    {"GET", "/holdings/{n}/flow", flow},
    {"GET", "/holdings/{n}/trace", trace_holding},
    {"GET", "/trace", trace_name},
    {"GET", "/recall", recall},
    {"GET", "/shelf", shelf},
    {"GET", "/holdings/{n}/dregs", dregs},
    {"GET", "/holdings/{n}/panel", panel},
    {"GET", "/holdings/{n}/gap", gap},
    {"GET", "/learned", learned},
    {"GET", "/tasting-words", tasting_words},
    {"GET", "/holdings/{n}/weighing", weighing},
    {"GET", "/entries", entries},
    {"GET", "/entries/{n}", entry},
    {"GET", "/entries/{n}/picture", picture},
    {"GET", "/due", due},
    {"GET", "/round", round},
    {"GET", "/gear", gear},
    {"GET", "/findings", findings},
    {"GET", "/check", check},
    {"GET", "/openapi.json", openapi, Needs::nothing},
});

}  // namespace

std::span<const Route> question_routes() {
    return k_question_routes;
}

}  // namespace undercroft::api
