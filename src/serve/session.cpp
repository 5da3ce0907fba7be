#include "serve/session.hpp"

#include <cstdint>
#include <cstdio>
#include <exception>
#include <limits>
#include <sstream>
#include <string_view>

#include "api/door.hpp"

namespace undercroft::serve {
namespace {

constexpr std::size_t k_large_body = std::size_t{1} << 20;
constexpr std::size_t k_most_wasted = std::size_t{512} << 20;
constexpr std::chrono::seconds k_linger{5};
constexpr std::size_t k_events_unwritten = 256;  // of a reader that does not read

std::string text_of(beast::string_view text) {
    return {text.data(), text.size()};
}

template <class Fields>
std::string header(const Fields& fields, http::field name) {
    return text_of(fields[name]);
}

// A fault of the transport, in the same form as all others.
api::Answer refusal(int status, std::string where, std::string what, std::string next_step = {}) {
    return api::answer_of(Error{ErrorKind::bad_input, std::move(where), std::move(what), {}, std::move(next_step)},
                          status);
}

api::Answer too_large(std::size_t most) {
    const std::string words = most == 0              ? "Nothing is sent to this address."
                              : most >= k_large_body ? "At most " + std::to_string(most >> 20U) + " MiB are taken here."
                                                     : "At most " + std::to_string(most) + " bytes are taken here.";
    return refusal(413, "body", words);
}

std::string event_of(std::string_view name, std::string_view data) {
    while (data.ends_with('\n')) data.remove_suffix(1);
    return "event: " + std::string(name) + "\ndata: " + std::string(data) + "\n\n";
}

// Digits and plain words only, so that nothing needs to be escaped.
std::string progress_event(std::size_t done, std::size_t of, const std::string& words) {
    return event_of("progress", "{\"done\":" + std::to_string(done) + ",\"of\":" + std::to_string(of) +
                                    ",\"words\":\"" + words + "\"}");
}

}  // namespace

Session::Session(House& house, Tcp::socket socket)
    : m_house(house), m_socket(std::move(socket)), m_timer(m_socket.get_executor()) {
    m_house.sessions.insert(this);
}

Session::~Session() {
    m_house.sessions.erase(this);
}

void Session::limit(std::chrono::milliseconds time) {
    m_late = false;
    const int turn = ++m_turn;
    m_timer.expires_after(time);
    m_timer.async_wait([weak = weak_from_this(), turn](const Code& code) {
        const auto self = weak.lock();
        if (code || !self || self->m_turn != turn) return;
        self->m_late = true;
        Code ignored;
        self->m_socket.cancel(ignored);
    });
}

void Session::no_limit() {
    ++m_turn;
    m_timer.cancel();
}

void Session::await_request(std::chrono::milliseconds time) {
    m_idle = true;
    m_keep = false;
    m_request = {};
    if (m_buffer.size() > 0) return read_head();
    limit(time);
    m_socket.async_read_some(m_buffer.prepare(4096), [self = shared_from_this()](const Code& code, std::size_t bytes) {
        self->no_limit();
        if (code) return self->close();
        self->m_buffer.commit(bytes);
        self->read_head();
    });
}

void Session::read_head() {
    m_idle = false;
    m_parser.emplace();
    m_parser->header_limit(static_cast<std::uint32_t>(m_house.limits.head_bytes));
    // The body is judged once its head is known. Boost 1.74 takes "no limit" for "nothing at all".
    m_parser->body_limit(std::numeric_limits<std::uint64_t>::max());
    limit(m_house.limits.head);
    http::async_read_header(m_socket, m_buffer, *m_parser,
                            [self = shared_from_this()](const Code& code, std::size_t) { self->on_head(code); });
}

void Session::on_head(const Code& code) {
    no_limit();
    if (m_late) return turn_away(refusal(408, "request", "The head of the request did not come in time."));
    if (code == http::error::header_limit)
        return turn_away(refusal(431, "request", "The head of the request is too long."));
    if (code == http::error::end_of_stream ||
        (code && code.category() != http::make_error_code(http::error::bad_method).category()))
        return close();
    if (code) return turn_away(refusal(400, "request", "This is no request of HTTP/1.1: " + code.message() + "."));

    const auto& head = m_parser->get();
    m_keep = head.keep_alive() && !m_house.closing;
    m_request.method = text_of(head.method_string());
    m_request.target = text_of(head.target());
    m_request.host = header(head, http::field::host);
    m_request.origin = header(head, http::field::origin);
    m_request.content_type = header(head, http::field::content_type);
    m_request.accept = header(head, http::field::accept);
    m_request.accept_encoding = header(head, http::field::accept_encoding);
    m_request.if_none_match = header(head, http::field::if_none_match);
    if (const auto open = api::check_door(m_request, m_house.port); !open)
        return turn_away(api::answer_of(open.error(), 403));
    m_manners = m_house.api.manners_of(m_request);
    const std::size_t most = m_manners.most_body;
    if (const auto length = m_parser->content_length(); length && *length > most) return turn_away(too_large(most));
    m_parser->body_limit(most);
    if (!beast::iequals(head[http::field::expect], "100-continue")) return read_body(most);
    m_interim = "HTTP/1.1 100 Continue\r\n\r\n";
    limit(m_house.limits.write);
    asio::async_write(m_socket, asio::buffer(m_interim),
                      [self = shared_from_this(), most](const Code& failed, std::size_t) {
                          self->no_limit();
                          if (failed) return self->close();
                          self->read_body(most);
                      });
}

void Session::read_body(std::size_t most) {
    limit(most > k_large_body ? m_house.limits.large_body : m_house.limits.body);
    http::async_read(m_socket, m_buffer, *m_parser,
                     [self = shared_from_this()](const Code& code, std::size_t) { self->on_body(code); });
}

void Session::on_body(const Code& code) {
    no_limit();
    if (m_late) return turn_away(refusal(408, "body", "The body of the request did not come in time."));
    if (code == http::error::body_limit) return turn_away(too_large(m_manners.most_body));
    if (code && code.category() == http::make_error_code(http::error::bad_method).category() &&
        code != http::error::partial_message)
        return turn_away(refusal(400, "body", "The body is not what HTTP/1.1 allows."));
    if (code) return close();
    m_request.body = std::move(m_parser->get().body());
    answer_request();
}

void Session::answer_request() {
    if (m_manners.needs == api::Needs::nothing) return send(m_house.api.answer(m_request, {}));
    m_streams = m_manners.tells_progress && m_request.accept.find("text/event-stream") != std::string::npos;
    m_gone->store(false);
    api::Waiting waiting;
    waiting.gone = [gone = m_gone] { return gone->load(); };
    if (m_streams)
        waiting.progress = [weak = weak_from_this(), &context = m_house.context](std::size_t done, std::size_t of,
                                                                                 const std::string& words) {
            asio::post(context, [weak, event = progress_event(done, of, words)] {
                if (const auto self = weak.lock()) self->push_event(event);
            });
        };
    // The network thread ends only when nothing is being worked on any more.
    auto work = [self = shared_from_this(), waiting, guard = asio::make_work_guard(m_house.context)]() mutable {
        api::Answer answer;
        if (!waiting.gone()) {
            try {
                answer = self->m_house.api.answer(self->m_request, waiting);
            } catch (const std::exception& bug) {
                answer = api::answer_of(Error{ErrorKind::storage,
                                              "undercroft",
                                              "This is a mistake of the program, not yours.",
                                              {{"it says", bug.what()}},
                                              "The book holds whole sittings only; undercroft check proves it."},
                                        500);
            }
        }
        // With the last hold on the session: it ends where it lives, on the network thread.
        asio::io_context& context = self->m_house.context;
        asio::post(context, [self = std::move(self), answer = std::move(answer)]() mutable {
            self->m_watched = false;
            if (self->m_gone->load()) return self->close();
            self->send(std::move(answer));
        });
    };
    Worker& worker = m_manners.needs == api::Needs::book ? m_house.books : m_house.sums;
    if (!worker.take(std::move(work))) {
        api::Answer busy = api::answer_of(
            Error{ErrorKind::storage, "server", "Too much is waiting already.", {}, "Try again in a moment."}, 503);
        busy.headers.emplace_back("Retry-After", "1");
        m_streams = false;
        return send(std::move(busy));
    }
    if (m_streams) begin_stream();
    watch_for_leaving();
}

void Session::watch_for_leaving() {
    m_watched = true;
    m_socket.async_wait(Tcp::socket::wait_read, [self = shared_from_this()](const Code& code) {
        // It goes on after the answer, until the next byte comes; then it says nothing any more.
        if (code || !self->m_watched) return;
        char byte = 0;
        Code looked;
        const std::size_t there = self->m_socket.receive(asio::buffer(&byte, 1), Tcp::socket::message_peek, looked);
        // What comes already is the next request; it waits in its place.
        if (!looked && there > 0) return;
        self->m_gone->store(true);
    });
}

template <class Body>
void Session::fill_head(http::response<Body>& response, const api::Answer& answer) const {
    response.version(11);
    response.result(static_cast<unsigned>(answer.status));
    for (const auto& [name, value] : api::standing_headers()) response.set(name, value);
    response.set(http::field::content_type, answer.media_type);
    response.set(http::field::cache_control, "no-store");
    for (const auto& [name, value] : answer.headers) response.set(name, value);
    response.keep_alive(m_keep);
}

void Session::begin_stream() {
    m_keep = false;
    api::Answer head;
    head.media_type = "text/event-stream";
    http::response<http::empty_body> response;
    fill_head(response, head);
    std::ostringstream text;
    text << response.base();
    push_event(text.str());
}

void Session::push_event(std::string event) {
    if (m_stream_ends) return;
    if (m_events.size() >= k_events_unwritten) return give_up();
    m_events.push_back(std::move(event));
    if (!m_writing) write_events();
}

void Session::write_events() {
    if (m_events.empty()) {
        m_writing = false;
        if (m_stream_ends) close();
        return;
    }
    m_writing = true;
    limit(m_house.limits.write);
    asio::async_write(m_socket, asio::buffer(m_events.front()),
                      [self = shared_from_this()](const Code& code, std::size_t) {
                          self->no_limit();
                          if (code) return self->give_up();
                          self->m_events.pop_front();
                          self->write_events();
                      });
}

void Session::send(api::Answer answer) {
    m_keep = m_keep && !m_house.closing;
    if (m_streams) {
        push_event(event_of(answer.status < 400 ? "answer" : "error", answer.body));
        m_stream_ends = true;
        if (!m_writing) write_events();
        return;
    }
    if (!answer.file.empty()) return send_file(answer);
    auto response = std::make_shared<http::response<http::string_body>>();
    fill_head(*response, answer);
    const std::size_t length = answer.body.size();
    const bool bare = m_request.method == "HEAD" || answer.status == 304;
    if (!bare) response->body() = std::move(answer.body);
    if (answer.status != 304) response->content_length(length);
    limit(m_house.limits.write);
    // A bare answer says how long its body would be and sends none.
    auto serializer = std::make_shared<Serializer>(*response);
    const auto after = [self = shared_from_this(), response, serializer](const Code& code, std::size_t) {
        self->after_write(code, response->keep_alive());
    };
    if (bare)
        http::async_write_header(m_socket, *serializer, after);
    else
        http::async_write(m_socket, *serializer, after);
}

void Session::send_file(const api::Answer& answer) {
    auto response = std::make_shared<http::response<http::file_body>>();
    Code code;
    response->body().open(answer.file.c_str(), beast::file_mode::scan, code);
    std::remove(answer.file.c_str());  // open, it stays readable
    if (code)
        return send(api::answer_of(Error{ErrorKind::storage, "server", "The file could not be read.", {}, {}}, 500));
    fill_head(*response, answer);
    response->prepare_payload();
    limit(m_house.limits.large_body);
    http::async_write(m_socket, *response, [self = shared_from_this(), response](const Code& failed, std::size_t) {
        self->after_write(failed, response->keep_alive());
    });
}

void Session::turn_away(api::Answer answer) {
    m_turned_away = true;
    m_keep = false;
    m_streams = false;
    send(std::move(answer));
}

void Session::after_write(const Code& code, bool keep) {
    no_limit();
    if (code) return close();
    if (m_turned_away) return linger();
    if (!keep) return close();
    await_request(m_house.limits.idle);
}

void Session::linger() {
    Code ignored;
    m_socket.shutdown(Tcp::socket::shutdown_send, ignored);
    m_idle = true;
    if (m_wasted == 0) limit(k_linger);
    m_socket.async_read_some(asio::buffer(m_waste), [self = shared_from_this()](const Code& code, std::size_t bytes) {
        self->m_wasted += bytes;
        if (code || self->m_wasted > k_most_wasted) return self->close();
        self->linger();
    });
}

void Session::end_if_idle() {
    if (m_idle) close();
}

void Session::give_up() {
    m_gone->store(true);
    close();
}

void Session::close() {
    no_limit();
    Code ignored;
    m_socket.shutdown(Tcp::socket::shutdown_both, ignored);
    m_socket.close(ignored);
}

}  // namespace undercroft::serve
