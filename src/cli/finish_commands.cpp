#include "cli/finish_commands.hpp"

#include "app/finish.hpp"
#include "cli/command_rows.hpp"
#include "cli/questions.hpp"

namespace undercroft::cli {
namespace {

constexpr std::size_t k_largest_finish_file = std::size_t{1024} * 1024;

std::vector<Option> finish_options() {
    return {{"--want", Takes::one, "WISH", "\"sourness 4 to 6\", \"ta at most 7\", \"ph 3.4 to 3.6 weight 2\"", true},
            {"--with", Takes::one, "STOCK", "what it could be blended with", true},
            {"--only", Takes::one, "KIND", "fruit, spice, oak, dry_hop, blend, age, rest, acid, ...", true},
            {"--price", Takes::one, "WHAT FIGURE", "of a kilogram, or a litre of beer: \"sour cherry 6\"", true},
            {"--fruit", Takes::one, "LABEL", "not in the tables: \"cloudberry, sugar 6, acid 1.2, form fresh\"", true},
            {"--vessel", Takes::one, "VOLUME", "brimful, of where it would stand"},
            {"--technique", Takes::one, "NAME", "that one alone, with its dates: \"sour cherry\""},
            {"--dose", Takes::one, "DOSE", "of it: \"160 g/L\", \"25 %\""},
            {"--days", Takes::one, "DAYS", "of contact"},
            {"--from", Takes::one, "DAY", "it begins; left out: today"},
            {"--sorbate", Takes::nothing, "", "the label of the fruit names sorbate or benzoate"},
            {"--neutral-yeast", Takes::nothing, "", "the fruit's own yeast is known to be no killer"},
            {"--all", Takes::nothing, "", "every row, each with its reasons"}};
}

app::FinishRequest request_of_finish(const Typed& t) {
    app::FinishRequest request;
    request.wants = t.all("--want");
    request.with = t.all("--with");
    request.only = t.all("--only");
    request.prices = t.all("--price");
    request.fruits = t.all("--fruit");
    request.vessel = t.one("--vessel");
    request.technique = t.one("--technique");
    request.dose = t.one("--dose");
    request.days = t.one("--days");
    request.from = t.one("--from");
    request.sorbate = t.has("--sorbate");
    request.neutral_yeast = t.has("--neutral-yeast");
    request.all = t.has("--all");
    return request;
}

}  // namespace

std::vector<Command> finish_commands() {
    std::vector<Option> of_book = finish_options();
    of_book.push_back({"--volume", Takes::one, "VOLUME", "of it; left out: all"});
    std::vector<Option> typed = finish_options();
    typed.push_back(
        {"--beer", Takes::one, "BEER", "\"Pull, 20 L, ph 3.4, ta 7.1, alcohol 6, culture mixed_sour, sour 7\""});
    typed.push_back({"--fault", Takes::one, "NAME", "that stands", true});
    typed.push_back({"--clean", Takes::nothing, "", "a clean beer, not a sour one"});
    typed.push_back({"--gallons", Takes::one, "us|imperial", "which gallon a bare \"gal\" is"});
    std::vector<Command> rows;
    rows.push_back({"plan finish", Group::turn, Role::question, "VESSEL",
                    "every way to finish it, ranked by the chance of ending inside its target, each with its reasons",
                    "plan finish \"Jar 23\" --want \"sourness 4 to 6\" --want \"fruit 4 to 7\"", std::move(of_book)});
    rows.push_back({"learned",
                    Group::remember,
                    Role::question,
                    "",
                    "what was forecast of finished portions, what came, and what that made of the effects",
                    "learned",
                    {{"--on", Takes::one, "DAY", "as the cellar was then"},
                     {"--known-on", Takes::one, "DAY", "as the book knew it then"}}});
    rows.push_back({"calc finish", Group::sums, Role::program, "[FILE]",
                    "every way to finish a beer that is typed, or a file of the same words a line each",
                    "calc finish --beer \"Pull, 20 L, ph 3.4, ta 7.1, alcohol 6, culture mixed_sour, sour 7\" --want "
                    "\"sourness 4 to 6\"",
                    std::move(typed)});
    return rows;
}

std::optional<int> ask_about_finishing(Session& session, const Command& command, const Typed& t) {
    if (command.name == "calc finish") {
        const auto gallons = gallons_of(t);
        if (!gallons) return session.refuse(gallons.error());
        app::FinishRequest request = request_of_finish(t);
        request.beer = t.one("--beer");
        request.faults = t.all("--fault");
        request.clean = t.has("--clean");
        if (t.words.size() > 1)
            return session.refuse(wants_words(command.name, "\"" + t.rest(1) + "\" is more than one file.").value());
        if (!t.words.empty()) {
            const auto text = session.host.read_file(t.words[0], k_largest_finish_file);
            if (!text) return session.refuse(text.error());
            if (const auto read = app::read_finish_lines(*text, request); !read) return session.refuse(read.error());
        }
        return session.give(app::finish_sum(request, session.host.tables, *gallons,
                                            day_of(session.host.surroundings.now(), UtcZone{})));
    }
    if (command.name != "plan finish" && command.name != "learned") return std::nullopt;
    auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    if (command.name == "learned") {
        if (!t.words.empty())
            return session.refuse(wants_words(command.name, "\"" + t.rest(0) + "\" is more than it asks for.").value());
        return session.give(opened->book->learned({t.one("--on"), t.one("--known-on")}));
    }
    if (t.words.size() != 1) return session.refuse(wants_words(command.name, "Which vessel does it stand in?").value());
    app::FinishRequest request = request_of_finish(t);
    request.subject = t.words[0];
    request.volume = t.one("--volume");
    return session.give(opened->book->plan_finish(request));
}

}  // namespace undercroft::cli
