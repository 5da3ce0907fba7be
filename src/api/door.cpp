#include "api/door.hpp"

#include <algorithm>

#include "base/letters.hpp"

namespace undercroft::api {
namespace {

bool is_own_name(std::string_view host, int port) {
    const std::string text = lower(host);
    const std::string suffix = ":" + std::to_string(port);
    for (const char* name : {"127.0.0.1", "localhost", "[::1]"})
        if (text == name + suffix || (port == 80 && text == name)) return true;
    return false;
}

}  // namespace

Result<void> check_door(const Request& request, int port) {
    if (!is_own_name(request.host, port))
        return fail(ErrorKind::bad_input, "Host", "This server answers to its own name on this machine only.",
                    {{"asked for", request.host.empty() ? "no name at all" : request.host}},
                    "Open http://127.0.0.1:" + std::to_string(port) + ".");
    const std::string origin = lower(request.origin);
    if (origin.empty() || (origin.starts_with("http://") && is_own_name(origin.substr(7), port))) return {};
    return fail(ErrorKind::bad_input, "Origin", "A page from elsewhere may not use this server.",
                {{"asked by", request.origin}}, "Use the page of this server itself.");
}

const std::vector<std::pair<std::string, std::string>>& standing_headers() {
    static const std::vector<std::pair<std::string, std::string>> k_headers = {
        {"Content-Security-Policy",
         "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; "
         "connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; "
         "frame-ancestors 'none'"},
        {"X-Content-Type-Options", "nosniff"},
        {"X-Frame-Options", "DENY"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
        {"Permissions-Policy", "camera=(), microphone=(), geolocation=()"}};
    return k_headers;
}

}  // namespace undercroft::api
