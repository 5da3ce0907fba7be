#include "cli/run.hpp"

#include <algorithm>
#include <iterator>
#include <span>

#include "cli/begin.hpp"
#include "cli/help.hpp"
#include "cli/jotted.hpp"
#include "cli/print.hpp"
#include "cli/questions.hpp"
#include "cli/session.hpp"
#include "cli/sitting.hpp"
#include "cli/transfer.hpp"
#include "cli/typed.hpp"
#include "units/amount.hpp"

namespace undercroft::cli {
namespace {

struct Common {
    Form form = Form::text;
    std::string book;
    bool help = false;
    std::vector<std::string> rest;
};

// The options every command takes, wherever they stand.
Result<Common> take_common(const std::vector<std::string>& arguments) {
    static const std::vector<Option> k_options = {{"--book", Takes::one, "FILE", "the book", false},
                                                  {"--json", Takes::nothing, "", "", false},
                                                  {"--help", Takes::nothing, "", "", false}};
    Common common;
    Typed typed;
    for (std::size_t i = 0; i < arguments.size();) {
        const std::string name = arguments[i].substr(0, arguments[i].find('='));
        if (arguments[i] == "--") {
            common.rest.insert(common.rest.end(), arguments.begin() + static_cast<std::ptrdiff_t>(i), arguments.end());
            break;
        }
        if (name == "--book" || name == "--json" || name == "--help") {
            TRY_VOID(take_option(arguments, i, k_options, typed));
        } else if (arguments[i] == "-h") {
            common.help = true;
            ++i;
        } else {
            common.rest.push_back(arguments[i++]);
        }
    }
    common.form = typed.has("--json") ? Form::json : Form::text;
    common.book = typed.one("--book");
    common.help = common.help || typed.has("--help");
    return common;
}

int show_help(Session& session, std::span<const std::string> tokens) {
    if (tokens.empty()) {
        session.host.out << help_page() << std::flush;
        return k_ok;
    }
    const auto found = find_command(tokens);
    if (!found) return session.refuse(found.error());
    session.host.out << help_of(*found->command) << std::flush;
    return k_ok;
}

int show_version(Session& session) {
    if (session.form == Form::json)
        session.host.out << "{\"version\":\"" << session.host.version << "\"}\n" << std::flush;
    else
        session.host.out << "undercroft " << session.host.version << "\n" << std::flush;
    return k_ok;
}

constexpr std::size_t k_largest_logger_file = std::size_t{32} * 1024 * 1024;

// Reads the file that an act names, if any; the rest is left to the book.
Result<void> take_file(Host& host, app::Act& act) {
    if (auto* note = std::get_if<app::WriteNote>(&act); note != nullptr && !note->picture_file.empty()) {
        TRY(note->picture, host.read_file(note->picture_file, ledger::k_largest_picture));
    }
    if (auto* logger = std::get_if<app::ReadLogger>(&act)) {
        TRY(logger->bytes, host.read_file(logger->file, k_largest_logger_file));
        if (logger->bytes.size() > k_largest_logger_file)
            return fail(ErrorKind::bad_input, logger->file, "The file has more than 32 MB; split it.");
    }
    return {};
}

Result<void> take_files(Host& host, std::vector<app::Act>& acts) {
    for (app::Act& act : acts) {
        TRY_VOID(take_file(host, act));
        if (auto* correct = std::get_if<app::Correct>(&act)) {
            app::Act instead = *correct->instead;
            TRY_VOID(take_file(host, instead));
            correct->instead = std::make_shared<const app::Act>(std::move(instead));
        }
    }
    return {};
}

int forget(Session& session, const Command& command, const Typed& typed) {
    const bool person = command.name == "forget";
    if (typed.words.empty())
        return session.refuse(wants_words(command.name, person ? "Who is forgotten? Write the whole name."
                                                               : "Whose picture? Name the entry.")
                                  .value());
    const bool what_if = typed.has("--what-if");
    auto opened = open_named_book(session, what_if ? For::asking : For::booking);
    if (!opened) return session.refuse(opened.error());
    const auto view = person ? opened->book->forget_person(typed.rest(0), what_if)
                             : opened->book->forget_picture(typed.rest(0), what_if);
    if (!view) return session.refuse(view.error());
    session.answer(*view);
    return k_ok;
}

int serve(Session& session, const Typed& typed) {
    const auto path = path_of_book(session);
    if (!path) return session.refuse(path.error());
    ServeOrder order;
    order.book = *path;
    if (typed.has("--port")) {
        const auto port = parse_count("--port", typed.one("--port"), 0, 65535);
        if (!port) return session.refuse(port.error());
        order.port = *port;
    }
    order.listening = [&session](int port) { session.host.out << "http://127.0.0.1:" << port << "\n" << std::flush; };
    const auto served = session.host.serve(order);
    if (served) return k_ok;
    Error error = served.error();
    if (error.kind == ErrorKind::not_found)
        error.next_step = "undercroft init --book " + order.book +
                          " begins a book there, demo an invented one; then it can be served.";
    return session.refuse(error);
}

int book_acts(Session& session, std::span<const std::string> tokens) {
    auto sitting = read_sitting(tokens);
    if (!sitting) return session.refuse(sitting.error());
    if (const auto taken = take_files(session.host, sitting->request.acts); !taken)
        return session.refuse(taken.error());
    auto opened = open_named_book(session, sitting->what_if ? For::asking : For::booking);
    if (!opened) return session.refuse(opened.error());
    const auto view = sitting->what_if ? opened->book->preview(sitting->request) : opened->book->book(sitting->request);
    if (!view) return session.refuse(view.error());
    session.answer(*view);
    return k_ok;
}

std::string lines_text(const ScriptSitting& sitting) {
    return sitting.first_line == sitting.last_line
               ? std::to_string(sitting.first_line)
               : std::to_string(sitting.first_line) + " to " + std::to_string(sitting.last_line);
}

// Under the one line that acknowledges a sitting: what its keeper has to see.
void add_remarks(Session& session, const app::SittingView& view) {
    for (const app::Caution& caution : view.cautions)
        session.host.out << "!! CAUTION (" << caution.id << ") " << caution.words << "\n";
    for (const std::string& remark : view.remarks) session.host.out << "  * " << remark << "\n";
    for (const app::LabelView& label : view.labels) session.host.out << render::text_of(label);
    session.host.out << std::flush;
}

int book_lines(Session& session, const Typed& typed) {
    auto opened = open_named_book(session, typed.has("--what-if") ? For::asking : For::booking);
    if (!opened) return session.refuse(opened.error());
    std::optional<Day> as_of;
    if (typed.has("--as-of")) {
        const Day today = day_of(session.host.surroundings.now(), *opened->zone);
        const auto day = parse_day("--as-of", typed.one("--as-of"), today);
        if (!day) return session.refuse(day.error());
        as_of = *day;
    }
    Script script(session.host.in, typed.one("--by"), as_of);
    bool looked = false;
    while (true) {
        auto next = script.next();
        if (!next) return session.refuse(next.error());
        if (!*next) return k_ok;
        ScriptSitting& sitting = **next;
        if (const auto taken = take_files(session.host, sitting.typed.request.acts); !taken)
            return session.refuse(taken.error());
        const bool what_if = typed.has("--what-if") || sitting.typed.what_if;
        if (looked)
            return session.refuse({ErrorKind::bad_input,
                                   "--what-if",
                                   "A what-if looks at one sitting; another one follows it.",
                                   {{"line", lines_text(sitting)}},
                                   "Book the first, then look at the next."});
        looked = what_if;
        const auto view =
            what_if ? opened->book->preview(sitting.typed.request) : opened->book->book(sitting.typed.request);
        if (!view) {
            Error error = view.error();
            error.facts.insert(error.facts.begin(), {"line", lines_text(sitting)});
            return session.refuse(error);
        }
        if (session.form == Form::json || what_if) {
            session.answer(*view);
        } else {
            session.host.out << render::acknowledgement(*view) << std::flush;
            add_remarks(session, *view);
        }
        // Nobody hears the acknowledgement any more: what would follow could not be told from what was booked.
        if (!session.host.out) return k_storage;
    }
}

}  // namespace

int run(const std::vector<std::string>& arguments, Host& host) {
    Session session{host, Form::text, {}};
    const auto common = take_common(arguments);
    if (!common) {
        if (std::find(arguments.begin(), arguments.end(), "--json") != arguments.end()) session.form = Form::json;
        return session.refuse(common.error());
    }
    session.form = common->form;
    session.book_path = common->book;
    std::vector<std::string> tokens = common->rest;
    if (!tokens.empty() && tokens[0] == "--version") tokens[0] = "version";
    if (!tokens.empty() && tokens[0] == "-") tokens[0] = "sitting";
    if (tokens.empty()) return show_help(session, {});
    if (tokens[0] == "help") return show_help(session, std::span(tokens).subspan(1));

    // Options of a sitting may come before the act: "undercroft --what-if pull ...".
    if (is_option_word(tokens[0]) && !common->help) return book_acts(session, tokens);
    const auto found = find_command(tokens);
    if (!found) return session.refuse(found.error());
    if (common->help) return show_help(session, tokens);
    if (found->command->role == Role::act) return book_acts(session, tokens);

    // Options of a sitting may stand among these words.
    if (found->command->name == "log") return log_line(session, std::span(tokens).subspan(1));
    if (found->command->name == "round") return walk_round(session, std::span(tokens).subspan(1));

    const auto typed = read_typed(*found->command, std::span(tokens).subspan(found->length));
    if (!typed) return session.refuse(typed.error());
    const std::string_view name = found->command->name;
    if (name == "version") return show_version(session);
    if (name == "forget" || name == "forget-picture") return forget(session, *found->command, *typed);
    if (name == "init") return begin_book(session, *typed);
    if (name == "demo") return write_demo(session, *typed);
    if (name == "serve") return serve(session, *typed);
    if (name == "sitting") return book_lines(session, *typed);
    if (found->command->group == Group::paper) return print(session, *found->command, *typed);
    if (found->command->group == Group::exchange) return transfer(session, *found->command, *typed);
    return ask(session, *found->command, *typed);
}

}  // namespace undercroft::cli
