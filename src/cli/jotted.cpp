#include "cli/jotted.hpp"

#include <algorithm>
#include <istream>
#include <iterator>

#include "app/jot.hpp"
#include "app/jot_words.hpp"
#include "cli/sitting.hpp"
#include "cli/spelling.hpp"
#include "cli/typed.hpp"
#include "render/text.hpp"

namespace undercroft::cli {
namespace {

struct Asked {
    Typed typed;
    TypedSitting sitting;
};

Result<Asked> read_asked(std::string_view command, std::span<const std::string> tokens) {
    Asked asked;
    TRY(const std::vector<std::string> rest, take_sitting_options(tokens, asked.sitting));
    for (const Command& row : commands())
        if (row.name == command) {
            TRY(asked.typed, read_typed(row, rest));
        }
    return asked;
}

app::JotHabits habits_of(const Asked& asked) {
    app::JotHabits habits{asked.typed.one("--taster"), asked.typed.one("--sample")};
    if (habits.taster.empty()) habits.taster = asked.sitting.request.by;
    return habits;
}

bool is_yes(const std::string& word) {
    return word == "y" || word == "Y" || word == "yes" || word == "Yes";
}

// Asked only of somebody who sits at a keyboard.
bool agrees(Session& session) {
    session.host.out << "\nBook it? [y/N] " << std::flush;
    session.host.in.clear();  // a round may have been ended by an end of input, which a keyboard goes on after
    std::string answer;
    return std::getline(session.host.in, answer) && is_yes(answer);
}

Result<app::JottedView> looked_at(app::Book& book, app::SittingRequest& request) {
    app::JottedView view;
    for (const app::Act& act : request.acts) view.acts.push_back(spelling_of(act));
    TRY(view.sitting, book.preview(request));
    request.key = view.sitting.key;  // what is booked then is what was shown
    return view;
}

Result<app::JottedView> booked(app::Book& book, const app::SittingRequest& request) {
    app::JottedView view;
    for (const app::Act& act : request.acts) view.acts.push_back(spelling_of(act));
    TRY(view.sitting, book.book(request));
    return view;
}

enum class Booking { at_once, asked_for, none };

// Shows what was understood, and books it: at once, after a yes at a terminal, or not at all.
int finish(Session& session, app::Book& book, app::SittingRequest request, Booking booking) {
    if (booking == Booking::at_once) {
        const auto view = booked(book, request);
        if (!view) return session.refuse(view.error());
        session.answer(*view);
        return k_ok;
    }
    const auto view = looked_at(book, request);
    if (!view) return session.refuse(view.error());
    session.answer(*view);
    if (booking == Booking::none) return k_ok;
    const bool can_ask = session.host.at_terminal && session.form == Form::text;
    if (!can_ask || !agrees(session)) {
        if (session.form == Form::text)
            session.host.out << (can_ask ? "Nothing is booked.\n" : "\n  Nothing is booked yet: --book-it does it.\n")
                             << std::flush;
        return k_ok;
    }
    const auto done = book.book(request);
    if (!done) return session.refuse(done.error());
    session.host.out << render::acknowledgement(*done) << std::flush;
    return k_ok;
}

std::string trimmed(const std::string& line) {
    const std::size_t begin = line.find_first_not_of(" \t\r");
    if (begin == std::string::npos) return {};
    return line.substr(begin, line.find_last_not_of(" \t\r") - begin + 1);
}

bool passes_by(const std::string& line) {
    return line.empty() || line == "same" || line == "-";
}

// "Amber: 1.008" names its vessel; then the round goes on behind it.
std::optional<std::size_t> named_in(const std::string& line, const app::Names& names, const app::RoundView& round) {
    const std::size_t colon = line.find(':');
    if (colon == std::string::npos) return std::nullopt;
    const app::JotWords words{line.substr(0, colon)};
    if (words.at_end()) return std::nullopt;
    const auto found = names.at_front(words.rest());
    if (!found || !*found || (*found)->words != words.rest().size()) return std::nullopt;
    for (std::size_t i = 0; i < round.vessels.size(); ++i)
        if (round.vessels[i].name == (*found)->text) return i;
    return std::nullopt;
}

// Reads the lines of a round, one a vessel.
class Walk {
public:
    Walk(Session& session, const app::RoundView& round, const app::Names& names, app::JotHabits habits)
        : m_session(session), m_round(round), m_names(names), m_habits(std::move(habits)) {}

    // Nothing when no line came at all.
    Result<std::optional<std::vector<app::Act>>> read() {
        const bool asks = m_session.host.at_terminal && m_session.form == Form::text;
        std::vector<app::Act> acts;
        bool any_line = false;
        int number = 0;
        for (std::size_t at = 0; !asks || at < m_round.vessels.size();) {
            if (asks) prompt(at);
            std::string line;
            if (!std::getline(m_session.host.in, line)) break;
            any_line = true;
            ++number;
            line = trimmed(line);
            if (!line.empty() && line.front() == '#') continue;
            auto look = take_line(line, at);
            if (!look && asks) {
                m_session.host.err << render::text_of(look.error()) << std::flush;
                continue;
            }
            if (!look) {
                Error error = std::move(look).error();
                error.facts.insert(error.facts.begin(), {"line", std::to_string(number) + ": " + line});
                return tl::unexpected(std::move(error));
            }
            std::move(look->begin(), look->end(), std::back_inserter(acts));
        }
        if (!any_line) return std::nullopt;
        return acts;
    }

private:
    void prompt(std::size_t at) {
        const app::VesselSummary& vessel = m_round.vessels[at];
        m_session.host.out << "  " << (vessel.tag.empty() ? "" : vessel.tag + "  ") << vessel.name;
        for (const app::LastReading& reading : vessel.last) m_session.host.out << ", " << reading.value;
        m_session.host.out << "\n  > " << std::flush;
    }
    // Moves `at` behind the vessel the line was about.
    Result<std::vector<app::Act>> take_line(const std::string& line, std::size_t& at) {
        if (passes_by(line)) {
            ++at;
            return std::vector<app::Act>{};
        }
        std::string text = line;
        std::size_t vessel = at;
        if (const auto named = named_in(line, m_names, m_round)) {
            vessel = *named;
            text = trimmed(line.substr(line.find(':') + 1));
        }
        if (vessel >= m_round.vessels.size())
            return fail(ErrorKind::bad_input, "round",
                        "There are more lines than the " + std::to_string(m_round.vessels.size()) + " vessels.", {},
                        "undercroft round --list shows them in order; \"Amber: 1.008\" names one.");
        if (passes_by(text)) {
            at = vessel + 1;
            return std::vector<app::Act>{};
        }
        auto acts = app::read_look(m_round.vessels[vessel].name, text, m_habits);
        if (!acts) {
            Error error = std::move(acts).error();
            error.facts.insert(error.facts.begin(), {"vessel", m_round.vessels[vessel].name});
            return tl::unexpected(std::move(error));
        }
        at = vessel + 1;
        return acts;
    }

    Session& m_session;
    const app::RoundView& m_round;
    const app::Names& m_names;
    app::JotHabits m_habits;
};

}  // namespace

int log_line(Session& session, std::span<const std::string> tokens) {
    const auto asked = read_asked("log", tokens);
    if (!asked) return session.refuse(asked.error());
    const bool book_it = asked->typed.has("--book-it");
    if (book_it && asked->sitting.what_if)
        return session.refuse({ErrorKind::bad_input, "--book-it", "It is looked at or booked, not both.", {}, {}});
    auto opened = open_named_book(session, asked->sitting.what_if ? For::asking : For::booking);
    if (!opened) return session.refuse(opened.error());
    const auto names = opened->book->names();
    if (!names) return session.refuse(names.error());
    std::string text = asked->typed.rest(0);
    if (text.empty()) text.assign(std::istreambuf_iterator<char>(session.host.in), {});
    auto acts = app::read_jotting(text, *names, habits_of(*asked));
    if (!acts) return session.refuse(acts.error());
    app::SittingRequest request = asked->sitting.request;
    request.acts = std::move(*acts);
    const Booking booking = asked->sitting.what_if ? Booking::none : book_it ? Booking::at_once : Booking::asked_for;
    return finish(session, *opened->book, std::move(request), booking);
}

int walk_round(Session& session, std::span<const std::string> tokens) {
    const auto asked = read_asked("round", tokens);
    if (!asked) return session.refuse(asked.error());
    if (!asked->typed.words.empty())
        return session.refuse(
            wants_words("round", "\"" + asked->typed.rest(0) + "\" is more than round asks for.").value());
    const bool only_list = asked->typed.has("--list");
    const bool what_if = asked->sitting.what_if;
    auto opened = open_named_book(session, only_list || what_if ? For::asking : For::booking);
    if (!opened) return session.refuse(opened.error());
    const auto round = opened->book->round();
    if (!round) return session.refuse(round.error());
    const bool asks = session.host.at_terminal && session.form == Form::text;
    if (only_list || asks) session.answer(*round);
    if (only_list) return k_ok;

    const auto names = opened->book->names();
    if (!names) return session.refuse(names.error());
    auto acts = Walk(session, *round, *names, habits_of(*asked)).read();
    if (!acts) return session.refuse(acts.error());
    if (!*acts) {
        if (!asks) session.answer(*round);
        return k_ok;
    }
    if ((*acts)->empty()) {
        session.host.out << "Every vessel was passed by: nothing is booked.\n" << std::flush;
        return k_ok;
    }
    app::SittingRequest request = asked->sitting.request;
    request.acts = std::move(**acts);
    const Booking booking = what_if ? Booking::none : asks ? Booking::asked_for : Booking::at_once;
    return finish(session, *opened->book, std::move(request), booking);
}

}  // namespace undercroft::cli
