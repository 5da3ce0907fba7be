// One connection: reads requests one after the other, has them answered, and writes the answers.
#pragma once

#include <array>
#include <atomic>
#include <chrono>
#include <deque>
#include <set>
#include <string>

#include "serve/asio.hpp"
#include "serve/server.hpp"
#include "serve/worker.hpp"

namespace undercroft::serve {

class Session;

// What all connections share. Touched by the network thread only.
struct House {
    asio::io_context& context;
    const api::Api& api;
    Limits limits;
    int port = 0;
    Worker& books;
    Worker& sums;
    std::set<Session*> sessions;
    bool closing = false;
};

class Session : public std::enable_shared_from_this<Session> {
public:
    Session(House& house, Tcp::socket socket);
    Session(const Session&) = delete;
    Session& operator=(const Session&) = delete;
    ~Session();

    void begin() { await_request(m_house.limits.head); }
    // Asked to stop: ends at once unless a request is being read or answered.
    void end_if_idle();
    // Ends whatever happens.
    void give_up();

private:
    using Parser = http::request_parser<http::string_body>;
    using Serializer = http::response_serializer<http::string_body>;

    void await_request(std::chrono::milliseconds limit);
    void read_head();
    void on_head(const Code& code);
    void read_body(std::size_t most);
    void on_body(const Code& code);
    void answer_request();
    void watch_for_leaving();
    void begin_stream();
    void push_event(std::string event);
    void write_events();
    void send(api::Answer answer);
    void send_file(const api::Answer& answer);
    // Answers what was not read to its end, and takes no more from this connection.
    void turn_away(api::Answer answer);
    void after_write(const Code& code, bool keep);
    // Takes what still comes, so that the answer is not lost with it.
    void linger();
    void close();

    // The operation at hand is cut off after so long; then m_late is true.
    void limit(std::chrono::milliseconds time);
    void no_limit();
    template <class Body>
    void fill_head(http::response<Body>& response, const api::Answer& answer) const;

    House& m_house;
    Tcp::socket m_socket;
    asio::steady_timer m_timer;
    beast::flat_buffer m_buffer;
    std::optional<Parser> m_parser;
    api::Request m_request;
    api::Manners m_manners;
    bool m_idle = true;
    bool m_late = false;
    int m_turn = 0;  // of the limit that runs
    bool m_turned_away = false;
    bool m_keep = false;
    bool m_watched = false;  // for whether the other side leaves
    // Nobody waits for the answer any more; shared with the thread that works on it.
    std::shared_ptr<std::atomic<bool>> m_gone = std::make_shared<std::atomic<bool>>(false);
    std::string m_interim;
    // Of a stream of events.
    bool m_streams = false;
    bool m_stream_ends = false;
    bool m_writing = false;
    std::deque<std::string> m_events;
    std::array<char, 16 * 1024> m_waste{};
    std::size_t m_wasted = 0;
};

}  // namespace undercroft::serve
