#include "cli/quarter_commands.hpp"

#include "cli/command_rows.hpp"
#include "cli/questions.hpp"

namespace undercroft::cli {

std::vector<Command> quarter_commands() {
    std::vector<Command> rows;
    rows.push_back(
        {"plan quarter",
         Group::turn,
         Role::question,
         "[VESSEL|RUN...]",
         "several products out of shared stocks at once, and what fills the soleras again; left out: every vessel with "
         "beer",
         "plan quarter --product \"Autumn, 20 L, ph 3.4 to 3.5, ta 5 to 7, into Keg 2\" --refill \"Spring wort, 40 L\"",
         {{"--product", Takes::one, "PRODUCT", "a name, a volume, what it shall be, and into which vessel", true},
          {"--refill", Takes::one, "LOT, VOLUME", "that will be there to fill soleras: \"Spring wort, 40 L\"", true},
          {"--feed", Takes::one, "FROM into SOLERA", "the only way that one is filled: \"Stair 3 into Stair 2\"", true},
          {"--keep", Takes::one, "STOCK VOLUME", "what stays behind: \"Amber 30 L\"", true},
          {"--most-share", Takes::one, "PERCENT", "of what a solera holds, that may leave it; left out: 50 %"},
          {"--step", Takes::one, "VOLUME", "what can be measured out; left out: 0.1 L"},
          {"--seconds", Takes::one, "NUMBER", "to search at most; left out: 10"}}});
    return rows;
}

std::optional<int> ask_about_quarters(Session& session, const Command& command, const Typed& t) {
    if (command.name != "plan quarter") return std::nullopt;
    auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    app::QuarterRequest request;
    request.stocks = t.words;
    request.products = t.all("--product");
    request.refills = t.all("--refill");
    request.feeds = t.all("--feed");
    request.keep = t.all("--keep");
    request.most_share = t.one("--most-share");
    request.step = t.one("--step");
    request.seconds = t.one("--seconds");
    return session.give(opened->book->plan_quarter(request));
}

}  // namespace undercroft::cli
