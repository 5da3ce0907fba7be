#include "cli/blend_commands.hpp"

#include "cli/command_rows.hpp"
#include "cli/questions.hpp"

namespace undercroft::cli {
namespace {

std::vector<Option> wishes() {
    return {{"--volume", Takes::one, "VOLUME", "how much it shall be; left out: the most there can be"},
            {"--want", Takes::one, "WISH", "\"ph 3.4 to 3.5\", \"ta 6 weight 2\", \"sour at least 4\"", true},
            {"--must", Takes::one, "WISH", "the same, kept at any price", true},
            {"--aim", Takes::one, "AIM", "nearest to the wishes (usual), most, cheapest or least-ferment"},
            {"--most-stocks", Takes::one, "COUNT", "of how many at most"},
            {"--least-draw", Takes::one, "VOLUME", "of a stock that is used at all"},
            {"--step", Takes::one, "VOLUME", "what can be measured out; left out: 0.1 L"},
            {"--keep", Takes::one, "STOCK VOLUME", "what stays behind: \"Amber 30 L\"", true},
            {"--use", Takes::one, "STOCK VOLUME", "at least so much of it", true},
            {"--whole", Takes::one, "STOCK", "all of it or nothing", true},
            {"--without", Takes::one, "STOCK", "none of it", true},
            {"--price", Takes::one, "STOCK FIGURE", "of a litre, for --aim cheapest", true},
            {"--without-culture", Takes::one, "KIND", "no stock it may live in"},
            {"--without-allergen", Takes::one, "GROUP", "no stock that holds it"},
            {"--older-than", Takes::one, "SPAN", "mean age of every stock at least"},
            {"--wide", Takes::nothing, "", "a stock without pH or acidity counts with a wide guess"},
            {"--recipes", Takes::one, "COUNT", "left out: 3"},
            {"--differ", Takes::one, "SHARE", "of the volume, by which they differ; left out: 20 %"},
            {"--surest", Takes::nothing, "", "also the recipe with the best chance of ending inside"},
            {"--glass", Takes::one, "VOLUME", "a bench sheet with glasses of it: 100 mL"},
            {"--neighbours", Takes::one, "SHARE", "of a glass, steps either side of each stock"},
            {"--seed", Takes::one, "NUMBER", "of the blind codes; left out: 1"},
            {"--seconds", Takes::one, "NUMBER", "to search at most; left out: 10"}};
}

app::BlendRequest request_of(const Typed& t) {
    app::BlendRequest request;
    request.volume = t.one("--volume");
    request.wants = t.all("--want");
    request.musts = t.all("--must");
    request.aim = t.one("--aim");
    request.most_stocks = t.one("--most-stocks");
    request.least_draw = t.one("--least-draw");
    request.step = t.one("--step");
    request.keep = t.all("--keep");
    request.use = t.all("--use");
    request.whole = t.all("--whole");
    request.without = t.all("--without");
    request.prices = t.all("--price");
    request.without_culture = t.one("--without-culture");
    request.without_allergen = t.one("--without-allergen");
    request.older_than = t.one("--older-than");
    request.wide = t.has("--wide");
    request.recipes = t.one("--recipes");
    request.differ = t.one("--differ");
    request.surest = t.has("--surest");
    request.glass = t.one("--glass");
    request.neighbours = t.one("--neighbours");
    request.seed = t.one("--seed");
    request.seconds = t.one("--seconds");
    request.into = t.one("--into");
    return request;
}

std::vector<Option> of_trials() {
    return {{"--liked", Takes::one, "GLASS", "\"40 mL Sharp, 60 mL Soft: 6.5\", of 10; a repeat again", true},
            {"--least", Takes::one, "SHARE STOCK", "in every glass to come: \"10 % Sharp\"", true},
            {"--most", Takes::one, "SHARE STOCK", "the same, at most", true},
            {"--doubt", Takes::one, "POINTS", "how far one liking may be off; left out: 0.7"},
            {"--step", Takes::one, "SHARE", "by which glasses are made; left out: 5 %, coarser of many stocks"},
            {"--next", Takes::one, "COUNT", "how many glasses, 2 to 4; left out: 3"},
            {"--apart", Takes::one, "SHARE", "of a glass, by which they differ; left out: 10 %"},
            {"--glass", Takes::one, "VOLUME", "left out: 100 mL"},
            {"--seed", Takes::one, "NUMBER", "of the blind codes; left out: by the glasses so far"},
            {"--volume", Takes::one, "VOLUME", "how much shall be made: tells the litres of each stock"},
            {"--keep", Takes::one, "VOLUME STOCK", "what stays behind: \"30 L Sharp\"", true},
            {"--choose", Takes::one, "NUMBER", "which glass is made, as typed; left out: the best so far"},
            {"--into", Takes::one, "VESSEL", "where it would go: tells what to type"}};
}

app::TrialsRequest trials_of(const Typed& t) {
    app::TrialsRequest request;
    request.stocks = t.words;
    request.liked = t.all("--liked");
    request.least = t.all("--least");
    request.most = t.all("--most");
    request.keep = t.all("--keep");
    request.doubt = t.one("--doubt");
    request.step = t.one("--step");
    request.next = t.one("--next");
    request.apart = t.one("--apart");
    request.glass = t.one("--glass");
    request.seed = t.one("--seed");
    request.volume = t.one("--volume");
    request.choose = t.one("--choose");
    request.into = t.one("--into");
    return request;
}

}  // namespace

std::vector<Command> blend_commands() {
    std::vector<Option> of_book = wishes();
    of_book.push_back({"--into", Takes::one, "VESSEL", "where the best would go: tells what to type"});
    std::vector<Option> typed = wishes();
    typed.push_back(
        {"--stock", Takes::one, "STOCK", "\"Amber, 20 L, ph 3.3, ta 7, alcohol 6, og 1.048, gravity 1.004\"", true});
    typed.push_back({"--gallons", Takes::one, "us|imperial", "which gallon a bare \"gal\" is"});
    std::vector<Command> rows;
    rows.push_back({"plan blend", Group::turn, Role::question, "[VESSEL|RUN...]",
                    "the best proven blend of what is there; left out: of every vessel with beer",
                    "plan blend Amber \"Stair 1\" --volume 20 L --want \"ph 3.4 to 3.5\" --want \"ta 6\"",
                    std::move(of_book)});
    rows.push_back({"plan trials", Group::turn, Role::question, "[VESSEL|RUN...]",
                    "the next glasses of a blend, by how those so far were liked",
                    "plan trials --liked \"50 mL Amber, 50 mL Stair 1: 6.5\" --liked \"80 mL Amber, 20 mL Stair 1: 7\"",
                    of_trials()});
    rows.push_back(
        {"calc blending", Group::sums, Role::program, "", "the best proven blend of stocks that are typed",
         "calc blending --stock \"Sharp, 30 L, ph 3.2, ta 8\" --stock \"Soft, 40 L, ph 4.1, ta 2\" --volume 20 L "
         "--want \"ph 3.5\"",
         std::move(typed)});
    return rows;
}

std::optional<int> ask_about_blends(Session& session, const Command& command, const Typed& t) {
    if (command.name == "calc blending") {
        const auto gallons = gallons_of(t);
        if (!gallons) return session.refuse(gallons.error());
        if (!t.words.empty())
            return session.refuse(wants_words(command.name, "\"" + t.rest(0) +
                                                                "\" is more than it asks for: each stock comes after "
                                                                "--stock.")
                                      .value());
        app::BlendRequest request = request_of(t);
        request.stocks = t.all("--stock");
        return session.give(app::blend_sum(request, session.host.tables, *gallons));
    }
    if (command.name != "plan blend" && command.name != "plan trials") return std::nullopt;
    auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    if (command.name == "plan trials") return session.give(opened->book->plan_trials(trials_of(t)));
    app::BlendRequest request = request_of(t);
    request.stocks = t.words;
    return session.give(opened->book->plan_blend(request));
}

}  // namespace undercroft::cli
