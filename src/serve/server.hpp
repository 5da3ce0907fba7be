// The HTTP server: sockets on one side, api::Api on the other.
//
// Holds: it listens on this machine only (127.0.0.1). One thread does all reading and writing; what needs a book waits
// in one line and is worked off by a second thread, long sums in another by a third, so that neither a slow client nor
// a long sum stands in anybody's way. Whoever sends too slowly, too much or nothing at all is dropped. Asked to stop,
// it takes nobody in any more and answers those who are in.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>

#include "api/api.hpp"

namespace undercroft::serve {

struct Limits {
    std::chrono::milliseconds head{5'000};         // for all of a request's head, from its first byte on
    std::chrono::milliseconds idle{60'000};        // between two requests of one connection
    std::chrono::milliseconds body{10'000};        // for a body of up to 1 MiB
    std::chrono::milliseconds large_body{60'000};  // for a larger one
    std::chrono::milliseconds write{30'000};       // for each answer to be taken
    std::chrono::milliseconds stop{10'000};        // for the last answers when it is asked to stop
    std::size_t head_bytes = 16 * 1024;
    std::size_t connections = 512;
    std::size_t waiting = 256;  // requests that wait for a book, and again for a long sum
};

// Serves until SIGINT or SIGTERM (a second one ends it at once). `port` 0 is a free one; `listening` is told which it
// is, once requests are taken. Errors: impossible when the port is taken.
[[nodiscard]] Result<void> serve(const api::Api& api, int port, const std::function<void(int port)>& listening,
                                 const Limits& limits = {});

}  // namespace undercroft::serve
