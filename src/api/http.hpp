// A request and its answer as plain values: what the server of src/serve reads and writes, and what tests put together.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace undercroft::api {

struct Request {
    std::string method = "GET";
    std::string target = "/";  // as it stood in the request line: "/api/v1/cellar?on=2026-03-14"
    // Values of these headers; empty when they were not sent.
    std::string host, origin, content_type, accept, accept_encoding, if_none_match;
    std::string body;
};

struct Answer {
    int status = 200;
    std::string media_type = "application/json";
    std::string body = {};
    std::string file = {};  // its bytes are sent instead of `body`, and then it is removed
    std::vector<std::pair<std::string, std::string>> headers = {};
};

// How a long piece of work tells how far it is, and learns that nobody waits for it any more.
struct Waiting {
    std::function<void(std::size_t done, std::size_t of, const std::string& words)> progress;
    std::function<bool()> gone;
};

}  // namespace undercroft::api
