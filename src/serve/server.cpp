#include "serve/server.hpp"

#include <csignal>
#include <vector>

#include "serve/session.hpp"

namespace undercroft::serve {
namespace {

class Server {
public:
    Server(const api::Api& api, const Limits& limits)
        : m_house{m_context, api, limits, 0, m_books, m_sums, {}, false},
          m_books(limits.waiting),
          m_sums(limits.waiting) {}

    Result<int> listen(int port) {
        const Tcp::endpoint here(asio::ip::address_v4::loopback(), static_cast<std::uint16_t>(port));
        Code code;
        m_acceptor.open(here.protocol(), code);
        if (!code) m_acceptor.set_option(asio::socket_base::reuse_address(true), code);
        if (!code) m_acceptor.bind(here, code);
        if (!code) m_acceptor.listen(asio::socket_base::max_listen_connections, code);
        if (code)
            return fail(ErrorKind::impossible, "--port",
                        "Port " + std::to_string(port) + " cannot be had: " + code.message() + ".", {},
                        "Is another undercroft serving? Choose another port; --port 0 takes a free one.");
        m_house.port = m_acceptor.local_endpoint().port();
        return m_house.port;
    }

    void run() {
        await_signal();
        accept();
        m_context.run();
    }

private:
    void accept() {
        m_acceptor.async_accept([this](const Code& code, Tcp::socket socket) {
            if (m_house.closing) return;
            if (!code && m_house.sessions.size() < m_house.limits.connections) {
                Code ignored;
                socket.set_option(Tcp::no_delay(true), ignored);
                std::make_shared<Session>(m_house, std::move(socket))->begin();
            }
            // Out of file descriptors, say: a moment later there may be one.
            if (code) {
                m_last_moment.expires_after(std::chrono::milliseconds(50));
                return m_last_moment.async_wait([this](const Code&) {
                    if (!m_house.closing) accept();
                });
            }
            accept();
        });
    }

    void await_signal() {
        m_signals.async_wait([this](const Code& code, int) {
            if (code) return;
            if (m_house.closing) return end_now();
            await_signal();  // before anything may end the waiting for good
            stop();
        });
    }

    void stop() {
        m_house.closing = true;
        Code ignored;
        m_acceptor.close(ignored);
        for (Session* session : std::vector(m_house.sessions.begin(), m_house.sessions.end())) session->end_if_idle();
        m_last_moment.expires_after(m_house.limits.stop);
        m_last_moment.async_wait([this](const Code& code) {
            if (!code) end_now();
        });
        await_last();
    }

    // Looks now and then whether the last answer is out: then nothing keeps the network thread.
    void await_last() {
        if (m_house.sessions.empty()) {
            m_last_moment.cancel();
            m_signals.cancel();
            return;
        }
        m_look.expires_after(std::chrono::milliseconds(10));
        m_look.async_wait([this](const Code&) { await_last(); });
    }

    void end_now() {
        for (Session* session : std::vector(m_house.sessions.begin(), m_house.sessions.end())) session->give_up();
        m_signals.cancel();
        m_context.stop();
    }

    // In this order, so that they go in the other: first the threads, then what was left to do, then what that refers
    // to.
    House m_house;
    asio::io_context m_context{1};
    Tcp::acceptor m_acceptor{m_context};
    asio::signal_set m_signals{m_context, SIGINT, SIGTERM};
    asio::steady_timer m_last_moment{m_context};
    asio::steady_timer m_look{m_context};
    Worker m_books;
    Worker m_sums;
};

}  // namespace

Result<void> serve(const api::Api& api, int port, const std::function<void(int port)>& listening,
                   const Limits& limits) {
    Server server(api, limits);
    TRY(const int taken, server.listen(port));
    listening(taken);
    server.run();
    return {};
}

}  // namespace undercroft::serve
