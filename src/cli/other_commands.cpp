#include "cli/command_rows.hpp"

namespace undercroft::cli {
namespace {

const Option k_on = {"--on", Takes::one, "DAY", "as it was at the end of that day, by all we know now"};
const Option k_known_on = {"--known-on", Takes::one, "DAY", "as it looked with what was recorded by then"};
const Option k_gallons = {"--gallons", Takes::one, "us|imperial", "which gallon a bare gal is"};

std::vector<Option> fruit_options() {
    return {{"--volume", Takes::one, "VOLUME", "beer"},
            {"--gravity", Takes::one, "GRAVITY", "of the beer"},
            {"--alcohol", Takes::one, "PERCENT", "of the beer"},
            {"--fruit-gravity", Takes::one, "GRAVITY", "juice as measured: 12 Brix; left out: the table's"},
            {"--pull", Takes::one, "DAY", "when the beer is pulled; dates are worked back from it"},
            {"--enzyme", Takes::one, "DOSE", "pectinase by the packet: 0.2 g/kg, 0.3 mL/kg"},
            {"--nutrient", Takes::one, "DOSE", "by the packet: 0.25 g/L of juice"},
            {"--hold-up", Takes::one, "SHARE", "liquid kept by the fruit, of its mass; left out: 10 %"}};
}

std::vector<Option> gas_options() {
    return {
        {"--gravity", Takes::one, "GRAVITY", "now"},
        {"--og", Takes::one, "GRAVITY", "original gravity"},
        {"--alcohol", Takes::one, "PERCENT", "by volume"},
        {"--priming", Takes::one, "AMOUNT", "table sugar: 5 g/L"},
        {"--fill", Takes::one, "VOLUME", "in each; left out: the container's"},
        {"--head-space", Takes::one, "SHARE", "of the brimful container: 4 %"},
        {"--store", Takes::one, "TEMPERATURE",
         "warmest it will stand, or cellar, flat, attic, post, car; left out: 25 C"},
        {"--horizon", Takes::one, "SPAN", "how long it will stand; left out: 12 months"},
        {"--culture", Takes::one, "KIND", "live culture", true},
        {"--malic", Takes::one, "AMOUNT", "malic acid left: 1.5 g/L"},
        {"--citric", Takes::one, "AMOUNT", "citric acid left"},
        {"--sorbitol", Takes::one, "AMOUNT", "sorbitol left"},
        {"--fermentation-temperature", Takes::one, "TEMPERATURE", "warmest since fermentation ended; left out: 20 C"},
        {"--limit", Takes::one, "PRESSURE", "the maker's figure: 6 bar"},
        {"--altitude", Takes::one, "METRES", "left out: sea level"},
        {"--purged", Takes::nothing, "", "head space without air"},
        {"--forced", Takes::one, "GRAVITY", "where a part kept warm with more yeast came to rest"},
        {"--canary", Takes::one, "READING",
         "of a bottle kept at 30 C: \"14 days, 2.1 bar\" or \"14 days, squeeze 3\"; \", 28 C\" when it stood cooler",
         true},
        {"--given-away", Takes::nothing, "", "bottles leave the house: reckon with 50 C"},
        {"--stable", Takes::nothing, "", "gravity read equal over the days the culture needs"}};
}

std::vector<Option> and_also(std::vector<Option> options, const Option& option) {
    options.push_back(option);
    return options;
}

}  // namespace

std::vector<Command> other_commands() {
    std::vector<Command> rows;
    rows.push_back({"init",
                    Group::begin,
                    Role::program,
                    "",
                    "begin a book",
                    "init --name \"Kiln Lane\" --zone Europe/Lisbon",
                    {{"--name", Takes::one, "NAME", "of the cellar; left out: the file's"},
                     {"--zone", Takes::one, "ZONE", "time zone; left out: this machine's"},
                     k_gallons}});
    rows.push_back({"demo",
                    Group::begin,
                    Role::program,
                    "",
                    "write an invented cellar to look at",
                    "demo --as-of 2026-03-14 --book demo.undercroft",
                    {{"--as-of", Takes::one, "DAY", "the day it is laid out for; left out: today"}}});
    rows.push_back({"sitting",
                    Group::keep,
                    Role::program,
                    "",
                    "book acts from standard input, one a line; a blank line ends a sitting",
                    "sitting --by Ines",
                    {{"--as-of", Takes::one, "DAY", "the day that D-730 counts back from"},
                     {"--by", Takes::one, "NAME", "who books, where a sitting does not say"},
                     {"--what-if", Takes::nothing, "", "show what the one sitting would do and book nothing"}}});

    rows.push_back({"log",
                    Group::keep,
                    Role::program,
                    "WORDS",
                    "acts jotted in one line, parted by ;. Shows how they are understood, books them when told to",
                    "log \"Amber 1.008 pH 3.42 18 C; pulled 18 L to Jar 23; tasted sour 6, lemon\" --book-it",
                    {{"--book-it", Takes::nothing, "", "book it; left out: only show, or ask at a terminal"},
                     {"--taster", Takes::one, "NAME", "who tasted, where a line does not say"},
                     {"--sample", Takes::one, "VOLUME", "what each reading cost"}}});
    rows.push_back({"round",
                    Group::keep,
                    Role::program,
                    "",
                    "vessels in the order they stand, to take along; lines on standard input are read one a vessel",
                    "round --taster Ines --sample 100 mL",
                    {{"--list", Takes::nothing, "", "only the list"},
                     {"--taster", Takes::one, "NAME", "who tasted; left out: who books"},
                     {"--sample", Takes::one, "VOLUME", "what each reading cost"}}});

    rows.push_back({"cellar",
                    Group::know,
                    Role::question,
                    "",
                    "every vessel and every bottle run",
                    "cellar --on 2026-03-14",
                    {k_on, k_known_on}});
    rows.push_back({"due",
                    Group::know,
                    Role::question,
                    "",
                    "what is to be done: readings, tastings, bags, watches, pulls, refills, bottles",
                    "due --within \"14 days\"",
                    {{"--within", Takes::span, "SPAN", "left out: 14 days; what is overdue is always shown"}}});
    rows.push_back({"show",
                    Group::know,
                    Role::question,
                    "VESSEL|RUN",
                    "one thing: what is in it, how old, who lives there",
                    "show Amber",
                    {k_on, k_known_on}});
    rows.push_back({"gear",
                    Group::know,
                    Role::question,
                    "",
                    "hoses, pumps, canes: where each was last, and what may ride on it",
                    "gear --on 2026-03-14",
                    {k_on, k_known_on}});
    rows.push_back({"entries",
                    Group::know,
                    Role::question,
                    "[SUBJECT]",
                    "what is in the book, newest first",
                    "entries Amber --most 20",
                    {{"--most", Takes::one, "COUNT", "left out: 40"}}});
    rows.push_back({"trace back",
                    Group::know,
                    Role::question,
                    "VESSEL|RUN",
                    "every source, addition and culture in a liquid",
                    "trace back AMB-26-1",
                    {k_on, k_known_on}});
    rows.push_back({"trace forward",
                    Group::know,
                    Role::question,
                    "LOT|CULTURE",
                    "where a brew or a culture went",
                    "trace forward \"Spring wort\"",
                    {k_on, k_known_on}});
    rows.push_back({"recall",
                    Group::know,
                    Role::question,
                    "LOT|ADDITION|CULTURE",
                    "every vessel, run, place and receiver of something that has to come back",
                    "recall \"Spring wort\"",
                    {k_on, k_known_on}});
    rows.push_back({"weigh",
                    Group::package,
                    Role::question,
                    "VESSEL",
                    "what an air-locked jar on a scale lost, as CO2 and gravity: finer than a hydrometer",
                    "weigh \"Jar 23\" --twin \"Water jar\"",
                    {{"--twin", Takes::one, "VESSEL", "the like jar with water: what evaporates"},
                     {"--scale", Takes::one, "MASS", "what the scale shows apart; left out: by its weights"},
                     k_on,
                     k_known_on}});
    rows.push_back({"panel",
                    Group::know,
                    Role::question,
                    "VESSEL|RUN",
                    "what its tasters found, put together with each one's habits, and over time",
                    "panel Amber",
                    {k_on, k_known_on}});
    rows.push_back({"gap",
                    Group::know,
                    Role::question,
                    "VESSEL|RUN",
                    "each figure found, with its spread, beside the band of its target, and where it drifts",
                    "gap Amber",
                    {k_on, k_known_on}});
    rows.push_back({"tasting-words",
                    Group::know,
                    Role::question,
                    "[WORD]",
                    "what can be scored and named as a fault, each explained",
                    "tasting-words mousy",
                    {k_on, k_known_on}});
    rows.push_back({"shelf",
                    Group::remember,
                    Role::question,
                    "",
                    "bottles by place: what is left, when to open next, who has some, how they age",
                    "shelf",
                    {k_on, k_known_on}});
    rows.push_back({"dregs",
                    Group::remember,
                    Role::question,
                    "RUN|VESSEL",
                    "is what lives in it fit to share, to pitch, to put back into a solera?",
                    "dregs AMB-26-1",
                    {k_on, k_known_on}});
    std::vector<Option> fruit = fruit_options();
    fruit.insert(fruit.begin(), {"--beer", Takes::one, "VESSEL", "the beer it is for; its figures come from the book"});
    rows.push_back({"fruit", Group::turn, Role::question, "FRUIT MASS",
                    "what fruit would do: fermented first, or straight onto the beer",
                    "fruit plum 3 kg --beer \"Jar 23\"", std::move(fruit)});
    rows.push_back({"gas", Group::package, Role::question, "VESSEL|RUN [CONTAINER]",
                    "gas that can still come, and what it does to the glass",
                    "gas \"Jar 23\" bottle_sparkling_750 --priming 5 g/L", gas_options()});
    rows.push_back({"check",
                    Group::safe,
                    Role::question,
                    "[CHECK]...",
                    "prove the book whole: all of it, or the checks that are named",
                    "check chain volumes",
                    {{"--head", Takes::one, "HEX", "compare with a head of the chain written down elsewhere"}}});
    rows.push_back({"findings",
                    Group::know,
                    Role::question,
                    "",
                    "labels, verdicts and accepted cautions that are no longer true, and who has the bottles",
                    "findings",
                    {}});
    rows.push_back({"picture",
                    Group::remember,
                    Role::question,
                    "ENTRY",
                    "the bytes of a note's picture, to be sent into a file",
                    "picture 12 > airlock.png",
                    {}});
    const Option what_if = {"--what-if", Takes::nothing, "", "show what it would do and forget nothing"};
    rows.push_back({"forget",
                    Group::correct,
                    Role::program,
                    "PERSON",
                    "a name is gone for good; the entries stay and say \"a forgotten person\"",
                    "forget \"Ines Kestrel\" --what-if",
                    {what_if}});
    rows.push_back({"forget-picture",
                    Group::correct,
                    Role::program,
                    "ENTRY",
                    "the picture of a note is gone for good",
                    "forget-picture 12",
                    {what_if}});
    rows.push_back({"backup",
                    Group::safe,
                    Role::question,
                    "FILE",
                    "copy the book, open or not",
                    "backup kiln-lane-copy.undercroft",
                    {}});
    rows.push_back({"calc fruit", Group::sums, Role::program, "FRUIT MASS", "the fruit sum without a book",
                    "calc fruit plum 3 kg --volume 18 L --gravity 1.008 --alcohol 5.9",
                    and_also(fruit_options(), k_gallons)});
    rows.push_back({"calc gas", Group::sums, Role::program, "CONTAINER", "the gas sum without a book",
                    "calc gas bottle_sparkling_750 --gravity 1.006 --og 1.048 --culture \"mixed sour culture\"",
                    and_also(gas_options(), k_gallons)});
    rows.push_back({"serve",
                    Group::know,
                    Role::program,
                    "",
                    "the page for this book, on this machine, until Ctrl-C",
                    "serve --port 8733",
                    {{"--port", Takes::one, "NUMBER", "left out: 8733; 0: a free one"}}});
    rows.push_back({"version", Group::safe, Role::program, "", "which undercroft this is", "version", {}});
    rows.push_back({"help", Group::safe, Role::program, "[COMMAND]", "this page, or one command's", "help pull", {}});
    return rows;
}

}  // namespace undercroft::cli
