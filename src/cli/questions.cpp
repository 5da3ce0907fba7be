#include "cli/questions.hpp"

#include "cli/ages_commands.hpp"
#include "cli/blend_commands.hpp"
#include "cli/calc_commands.hpp"
#include "cli/finish_commands.hpp"
#include "cli/quarter_commands.hpp"
#include "cli/tasting_commands.hpp"
#include "units/amount.hpp"

namespace undercroft::cli {
namespace {

constexpr int k_entries_shown = 40;
constexpr const char* k_due_within = "14 days";
constexpr int k_most_entries = 1'000'000;

app::FruitRequest fruit_request(const Typed& t) {
    app::FruitRequest request;
    request.fruit = t.rest(0, 1);
    request.mass = t.words.empty() ? std::string{} : t.words.back();
    request.beer = t.one("--beer");
    request.volume = t.one("--volume");
    request.gravity = t.one("--gravity");
    request.alcohol = t.one("--alcohol");
    request.fruit_gravity = t.one("--fruit-gravity");
    request.pull = t.one("--pull");
    request.enzyme_dose = t.one("--enzyme");
    request.nutrient_dose = t.one("--nutrient");
    request.hold_up = t.one("--hold-up");
    return request;
}

app::GasRequest gas_request(const Typed& t) {
    app::GasRequest request;
    request.gravity = t.one("--gravity");
    request.original_gravity = t.one("--og");
    request.alcohol = t.one("--alcohol");
    request.priming = t.one("--priming");
    request.fill = t.one("--fill");
    request.head_space = t.one("--head-space");
    request.store = t.one("--store");
    request.cultures = t.all("--culture");
    request.malic = t.one("--malic");
    request.citric = t.one("--citric");
    request.sorbitol = t.one("--sorbitol");
    request.fermentation_temperature = t.one("--fermentation-temperature");
    request.limit = t.one("--limit");
    request.altitude = t.one("--altitude");
    request.purged = t.has("--purged");
    request.horizon = t.one("--horizon");
    request.forced = t.one("--forced");
    request.canary = t.all("--canary");
    request.given_away = t.has("--given-away");
    request.stable = t.has("--stable");
    return request;
}

int calculate(Session& session, const Command& command, const Typed& t) {
    const auto gallons = gallons_of(t);
    if (!gallons) return session.refuse(gallons.error());
    if (command.name == "calc fruit") {
        if (t.words.size() < 2)
            return session.refuse(wants_words(command.name, "Which fruit, and how much of it?").value());
        const auto zone = session.host.zone(session.host.zone_here);
        if (!zone) return session.refuse(zone.error());
        const Day today = day_of(session.host.surroundings.now(), **zone);
        return session.give(app::fruit_sum(fruit_request(t), session.host.tables, *gallons, today));
    }
    if (t.words.empty()) return session.refuse(wants_words(command.name, "Which container?").value());
    app::GasRequest request = gas_request(t);
    request.container = t.rest(0);
    return session.give(app::gas_sum(request, session.host.tables, *gallons));
}

// What is wrong with the words of a question before a book is opened; nothing when they will do.
std::optional<Error> misworded(const Command& command, const Typed& t) {
    const std::string_view name = command.name;
    const bool wants_none =
        name == "cellar" || name == "shelf" || name == "due" || name == "findings" || name == "gear";
    if (wants_none && !t.words.empty())
        return wants_words(name, "\"" + t.rest(0) + "\" is more than " + std::string(name) + " asks for.").value();
    if (name == "picture" && t.words.size() != 1) return wants_words(name, "The picture of which entry?").value();
    if ((name == "show" || name == "trace back" || name == "trace forward" || name == "gas" || name == "recall" ||
         name == "dregs" || name == "weigh" || name == "panel" || name == "gap") &&
        t.words.empty())
        return wants_words(name, "Of what?").value();
    if (name == "backup" && t.words.size() != 1) return wants_words(name, "To which file?").value();
    if (name == "fruit" && t.words.size() < 2) return wants_words(name, "Which fruit, and how much of it?").value();
    if (name == "fruit" && !t.has("--beer")) return wants_words(name, "For which beer? Say --beer VESSEL.").value();
    return std::nullopt;
}

}  // namespace

Result<Gallons> gallons_of(const Typed& t) {
    const std::string word = t.one("--gallons");
    if (word.empty()) return Gallons::unset;
    if (word == "us") return Gallons::us;
    if (word == "imperial") return Gallons::imperial;
    return fail(ErrorKind::bad_input, "--gallons", "\"" + word + "\" is no gallon known here; say us or imperial.");
}

int ask(Session& session, const Command& command, const Typed& t) {
    if (const auto code = ask_about_ages(session, command, t)) return *code;
    if (const auto code = ask_about_blends(session, command, t)) return *code;
    if (const auto code = ask_about_tastings(session, command, t)) return *code;
    if (const auto code = ask_about_finishing(session, command, t)) return *code;
    if (const auto code = ask_about_quarters(session, command, t)) return *code;
    if (const auto code = calculate_chemistry(session, command, t)) return *code;
    const std::string_view name = command.name;
    if (name.starts_with("calc ")) return calculate(session, command, t);
    if (const auto error = misworded(command, t)) return session.refuse(*error);

    int most = k_entries_shown;
    if (t.has("--most")) {
        const auto count = parse_count("--most", t.one("--most"), 1, k_most_entries);
        if (!count) return session.refuse(count.error());
        most = *count;
    }
    auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    app::Book& book = *opened->book;
    const app::Moment moment{t.one("--on"), t.one("--known-on")};

    if (name == "cellar") return session.give(book.cellar(moment));
    if (name == "due") return session.give(book.due(t.has("--within") ? t.one("--within") : k_due_within));
    if (name == "gear") return session.give(book.gear(moment));
    if (name == "show") return session.give(book.show(t.rest(0), moment));
    if (name == "entries") return session.give(book.entries({.subject = t.rest(0), .most = most}));
    if (name == "shelf") return session.give(book.shelf(moment));
    if (name == "recall") return session.give(book.recall(t.rest(0), moment));
    if (name == "weigh") return session.give(book.weigh({t.rest(0), t.one("--twin"), t.one("--scale")}, moment));
    if (name == "panel") return session.give(book.panel(t.rest(0), moment));
    if (name == "gap") return session.give(book.gap(t.rest(0), moment));
    if (name == "tasting-words") return session.give(book.tasting_words(t.rest(0), moment));
    if (name == "dregs") return session.give(book.dregs(t.rest(0), moment));
    if (name == "trace back") return session.give(book.trace_back(t.rest(0), moment));
    if (name == "trace forward") return session.give(book.trace_forward(t.rest(0), moment));
    if (name == "fruit") return session.give(book.fruit(fruit_request(t)));
    if (name == "gas") {
        app::GasRequest request = gas_request(t);
        request.beer = t.words[0];
        request.container = t.rest(1);
        return session.give(book.gas(request));
    }
    if (name == "picture") {
        const auto view = book.picture(t.words[0]);
        if (!view) return session.refuse(view.error());
        // Text of a picture is the picture.
        session.host.out << (session.form == Form::json ? render::json_of(*view) : view->bytes) << std::flush;
        return k_ok;
    }
    if (name == "findings" || (name == "check" && t.words == std::vector<std::string>{"findings"}))
        return session.give(book.findings());
    if (name == "check") {
        const auto view = book.check({t.words, t.one("--head")});
        if (!view) return session.refuse(view.error());
        session.answer(*view);
        return view->ok() ? k_ok : k_storage;
    }
    return session.give(book.backup(t.words[0]));
}

}  // namespace undercroft::cli
