// How a long sum tells how far it has come, and learns that nobody waits for it any more.
#pragma once

#include <cstddef>
#include <functional>

namespace undercroft {

struct Patience {
    std::function<void(std::size_t done, std::size_t of)> tell = nullptr;
    std::function<bool()> gone = nullptr;

    void told(std::size_t done, std::size_t of) const {
        if (tell) tell(done, of);
    }
    [[nodiscard]] bool is_over() const { return gone && gone(); }
};

}  // namespace undercroft
