// A thread that works off what waits in one line.
//
// Holds: one job at a time, in order; jobs still waiting when it is destroyed are worked off first.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>

namespace undercroft::serve {

class Worker {
public:
    explicit Worker(std::size_t most_waiting);
    Worker(const Worker&) = delete;
    Worker& operator=(const Worker&) = delete;
    ~Worker();

    // False when the line is full: the job is not taken.
    [[nodiscard]] bool take(std::function<void()> job);

private:
    void work();

    std::mutex m_mutex;
    std::condition_variable m_more;
    std::deque<std::function<void()>> m_jobs;
    std::size_t m_most_waiting;
    bool m_ends = false;
    std::thread m_thread;
};

}  // namespace undercroft::serve
