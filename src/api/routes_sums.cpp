// Sums, with a book and without one.
#include <algorithm>
#include <array>

#include "api/acts.hpp"
#include "api/calc_fields.hpp"
#include "api/request_fields.hpp"
#include "api/route.hpp"
#include "app/jot.hpp"

namespace undercroft::api {
namespace {

template <class Request>
Result<Request> read(const Call& call) {
    Fields fields(call.body, "");
    Request request;
    fields_of(fields, request);
    TRY_VOID(fields.done());
    return request;
}

// Which gallon a bare "gal" is, of a sum without a book.
void read_gallons(Fields& fields, Gallons& gallons) {
    std::string word;
    fields.word("gallons", word, {"us", "imperial"});
    if (!word.empty()) gallons = word == "us" ? Gallons::us : Gallons::imperial;
}

template <class Request>
Result<std::pair<Request, Gallons>> read_with_gallons(const Call& call) {
    Fields fields(call.body, "");
    std::pair<Request, Gallons> read{{}, Gallons::unset};
    fields_of(fields, read.first);
    read_gallons(fields, read.second);
    TRY_VOID(fields.done());
    return read;
}

Patience patience_of(const Call& call, const std::string& words) {
    Patience patience;
    if (call.waiting.gone) patience.gone = call.waiting.gone;
    if (call.waiting.progress)
        patience.tell = [&waiting = call.waiting, words](std::size_t done, std::size_t of) {
            waiting.progress(done, of, words);
        };
    return patience;
}

// What would book it, ready to be sent to /sittings with a key.
std::string with_drafted(std::string answer, const app::SittingRequest& drafted) {
    Json json = Json::object();
    if (!drafted.when.empty()) json["when"] = drafted.when;
    if (!drafted.after.empty()) json["after"] = drafted.after;
    if (!drafted.by.empty()) json["by"] = drafted.by;
    json["acts"] = Json::array();
    for (const app::Act& act : drafted.acts) json["acts"].push_back(json_of(act));
    return with_member(std::move(answer), "drafted", json.dump());
}

Result<Answer> jot(Call& call) {
    TRY_VOID(call.query.done());
    Fields fields(call.body, "");
    std::string line;
    std::string subject;
    app::JotHabits habits;
    app::SittingRequest request;
    fields.text("line", line, Need::must);
    fields.text("subject", subject);
    fields.text("taster", habits.taster);
    fields.text("sample", habits.sample);
    fields.text("when", request.when);
    fields.text("after", request.after);
    fields.text("by", request.by);
    fields.text("key", request.key);
    TRY_VOID(fields.done());
    if (habits.taster.empty()) habits.taster = request.by;
    TRY(const app::Names names, call.book().names());
    if (!subject.empty()) {
        TRY(const app::HoldingView about, call.book().show(subject, {}));
        habits.subject = about.vessel ? about.vessel->name : about.run->run;
    }
    TRY(request.acts, app::read_jotting(line, names, habits));
    TRY(const app::SittingView view, call.book().preview(request));
    Json acts = Json::array();
    for (const app::Act& act : request.acts) acts.push_back(json_of(act));
    return json_answer(with_member(render::json_of(view), "acts", acts.dump()));
}

Result<Answer> gas(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto request, read<app::GasRequest>(call));
    return given(call.book().gas(request));
}

Result<Answer> fruit(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto request, read<app::FruitRequest>(call));
    return given(call.book().fruit(request));
}

Result<Answer> change(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto request, read<app::ChangeRequest>(call));
    return given(call.book().change(request));
}

Result<Answer> remember(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto request, read<app::RememberRequest>(call));
    TRY(const app::RememberView view, call.book().remember(request));
    return json_answer(with_drafted(render::json_of(view), view.drafted));
}

constexpr const char* k_searching = "searching designs";

Result<Answer> design(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto read, read_with_gallons<app::DesignRequest>(call));
    return given(app::design_sum(read.first, read.second, patience_of(call, k_searching)));
}

Result<Answer> draft_design(Call& call) {
    TRY_VOID(call.query.done());
    Fields fields(call.body, "");
    app::DesignRequest request;
    fields_of(fields, request);
    draft_fields_of(fields, request);
    TRY_VOID(fields.done());
    TRY(const app::DesignView view, call.book().design(request, patience_of(call, k_searching)));
    return json_answer(with_drafted(render::json_of(view), view.drafted));
}

Result<Answer> age_sums(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto read, read_with_gallons<app::SoleraRequest>(call));
    return given(app::solera_sum(read.first, read.second));
}

Result<Answer> plan_blend(Call& call) {
    TRY_VOID(call.query.done());
    Fields fields(call.body, "");
    app::BlendRequest request;
    fields_of(fields, request);
    fields.text("into", request.into);
    TRY_VOID(fields.done());
    TRY(const app::BlendView view, call.book().plan_blend(request));
    std::string answer = render::json_of(view);
    return json_answer(view.drafted.acts.empty() ? std::move(answer) : with_drafted(std::move(answer), view.drafted));
}

Result<Answer> plan_quarter(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto request, read<app::QuarterRequest>(call));
    return given(call.book().plan_quarter(request));
}

Result<Answer> plan_finish(Call& call) {
    TRY_VOID(call.query.done());
    Fields fields(call.body, "");
    app::FinishRequest request;
    fields_of(fields, request);
    fields.text("subject", request.subject, Need::must);
    fields.text("volume", request.volume);
    TRY_VOID(fields.done());
    return given(call.book().plan_finish(request));
}

Result<Answer> finish_sums(Call& call) {
    TRY_VOID(call.query.done());
    Fields fields(call.body, "");
    app::FinishRequest request;
    Gallons gallons = Gallons::unset;
    read_gallons(fields, gallons);
    fields_of(fields, request);
    fields.text("beer", request.beer, Need::must);
    fields.texts("faults", request.faults);
    fields.flag("clean", request.clean);
    TRY_VOID(fields.done());
    const Day today = day_of(call.lent.surroundings.now(), call.lent.zone);
    return given(app::finish_sum(request, call.lent.tables, gallons, today));
}

Result<Answer> plan_trials(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto request, read<app::TrialsRequest>(call));
    TRY(const app::TrialsView view, call.book().plan_trials(request));
    std::string answer = render::json_of(view);
    return json_answer(view.drafted.acts.empty() ? std::move(answer) : with_drafted(std::move(answer), view.drafted));
}

Result<Answer> label(Call& call) {
    TRY_VOID(call.query.done());
    Fields fields(call.body, "");
    std::string run;
    std::string name;
    fields.text("run", run, Need::must);
    fields.text("name", name);
    TRY_VOID(fields.done());
    return given(call.book().label(run, name));
}

// --- without a book ------------------------------------------------------------------------------

Result<Answer> work_out(const Call& call, const CalcSum& sum) {
    Fields fields(call.body, "");
    app::CalcRequest request;
    request.tables = &call.lent.tables;
    read_gallons(fields, request.gallons);
    if (!sum.word.empty()) {
        std::string word;
        fields.text(sum.word.data(), word, Need::must);
        request.words.push_back(word);
    }
    for (const CalcField& field : sum.fields) {
        if (field.name == "gallons") continue;
        std::string option = "--" + std::string(field.name);
        std::replace(option.begin() + 2, option.end(), '_', '-');
        std::vector<std::string> values;
        bool set = false;
        if (field.holds == Holds::flag) {
            fields.flag(field.name.data(), set);
        } else if (field.holds == Holds::texts) {
            fields.text_or_texts(field.name.data(), values);
        } else {
            std::string value;
            fields.text(field.name.data(), value);
            if (!value.empty()) values.push_back(std::move(value));
        }
        if (set || !values.empty()) request.options[option] = std::move(values);
    }
    TRY_VOID(fields.done());
    TRY(const app::CalcView view, sum.work_out(request));
    return json_answer(render::json_of(view));
}

Result<Answer> plan_tasting(Call& call) {
    TRY_VOID(call.query.done());
    TRY(const auto request, read<app::BlindRequest>(call));
    TRY(const app::BlindView view, call.book().plan_tasting(request));
    std::string answer = render::json_of(view);
    return json_answer(view.drafted.acts.empty() ? std::move(answer) : with_drafted(std::move(answer), view.drafted));
}

Result<Answer> calc(Call& call) {
    TRY_VOID(call.query.done());
    for (const CalcSum& sum : calc_sums())
        if (sum.name == call.named) return work_out(call, sum);
    if (call.named == "solera") return age_sums(call);
    if (call.named == "fruit") {
        TRY(const auto read, read_with_gallons<app::FruitRequest>(call));
        const Day today = day_of(call.lent.surroundings.now(), call.lent.zone);
        return given(app::fruit_sum(read.first, call.lent.tables, read.second, today));
    }
    if (call.named == "blending") {
        TRY(const auto read, read_with_gallons<app::BlendRequest>(call));
        return given(app::blend_sum(read.first, call.lent.tables, read.second));
    }
    if (call.named == "finish") return finish_sums(call);
    if (call.named == "gas") {
        TRY(const auto read, read_with_gallons<app::GasRequest>(call));
        return given(app::gas_sum(read.first, call.lent.tables, read.second));
    }
    std::string all = "blending, finish, fruit, gas, solera";
    for (const CalcSum& sum : calc_sums()) all += ", " + std::string(sum.name);
    return fail(ErrorKind::not_found, "sum", "There is no sum \"" + call.named.substr(0, 40) + "\".",
                {{"there are", all}});
}

constexpr auto k_sum_routes = std::to_array<Route>({
    {"POST", "/jot/preview", jot, Needs::book, Sends::json, k_most_json},
    {"POST", "/gas", gas, Needs::book, Sends::json, k_most_json},
    {"POST", "/fruit", fruit, Needs::book, Sends::json, k_most_json},
    {"POST", "/plan/tasting", plan_tasting, Needs::book, Sends::json, k_most_json},
    {"POST", "/plan/blend", plan_blend, Needs::book, Sends::json, k_most_json},
    {"POST", "/plan/quarter", plan_quarter, Needs::book, Sends::json, k_most_json},
    {"POST", "/plan/finish", plan_finish, Needs::book, Sends::json, k_most_json},
    {"POST", "/plan/trials", plan_trials, Needs::book, Sends::json, k_most_json},
    {"POST", "/change", change, Needs::book, Sends::json, k_most_json},
    {"POST", "/remember", remember, Needs::book, Sends::json, k_most_json},
    {"POST", "/design", design, Needs::time, Sends::json, k_most_json, true},
    {"POST", "/design/draft", draft_design, Needs::book, Sends::json, k_most_json, true},
    {"POST", "/age-sums", age_sums, Needs::time, Sends::json, k_most_json, true},
    {"POST", "/labels", label, Needs::book, Sends::json, k_most_json},
    {"POST", "/calc/{sum}", calc, Needs::time, Sends::json, k_most_json, true},
});

}  // namespace

std::span<const Route> sum_routes() {
    return k_sum_routes;
}

}  // namespace undercroft::api
