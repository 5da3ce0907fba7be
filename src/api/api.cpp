#include "api/api.hpp"

#include "api/pages.hpp"
#include "api/route.hpp"
#include "render/json.hpp"

namespace undercroft::api {
namespace {

constexpr std::size_t k_base_segments = 2;  // "api", "v1"

struct Match {
    const Route* route = nullptr;
    std::string named;
    std::string allow;  // methods of the routes with this path, when the method is none of them
};

std::vector<std::string_view> segments_of(std::string_view path) {
    std::vector<std::string_view> segments;
    for (std::size_t begin = 1; begin < path.size();) {
        const std::size_t end = std::min(path.find('/', begin), path.size());
        segments.push_back(path.substr(begin, end - begin));
        begin = end + 1;
    }
    return segments;
}

bool is_of_api(const Target& target) {
    return !target.segments.empty() && target.segments[0] == "api";
}

bool fits(const Target& target, std::string_view path, std::string& named) {
    if (target.segments.size() < k_base_segments || target.segments[0] != "api" || target.segments[1] != "v1")
        return false;
    const std::vector<std::string_view> wanted = segments_of(path);
    if (target.segments.size() != wanted.size() + k_base_segments) return false;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const std::string& segment = target.segments[i + k_base_segments];
        if (wanted[i].starts_with('{'))
            named = segment;
        else if (segment != wanted[i])
            return false;
    }
    return true;
}

Match match(const Target& target, const std::string& method) {
    Match match;
    for (const Route* route : all_routes()) {
        std::string named;
        if (!fits(target, route->path, named)) continue;
        if (route->method == method || (method == "HEAD" && route->method == "GET")) return {route, named, ""};
        const std::string one(route->method == "GET" ? "GET, HEAD" : route->method);
        match.allow += (match.allow.empty() ? "" : ", ") + one;
    }
    return match;
}

bool is_number(const std::string& text) {
    return !text.empty() && text.size() <= 12 && text.find_first_not_of("0123456789") == std::string::npos;
}

// "application/json; charset=utf-8" is "application/json".
std::string media_type_of(const std::string& header) {
    std::string type = header.substr(0, header.find(';'));
    while (!type.empty() && type.back() == ' ') type.pop_back();
    for (char& c : type)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return type;
}

Result<Which> which_of(const Target& target) {
    std::string wanted;
    for (const auto& [key, value] : target.query)
        if (key == "cellar") wanted = value;
    if (wanted.empty()) return Which::kept;
    if (wanted == "demo") return Which::demo;
    return fail(ErrorKind::bad_input, "cellar",
                "\"" + wanted.substr(0, 40) + "\" is no cellar of this server; say demo, or leave it out.");
}

// "--ta-end" of the command line is "ta_end" here.
Error in_words_of_json(Error error) {
    if (!error.where.starts_with("--")) return error;
    error.where.erase(0, 2);
    for (char& c : error.where)
        if (c == '-') c = '_';
    return error;
}

Answer wrong_method(const std::string& method, const std::string& allow) {
    Answer answer = answer_of(Error{ErrorKind::bad_input,
                                    "method",
                                    "\"" + method.substr(0, 20) + "\" is no way to ask for this.",
                                    {{"allowed", allow}},
                                    ""},
                              405);
    answer.headers.emplace_back("Allow", allow);
    return answer;
}

}  // namespace

int status_of(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::bad_input:
            return 400;
        case ErrorKind::not_found:
            return 404;
        case ErrorKind::impossible:
        case ErrorKind::stale:
            return 409;
        case ErrorKind::outside_model:
            return 422;
        case ErrorKind::read_only:
            return 403;
        case ErrorKind::storage:
            return 500;
    }
    return 500;
}

Answer answer_of(const Error& error, int status) {
    return json_answer(render::json_of(in_words_of_json(error)), status);
}

Answer answer_of(const Error& error) {
    return answer_of(error, status_of(error.kind));
}

Manners Api::manners_of(const Request& head) const {
    const auto target = read_target(head.target);
    if (!target) return {};
    const Match found = match(*target, head.method);
    if (found.route == nullptr) return {};
    return {found.route->needs, found.route->most_body, found.route->tells_progress};
}

Answer Api::answer(const Request& request, const Waiting& waiting) const {
    const auto target = read_target(request.target);
    if (!target) return answer_of(target.error());
    if (!is_of_api(*target)) return page_of(request, *target, m_lent.assets);
    const Match found = match(*target, request.method);
    if (found.route == nullptr && !found.allow.empty()) return wrong_method(request.method, found.allow);
    if (found.route == nullptr)
        return answer_of({ErrorKind::not_found,
                          target->path.substr(0, 100),
                          "There is nothing at this address.",
                          {},
                          "GET /api/v1/openapi.json lists what there is."});
    const Route& route = *found.route;
    if (route.path.find("{n}") != std::string_view::npos && !is_number(found.named))
        return answer_of(
            {ErrorKind::bad_input,
             "n",
             "\"" + found.named.substr(0, 40) + "\" is no number; a vessel, a run or an entry is named by one.",
             {},
             {}});
    Call call{m_lent, request, waiting, Query(*target), found.named, nullptr, {}};
    if (route.sends != Sends::nothing) {
        const std::string wanted = route.sends == Sends::json ? "application/json" : "application/jsonl";
        if (media_type_of(request.content_type) != wanted)
            return answer_of(Error{ErrorKind::bad_input,
                                   "Content-Type",
                                   request.content_type.empty()
                                       ? "The request does not say what its body is."
                                       : "\"" + request.content_type.substr(0, 60) + "\" is not taken here.",
                                   {},
                                   "Send it as " + wanted + "."},
                             415);
    }
    if (route.sends == Sends::json) {
        auto body = parse_json(request.body);
        if (!body) return answer_of(body.error());
        call.body = *std::move(body);
    }
    std::optional<Cellar> cellar;
    if (route.needs == Needs::book) {
        const auto which = which_of(*target);
        if (!which) return answer_of(which.error());
        auto opened = m_lent.cellar(*which);
        if (!opened) return answer_of(opened.error());
        cellar.emplace(*opened);
        call.cellar = &*cellar;
    }
    auto answer = route.answer(call);
    return answer ? *std::move(answer) : answer_of(answer.error());
}

}  // namespace undercroft::api
