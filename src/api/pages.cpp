#include "api/pages.hpp"

#include <algorithm>
#include <string_view>

#include "api/api.hpp"

namespace undercroft::api {
namespace {

constexpr std::string_view k_not_built_in =
    "<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>Undercroft</title></head>\n<body>\n"
    "<h1>Undercroft</h1>\n<p>The page is not built into this program. The answers for programs are at "
    "<a href=\"/api/v1/openapi.json\">/api/v1</a>, and the command line has all of them.</p>\n</body>\n</html>\n";

const web::Asset* find(std::span<const web::Asset> assets, std::string_view path) {
    const auto found =
        std::find_if(assets.begin(), assets.end(), [&](const web::Asset& asset) { return asset.path == path; });
    return found == assets.end() ? nullptr : &*found;
}

std::string text_of(std::span<const std::byte> bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

Answer file_of(const Request& request, const web::Asset& asset) {
    Answer answer;
    answer.media_type = std::string(asset.media_type);
    const bool for_good = asset.path.starts_with("/assets/");
    answer.headers = {{"ETag", std::string(asset.etag)},
                      {"Cache-Control", for_good ? "public, max-age=31536000, immutable" : "no-cache"},
                      {"Vary", "Accept-Encoding"}};
    if (!asset.etag.empty() && request.if_none_match.find(asset.etag) != std::string::npos) {
        answer.status = 304;
        return answer;
    }
    const bool packed = !asset.gzip.empty() && request.accept_encoding.find("gzip") != std::string::npos;
    if (packed) answer.headers.emplace_back("Content-Encoding", "gzip");
    answer.body = text_of(packed ? asset.gzip : asset.bytes);
    return answer;
}

}  // namespace

Answer page_of(const Request& request, const Target& target, std::span<const web::Asset> assets) {
    if (request.method != "GET" && request.method != "HEAD") {
        Answer answer = answer_of(
            Error{ErrorKind::bad_input, "method", "The page is only read.", {{"allowed", "GET, HEAD"}}, {}}, 405);
        answer.headers.emplace_back("Allow", "GET, HEAD");
        return answer;
    }
    if (const web::Asset* asset = find(assets, target.path)) return file_of(request, *asset);
    const bool names_a_file = !target.segments.empty() && target.segments.back().find('.') != std::string::npos;
    if (names_a_file)
        return answer_of({ErrorKind::not_found, target.path.substr(0, 100), "There is no such file here.", {}, {}});
    if (const web::Asset* index = find(assets, "/index.html")) return file_of(request, *index);
    Answer answer;
    answer.media_type = "text/html; charset=utf-8";
    answer.headers = {{"Cache-Control", "no-cache"}};
    answer.body = std::string(k_not_built_in);
    return answer;
}

}  // namespace undercroft::api
