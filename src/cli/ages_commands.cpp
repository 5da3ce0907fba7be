#include "cli/ages_commands.hpp"

#include "cli/command_rows.hpp"
#include "cli/questions.hpp"

namespace undercroft::cli {
namespace {

app::AgeRequest age_request(const Typed& t) {
    app::AgeRequest request;
    request.name = t.rest(0);
    request.on = t.one("--on");
    request.known_on = t.one("--known-on");
    request.from = t.one("--from");
    request.state = t.one("--at");
    request.older_than = t.all("--older-than");
    return request;
}

int ask_age(Session& session, const Typed& t) {
    if (t.words.empty()) return session.refuse(wants_words("age", "The age of what?").value());
    auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    return session.give(opened->book->age(age_request(t)));
}

int calculate_solera(Session& session, const Typed& t) {
    const auto gallons = gallons_of(t);
    if (!gallons) return session.refuse(gallons.error());
    if (!t.words.empty())
        return session.refuse(wants_words("calc solera", "\"" + t.rest(0) + "\" stands alone.").value());
    app::SoleraRequest request;
    request.vessels = t.all("--vessel");
    request.pull = t.one("--pull");
    request.every = t.one("--every");
    request.first_pulls = t.all("--first-pull");
    request.turns = t.one("--turns");
    request.new_beer_age = t.one("--new-beer");
    request.start_age = t.one("--start");
    request.evaporation = t.one("--evaporation");
    request.mixing = t.one("--mixing");
    request.drawn = t.one("--drawn");
    request.within = t.one("--within");
    request.older_than = t.all("--older-than");
    return session.give(app::solera_sum(request, *gallons));
}

int remember(Session& session, const Typed& t) {
    if (t.words.size() != 1)
        return session.refuse(wants_words("remember", "Which vessel? A name of several words goes in quotes.").value());
    app::RememberRequest request;
    request.vessel = t.words[0];
    request.founded = t.one("--founded");
    request.share = t.one("--share");
    request.every = t.one("--every");
    request.refill = t.one("--refill");
    request.original_gravity = t.one("--og");
    request.gravity = t.one("--gravity");
    request.alcohol = t.one("--alcohol");
    request.ibu = t.one("--ibu");
    request.colour = t.one("--colour");
    request.ph = t.one("--ph");
    request.ta = t.one("--ta");
    request.holds = t.one("--holds");
    request.last_refill = t.one("--last-refill");
    request.original = t.one("--original");
    request.known = t.one("--known");
    request.seen = t.one("--seen");
    request.when = t.one("--when");
    request.by = t.one("--by");
    request.keep = t.has("--keep");
    auto opened = open_named_book(session, request.keep ? For::booking : For::asking);
    if (!opened) return session.refuse(opened.error());
    return session.give(opened->book->remember(request));
}

int design(Session& session, const Typed& t) {
    if (!t.words.empty()) return session.refuse(wants_words("design", "\"" + t.rest(0) + "\" stands alone.").value());
    app::DesignRequest request;
    request.demand = t.one("--demand");
    request.age = t.one("--age");
    request.older = t.all("--older-than");
    request.vessels = t.all("--vessel");
    request.ullage = t.one("--ullage");
    request.wait = t.one("--wait");
    request.new_beer_age = t.one("--new-beer");
    request.stages = t.one("--stages");
    request.every = t.one("--every");
    request.day_worth = t.one("--day-worth");
    request.show = t.one("--show");
    request.draft = t.one("--draft");
    request.name = t.one("--name");
    request.original_gravity = t.one("--og");
    request.gravity = t.one("--gravity");
    request.by = t.one("--by");
    request.keep = t.has("--keep");
    if (request.draft.empty()) {
        if (request.keep) return session.refuse(wants_words("design", "Keep which design? Say --draft 1.").value());
        const auto gallons = gallons_of(t);
        if (!gallons) return session.refuse(gallons.error());
        return session.give(app::design_sum(request, *gallons));
    }
    auto opened = open_named_book(session, request.keep ? For::booking : For::asking);
    if (!opened) return session.refuse(opened.error());
    return session.give(opened->book->design(request));
}

int change(Session& session, const Typed& t) {
    if (t.words.empty()) return session.refuse(wants_words("change", "Which solera?").value());
    app::ChangeRequest request;
    request.vessel = t.rest(0);
    request.share = t.one("--share");
    request.every = t.one("--every");
    request.add_stages = t.all("--add-stage");
    request.usual_share = t.one("--usual-share");
    request.usual_every = t.one("--usual-every");
    request.turns = t.one("--turns");
    auto opened = open_named_book(session, For::asking);
    if (!opened) return session.refuse(opened.error());
    return session.give(opened->book->change(request));
}

}  // namespace

std::vector<Command> ages_commands() {
    std::vector<Command> rows;
    rows.push_back(
        {"age",
         Group::know,
         Role::question,
         "VESSEL|RUN",
         "how old: mean, spread, percentiles, youngest part, share older than",
         "age Amber --older-than 3 years --from entry",
         {{"--on", Takes::one, "DAY", "as it was at the end of that day, by all we know now"},
          {"--known-on", Takes::one, "DAY", "as it looked with what was recorded by then"},
          {"--from", Takes::one, "DAY", "ages count from \"brew day\" (default) or entry"},
          {"--at", Takes::one, "POINT", "now (default), before the last pull, or after the last refill: before, after"},
          {"--older-than", Takes::one, "SPAN", "share at least so old; left out: 1, 2, 3 and 5 years", true}}});
    rows.push_back({"remember",
                    Group::begin,
                    Role::program,
                    "VESSEL",
                    "an old solera comes in by what is remembered of it; a what-if until --keep",
                    "remember Barrel --founded 2014 --share a third --every 8 months --gravity 1.004",
                    {{"--founded", Takes::one, "DAY", "about when: 2014, or a range 2012..2015"},
                     {"--share", Takes::one, "SHARE", "usually pulled at a turn: \"a third\""},
                     {"--every", Takes::one, "SPAN", "usual time between refills: 8 months"},
                     {"--refill", Takes::one, "VOLUME", "usual refill; beside or instead of --share"},
                     {"--og", Takes::one, "GRAVITY", "original gravity of its refills"},
                     {"--gravity", Takes::one, "GRAVITY", "last known reading"},
                     {"--alcohol", Takes::one, "PERCENT", "last known"},
                     {"--ibu", Takes::one, "NUMBER", "last known bitterness"},
                     {"--colour", Takes::one, "NUMBER", "last known colour, EBC"},
                     {"--ph", Takes::one, "NUMBER", "last known"},
                     {"--ta", Takes::one, "AMOUNT", "last known titratable acidity"},
                     {"--holds", Takes::one, "VOLUME", "what is in it; left out: full"},
                     {"--last-refill", Takes::one, "DAY", "or a range; left out: some time within the last interval"},
                     {"--original", Takes::one, "SHARE", "of the first fill believed to be left"},
                     {"--known", Takes::one, "BREW=SHARE", "a later find, \"2019=half\": narrows what was remembered"},
                     {"--seen", Takes::one, "DAY", "with --known: the day it was so"},
                     {"--when", Takes::moment, "DAY [TIME]", "when it stood so; left out: now"},
                     {"--by", Takes::one, "NAME", "who books it"},
                     {"--keep", Takes::nothing, "", "book it; left out: show what it would do"}}});
    rows.push_back(
        {"design",
         Group::begin,
         Role::program,
         "",
         "found a solera: vessels, stages, share and interval for a demand and an age",
         "design --demand 60 L --age 3 years --vessel \"30 L=40\" --vessel \"60 L=70\" --wait 6 years",
         {{"--demand", Takes::one, "VOLUME", "wanted in a year"},
          {"--age", Takes::one, "SPAN", "mean age of a pull, at least"},
          {"--older-than", Takes::one, "SPAN=SHARE", "share of a pull at least so old: \"3 years=50 %\"", true},
          {"--vessel", Takes::one, "VOLUME[=PRICE]", "a size to choose from, brimful; left out: ten usual sizes", true},
          {"--ullage", Takes::one, "SHARE", "of each vessel left empty when full, or none; left out: 5 %"},
          {"--wait", Takes::one, "SPAN", "by then the age is wanted; left out: 5 years"},
          {"--new-beer", Takes::one, "SPAN", "age of new beer when it enters; left out: none"},
          {"--stages", Takes::one, "COUNT", "so many, or a range: 2..4; left out: 1..8"},
          {"--every", Takes::one, "SPAN", "only this interval; left out: a month to two years"},
          {"--day-worth", Takes::one, "NUMBER", "a day of work in the money of the prices; left out: 50"},
          {"--show", Takes::one, "COUNT", "designs shown; left out: 5"},
          {"--draft", Takes::one, "NUMBER", "that design as vessels and a first sitting of the book"},
          {"--name", Takes::one, "NAME", "of its vessels; left out: Solera"},
          {"--og", Takes::one, "GRAVITY", "of the first fill"},
          {"--gravity", Takes::one, "GRAVITY", "of the first fill"},
          {"--by", Takes::one, "NAME", "who books it"},
          {"--keep", Takes::nothing, "", "with --draft: book it; left out: show what it would do"},
          {"--gallons", Takes::one, "us|imperial", "which gallon a bare gal is, without a book"}}});
    rows.push_back({"change",
                    Group::turn,
                    Role::question,
                    "VESSEL",
                    "a running solera as it is and changed, side by side; nothing is booked",
                    "change Amber --share a quarter --turns 10",
                    {{"--share", Takes::one, "SHARE", "pulled at a turn from now on"},
                     {"--every", Takes::one, "SPAN", "between pulls from now on"},
                     {"--add-stage", Takes::one, "VOLUME", "a new vessel above, full of new beer", true},
                     {"--usual-share", Takes::one, "SHARE", "what it is used to, where the book does not know"},
                     {"--usual-every", Takes::one, "SPAN", "the same for the interval"},
                     {"--turns", Takes::one, "COUNT", "looked ahead; left out: 10"}}});
    rows.push_back(
        {"calc solera",
         Group::sums,
         Role::program,
         "",
         "ages of a solera that is pulled and refilled, turn by turn and settled",
         "calc solera --vessel 60 L --vessel 60 L --pull 20 L --every 1 year",
         {{"--vessel", Takes::one, "VOLUME", "a stage, full; the first gets the new beer, the last is drawn", true},
          {"--pull", Takes::one, "VOLUME", "or a share of the last vessel: \"a third\""},
          {"--every", Takes::one, "SPAN", "between two pulls: 8 months"},
          {"--first-pull", Takes::one, "VOLUME", "of the first turn, the second, ... where it differs", true},
          {"--turns", Takes::one, "COUNT", "shown; left out: 10"},
          {"--new-beer", Takes::one, "SPAN", "age of the new beer when it enters; left out: none"},
          {"--start", Takes::one, "SPAN", "age of the first fill; left out: that of new beer"},
          {"--evaporation", Takes::one, "SHARE", "of each vessel in an interval; left out: none"},
          {"--mixing", Takes::one, "0..1", "mixing quality; below 1 a vessel is two zones; left out: 1"},
          {"--drawn", Takes::one, "WHERE", "with --mixing below 1: below (default) or above"},
          {"--within", Takes::one, "SHARE", "settled when so near to the limit; left out: 1 %"},
          {"--older-than", Takes::one, "SPAN", "share at least so old; left out: 1 and 3 years", true},
          {"--gallons", Takes::one, "us|imperial", "which gallon a bare gal is"}}});
    return rows;
}

std::optional<int> ask_about_ages(Session& session, const Command& command, const Typed& t) {
    if (command.name == "age") return ask_age(session, t);
    if (command.name == "remember") return remember(session, t);
    if (command.name == "design") return design(session, t);
    if (command.name == "change") return change(session, t);
    if (command.name == "calc solera") return calculate_solera(session, t);
    return std::nullopt;
}

}  // namespace undercroft::cli
