#include "cli/tasting_commands.hpp"

#include "cli/command_rows.hpp"
#include "cli/questions.hpp"

namespace undercroft::cli {

std::vector<Command> tasting_commands() {
    std::vector<Command> rows;
    rows.push_back({"plan tasting",
                    Group::know,
                    Role::question,
                    "VESSEL|RUN...",
                    "glasses under codes, an order for every taster, and what they found booked to the right beer",
                    "plan tasting Amber \"Stair 1\" --taster Ines --taster Marit --twice Amber",
                    {{"--taster", Takes::one, "NAME", "who tastes", true},
                     {"--twice", Takes::one, "VESSEL|RUN", "poured twice: shows how well a taster repeats", true},
                     {"--set", Takes::one, "NAME", "letters and digits; brings the same codes back; left out: made"},
                     {"--full", Takes::nothing, "", "the whole sheet instead of three attributes"},
                     {"--show-key", Takes::nothing, "", "for whoever pours: which code is which beer"},
                     {"--found", Takes::one, "FOUND", "\"Ines 417 sour=6 fault=mousy lemon\", one a glass", true}}});
    return rows;
}

std::optional<int> ask_about_tastings(Session& session, const Command& command, const Typed& t) {
    if (command.name != "plan tasting") return std::nullopt;
    auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    app::BlindRequest request;
    request.subjects = t.words;
    request.tasters = t.all("--taster");
    request.twice = t.all("--twice");
    request.set = t.one("--set");
    request.full = t.has("--full");
    request.show_key = t.has("--show-key");
    request.found = t.all("--found");
    return session.give(opened->book->plan_tasting(request));
}

}  // namespace undercroft::cli
