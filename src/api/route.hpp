// What every route is made of; for the .cpp files of this folder.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "api/api.hpp"
#include "api/fields.hpp"
#include "api/target.hpp"
#include "render/ages.hpp"
#include "render/blending.hpp"
#include "render/blind.hpp"
#include "render/calc.hpp"
#include "render/finish.hpp"
#include "render/gap.hpp"
#include "render/json.hpp"
#include "render/panel.hpp"
#include "render/quarter.hpp"
#include "render/shelf.hpp"
#include "render/tasting_words.hpp"
#include "render/web.hpp"

namespace undercroft::api {

// The part of an address behind the question mark, read like Fields: what nobody asked for is refused.
class Query {
public:
    explicit Query(const Target& target) : m_target(target) {}
    [[nodiscard]] std::string text(const char* name);
    [[nodiscard]] std::vector<std::string> texts(const char* name);  // "a=1&a=2"
    // Whole number; `otherwise` when it was left out.
    [[nodiscard]] std::int64_t number(const char* name, std::int64_t otherwise, std::int64_t low, std::int64_t high);
    [[nodiscard]] Result<void> done();

private:
    const Target& m_target;
    std::vector<std::string> m_asked;
    std::optional<Error> m_error;
};

// A request on its way through its route.
struct Call {
    const Lent& lent;
    const Request& request;
    const Waiting& waiting;
    Query query;
    std::string named;         // what stands for {n} or {sum} in the path
    Cellar* cellar = nullptr;  // where the route needs a book
    Json body = {};            // where the route takes JSON

    [[nodiscard]] app::Book& book() const { return cellar->book; }
    // "#12" of the path.
    [[nodiscard]] std::string number() const { return "#" + named; }
};

enum class Sends { nothing, json, lines };  // lines: an export (application/jsonl)

struct Route {
    std::string_view method;
    std::string_view path;  // below /api/v1: "/holdings/{n}/age"
    Result<Answer> (*answer)(Call&);
    Needs needs = Needs::book;
    Sends sends = Sends::nothing;
    std::size_t most_body = 0;
    bool tells_progress = false;
};

inline constexpr std::size_t k_most_json = std::size_t{1} << 20;
inline constexpr std::size_t k_most_picture = std::size_t{12} << 20;  // 8 MiB of a picture are 11 MiB of base64
inline constexpr std::size_t k_most_import = std::size_t{64} << 20;

[[nodiscard]] std::span<const Route> question_routes();
[[nodiscard]] std::span<const Route> sitting_routes();
[[nodiscard]] std::span<const Route> sum_routes();
[[nodiscard]] std::span<const Route> exchange_routes();
[[nodiscard]] std::span<const Route> paper_routes();
[[nodiscard]] std::vector<const Route*> all_routes();

[[nodiscard]] Answer json_answer(std::string body, int status = 200);
// What was found, or why it was refused.
template <class View>
[[nodiscard]] Result<Answer> given(const Result<View>& view) {
    if (!view) return tl::unexpected(view.error());
    return json_answer(render::json_of(*view));
}
// `answer`, a JSON object, with one more member in front.
[[nodiscard]] std::string with_member(std::string answer, std::string_view name, std::string_view value);

}  // namespace undercroft::api
