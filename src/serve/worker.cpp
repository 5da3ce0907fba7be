#include "serve/worker.hpp"

#include <utility>

namespace undercroft::serve {

Worker::Worker(std::size_t most_waiting) : m_most_waiting(most_waiting), m_thread([this] { work(); }) {}

Worker::~Worker() {
    {
        const std::lock_guard lock(m_mutex);
        m_ends = true;
    }
    m_more.notify_one();
    m_thread.join();
}

bool Worker::take(std::function<void()> job) {
    {
        const std::lock_guard lock(m_mutex);
        if (m_jobs.size() >= m_most_waiting) return false;
        m_jobs.push_back(std::move(job));
    }
    m_more.notify_one();
    return true;
}

void Worker::work() {
    while (true) {
        std::function<void()> job;
        {
            std::unique_lock lock(m_mutex);
            m_more.wait(lock, [this] { return m_ends || !m_jobs.empty(); });
            if (m_jobs.empty()) return;
            job = std::move(m_jobs.front());
            m_jobs.pop_front();
        }
        job();
    }
}

}  // namespace undercroft::serve
