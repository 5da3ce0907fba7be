#include "cli/command_rows.hpp"

namespace undercroft::cli {
namespace {

const std::vector<Option>& lot_options() {
    static const std::vector<Option> k_options = {
        {"--kind", Takes::one, "KIND", "beer (default), fruit, water, syrup, spirit or unknown"},
        {"--brewed", Takes::one, "DAY", "day it was brewed, or a range: 2019..2021; left out: the day it enters"},
        {"--assumed", Takes::nothing, "", "the day brewed is remembered, not written down"},
        {"--og", Takes::one, "GRAVITY", "original gravity: 1.048, 12 P"},
        {"--gravity", Takes::one, "GRAVITY", "gravity now"},
        {"--alcohol", Takes::one, "PERCENT", "alcohol by volume: 5.2"},
        {"--ibu", Takes::one, "NUMBER", "bitterness"},
        {"--colour", Takes::one, "NUMBER", "colour, EBC"},
        {"--ph", Takes::one, "NUMBER", "pH"},
        {"--ta", Takes::one, "AMOUNT", "titratable acidity as lactic acid, to pH 8.2: 3 g/L"},
        {"--allergen", Takes::one, "NAME",
         "allergen it brings, \"sulphite 12 mg/L\"; beer also brings gluten unless \"none\" or \"no gluten\"", true},
        {"--culture", Takes::one, "KIND", "live culture it brings", true},
        {"--gear", Takes::one, "NAME", "hose, pump, cane, ... it was done with", true},
    };
    return k_options;
}

std::vector<Option> with_lot_options(std::vector<Option> first) {
    for (const Option& option : lot_options()) first.push_back(option);
    return first;
}

}  // namespace

std::vector<Command> act_commands() {
    std::vector<Command> rows;
    rows.push_back({"vessel",
                    Group::begin,
                    Role::act,
                    "NAME",
                    "a vessel joins the cellar",
                    "vessel \"Jar 23\" --capacity 23 L --role finishing --material glass",
                    {{"--capacity", Takes::one, "VOLUME", "brimful"},
                     {"--ullage", Takes::one, "VOLUME", "head space it keeps when full; left out: none"},
                     {"--role", Takes::one, "ROLE", "solera, finishing (default) or serving"},
                     {"--material", Takes::one, "WORD", "steel, glass, oak, plastic, or your own word"},
                     {"--location", Takes::one, "PLACE", "where it stands"},
                     {"--tag", Takes::one, "MARK", "short mark written on it: A"},
                     {"--tare", Takes::one, "MASS", "what it weighs empty, for stock-takes by weight: 48 kg"},
                     {"--shape", Takes::one, "SHAPE", "inside: upright (as wide everywhere), lying, or table"},
                     {"--inner-height", Takes::one, "LENGTH", "deepest liquid in it; of a lying barrel at the bilge"},
                     {"--head-diameter", Takes::one, "LENGTH", "of a lying barrel, inside; left out: a cylinder"},
                     {"--dip-mark", Takes::one, "DEPTH=VOLUME", "a mark of its dip stick: \"10 cm=8 L\"", true}}});
    rows.push_back(
        {"retire", Group::begin, Role::act, "VESSEL", "an empty vessel leaves the cellar", "retire \"Jar 23\"", {}});
    rows.push_back(
        {"end",
         Group::begin,
         Role::act,
         "VESSEL [WHY]",
         "a vessel ends: the last pull, the dump, and it leaves, in one sitting",
         "end Amber --to \"Jar 23\" 18 L --dump the wood is gone",
         {{"--to", Takes::one_or_two, "VESSEL [VOLUME]", "the last pull: 18 L; left out: the rest", true},
          {"--dump", Takes::nothing, "", "what is left is poured away"},
          {"--acknowledge", Takes::one, "WHY", "move it although a fault stands against it; booked with it"}}});
    rows.push_back(
        {"split",
         Group::begin,
         Role::act,
         "VESSEL NEW VOLUME",
         "a solera becomes two of the same make-up, each with turns of its own",
         "split Amber \"Amber Two\" half --capacity 40 L",
         {{"--capacity", Takes::one, "VOLUME", "of NEW, brimful; left out: NEW is in the cellar already"},
          {"--ullage", Takes::one, "VOLUME", "head space it keeps when full; left out: none"},
          {"--material", Takes::one, "WORD", "left out: as the first"},
          {"--location", Takes::one, "PLACE", "left out: as the first"},
          {"--tag", Takes::one, "MARK", "short mark written on it"},
          {"--acknowledge", Takes::one, "WHY", "move it although a fault stands against it; booked with it"}}});
    rows.push_back({"lot", Group::begin, Role::act, "NAME VOLUME", "a brew or bought beer enters a vessel",
                    "lot \"Founding wort\" 54 L --into Amber --og 1.048 --gravity 1.012 --brewed 2025-09-14",
                    with_lot_options({{"--into", Takes::one, "VESSEL", "where it goes"}})});

    rows.push_back({"read",
                    Group::keep,
                    Role::act,
                    "VESSEL [GRAVITY]",
                    "a reading of a vessel or a bottle run",
                    "read Amber 1.008 --ph 3.42 --temperature 18 C --sample 100 mL",
                    {{"--gravity", Takes::one, "GRAVITY", "1.008, 2.1 P, 2.1 Brix"},
                     {"--ph", Takes::one, "NUMBER", "pH"},
                     {"--ta", Takes::one, "AMOUNT", "titratable acidity as lactic acid, to pH 8.2: 7.2 g/L"},
                     {"--temperature", Takes::one, "TEMPERATURE", "of the liquid: 18 C, 64 F"},
                     {"--co2", Takes::one, "AMOUNT", "dissolved: 1.1 vol, 2.2 g/L"},
                     {"--weight", Takes::one, "MASS", "of the vessel as it stands"},
                     {"--read-at", Takes::one, "TEMPERATURE", "of the sample, when the hydrometer was not at 20 C"},
                     {"--instrument", Takes::one, "NAME", "what it was read with"},
                     {"--sample", Takes::one, "VOLUME", "what the reading cost; left out: nothing"},
                     {"--gear", Takes::one, "NAME", "hose, pump, cane, ... it was done with", true}}});
    rows.push_back({"taste",
                    Group::keep,
                    Role::act,
                    "VESSEL [sour=6]... [WORDS]",
                    "a tasting, 0 to 10 an attribute",
                    "taste Amber sour=6 funk=4 --liking 7 lemon, a little hay",
                    {{"--score", Takes::one, "NAME=0..10", "the same as sour=6", true},
                     {"--fault", Takes::one, "NAME", "a fault found", true},
                     {"--define", Takes::one, "WORD: LIKE WHAT", "an attribute or fault of your own", true},
                     {"--liking", Takes::one, "0..10", "overall"},
                     {"--taster", Takes::one, "NAME", "who tasted"},
                     {"--sample", Takes::one, "VOLUME", "what it cost"},
                     {"--gear", Takes::one, "NAME", "hose, pump, cane, ... it was done with", true}}});
    rows.push_back({"loss",
                    Group::keep,
                    Role::act,
                    "VESSEL VOLUME CAUSE",
                    "liquid is gone: sample, evaporation, served, spill, dump, lees, unknown",
                    "loss \"Old Peat Row\" 1.5 L evaporation",
                    {}});
    rows.push_back({"clean",
                    Group::keep,
                    Role::act,
                    "[VESSEL] [METHOD] [WORDS]",
                    "an empty vessel, or gear, was emptied, rinsed, cleaned (default) or sanitised",
                    "clean \"Jar 23\" cleaned --kill --with caustic --gear \"long hose\" hot, then rinsed",
                    {{"--kill", Takes::nothing, "", "a kill step: what lived in it is gone"},
                     {"--with", Takes::one, "AGENT",
                      "of a kill step: heat, caustic, acid, peracetic, chlorine, iodine, alcohol or other"},
                     {"--gear", Takes::one, "NAME", "cleaned with it by a kill step; else used on it", true}}});
    rows.push_back({"confirm",
                    Group::keep,
                    Role::act,
                    "VESSEL|RUN CULTURE",
                    "a plate or a microscope found a culture alive that the book knows there",
                    "confirm Amber House culture --how plate",
                    {{"--how", Takes::one, "WORDS", "plate, microscope, laboratory"}}});
    rows.push_back({"note",
                    Group::keep,
                    Role::act,
                    "[WORDS]",
                    "words or a picture to keep, about the cellar or one thing in it",
                    "note the airlock was dry --about Amber",
                    {{"--about", Takes::one, "SUBJECT", "vessel or run"},
                     {"--picture", Takes::one, "FILE", "a PNG or JPEG of at most 8 MB"}}});
    rows.push_back({"remind",
                    Group::keep,
                    Role::act,
                    "VESSEL|RUN|ROLE WHAT SPAN|never",
                    "how often a reading, tasting, pull or top-up is due: of one vessel or run, or all of a role",
                    "remind solera reading 6 weeks",
                    {}});

    rows.push_back(
        {"target",
         Group::keep,
         Role::act,
         "VESSEL|RUN [WORDS]",
         "what it shall be like from now on",
         "target Amber --want \"sourness 5 to 7\" --want \"ta 6 to 7.5 weight 2\"",
         {{"--want", Takes::one, "WISH", "\"sourness 5 to 7\", \"ph 3.3 to 3.5 weight 2\"", true},
          {"--like", Takes::one, "DAY|TURN|RUN", "as it was then, for all that --want does not say: \"turn 4\""}}});
    rows.push_back({"decide",
                    Group::turn,
                    Role::act,
                    "VESSEL TECHNIQUE",
                    "how it is to be finished, booked with what is expected of it",
                    "decide \"Jar 23\" \"sour cherry\" --dose \"160 g/L\" --why \"short of fruit\"",
                    {{"--dose", Takes::one, "DOSE", "\"160 g/L\", \"25 %\"; left out: the middle of the table"},
                     {"--days", Takes::one, "DAYS", "of contact; left out: as usual"},
                     {"--volume", Takes::one, "VOLUME", "of it; left out: all"},
                     {"--want", Takes::one, "WISH", "instead of its target: \"sourness 4 to 6\"", true},
                     {"--why", Takes::one, "WORDS", "kept with it"}}});
    rows.push_back({"settle",
                    Group::keep,
                    Role::act,
                    "VESSEL|RUN",
                    "a stock-take: what is really there; the difference to the book is booked",
                    "settle Amber --volume 52.4 L",
                    {{"--dip", Takes::one, "DEPTH", "of the liquid: 31.5 cm; the vessel needs a shape"},
                     {"--ullage", Takes::one, "HEIGHT", "of the head space, the same way"},
                     {"--weight", Takes::one, "MASS", "of the vessel as it stands; it needs a --tare"},
                     {"--volume", Takes::one, "VOLUME", "measured out or read off"},
                     {"--full", Takes::nothing, "", "it is full"},
                     {"--count", Takes::one, "COUNT", "bottles of a run that are there"},
                     {"--cause", Takes::one, "WORD", "of what is missing: evaporation (default) or unknown"},
                     {"--within", Takes::one, "AMOUNT", "how well the dip, weight or volume was read: 3 mm"}}});
    rows.push_back({"calibrate",
                    Group::keep,
                    Role::act,
                    "INSTRUMENT QUANTITY",
                    "what an instrument is off by: gravity, ph, ta, temperature, co2 or weight",
                    "calibrate \"pH meter\" ph --reads 4.07 --true 4.01 --since 2026-01-10",
                    {{"--offset", Takes::one, "AMOUNT", "to be added to what it reads: -0.06, 0.5 C"},
                     {"--reads", Takes::one, "AMOUNT", "what it reads of something known"},
                     {"--true", Takes::one, "AMOUNT", "what that is"},
                     {"--since", Takes::one, "DAY", "readings from that day on; left out: from now on"}}});
    rows.push_back(
        {"logger",
         Group::keep,
         Role::act,
         "VESSEL FILE",
         "a temperature logger is read out: its file, as one entry at its last row",
         "logger Amber back-wall.csv --instrument \"back wall\"",
         {{"--map", Takes::one, "COLUMN=FIELD,...", "what the columns are; left out: by their headings", true},
          {"--instrument", Takes::one, "NAME", "which logger"}}});

    rows.push_back({"pull",
                    Group::turn,
                    Role::act,
                    "VESSEL VOLUME VESSEL2 [VOLUME VESSEL3]...",
                    "a share leaves a solera for one or more vessels",
                    "pull Amber 18 L \"Jar 23\"",
                    {{"--loss", Takes::one, "VOLUME", "left in hoses and on the floor"},
                     {"--acknowledge", Takes::one, "WHY", "move it although a fault stands against it; booked with it"},
                     {"--gear", Takes::one, "NAME", "hose, pump, cane, ... it was done with", true}}});
    rows.push_back(
        {"refill", Group::turn, Role::act, "VESSEL VOLUME", "the gap is filled with a new brew, or from a vessel",
         "refill Amber 18 L --lot \"Spring wort\" --og 1.048 --gravity 1.020",
         with_lot_options(
             {{"--lot", Takes::one, "NAME", "a new brew of that name"},
              {"--from", Takes::one, "VESSEL", "from a vessel of the book"},
              {"--acknowledge", Takes::one, "WHY", "of beer --from a vessel: although a fault stands against it"},
              {"--to-full", Takes::nothing, "", "until full, however much that takes"}})});
    rows.push_back(
        {"top-up", Group::turn, Role::act, "VESSEL [VOLUME]", "evaporation is made good; without a volume until full",
         "top-up \"Old Peat Row\" --from \"Jar 5\"",
         with_lot_options(
             {{"--lot", Takes::one, "NAME", "bought in or brewed for it, under that name"},
              {"--from", Takes::one, "VESSEL", "from a vessel of the book"},
              {"--acknowledge", Takes::one, "WHY", "of beer --from a vessel: although a fault stands against it"},
              {"--to-full", Takes::nothing, "", "until full: VOLUME is then what it really took"}})});
    rows.push_back({"rack",
                    Group::turn,
                    Role::act,
                    "VESSEL [VOLUME]",
                    "from one vessel to another; without a volume all of it",
                    "rack \"Jar 23\" --to \"Keg 1\" 10 L --to \"Keg 2\" rest --loss 0.5 L",
                    {{"--to", Takes::one_or_two, "VESSEL [VOLUME]", "where it goes, and how much: 5 L, rest", true},
                     {"--loss", Takes::one, "VOLUME", "left behind; off fruit, what the fruit holds"},
                     {"--to-full", Takes::nothing, "", "until the other is full"},
                     {"--acknowledge", Takes::one, "WHY", "move it although a fault stands against it; booked with it"},
                     {"--gear", Takes::one, "NAME", "hose, pump, cane, ... it was done with", true}}});
    rows.push_back({"blend",
                    Group::turn,
                    Role::act,
                    "VESSEL",
                    "two or more stocks go into one vessel",
                    "blend \"Keg 2\" --from \"Jar 12\" 10 L --from \"Jar 5\" 4 L",
                    {{"--from", Takes::two, "VESSEL VOLUME", "a stock and how much of it", true},
                     {"--acknowledge", Takes::one, "WHY", "move it although a fault stands against it; booked with it"},
                     {"--gear", Takes::one, "NAME", "hose, pump, cane, ... it was done with", true}}});
    rows.push_back({"pitch",
                    Group::turn,
                    Role::act,
                    "VESSEL KIND",
                    "a culture goes in",
                    "pitch Amber mixed sour culture --name \"House culture\"",
                    {{"--name", Takes::one, "NAME", "your own name for it"},
                     {"--killer", Takes::one, "WORD", "sensitive, neutral, killer or unknown; left out: the kind's"},
                     {"--toxin", Takes::one, "WORD", "K1, K2, K28, Klus or unknown"},
                     {"--diastatic", Takes::one, "WORD", "yes, no or unknown"},
                     {"--suspected", Takes::nothing, "", "possible only, through shared gear for instance"},
                     {"--origin", Takes::one, "WORDS", "packet, dregs of a bottle, another vessel"}}});
    rows.push_back({"treat",
                    Group::turn,
                    Role::act,
                    "VESSEL|RUN METHOD [WORDS]",
                    "the beer itself was treated: heat, filter, sulphite or sorbate",
                    "treat \"Jar 23\" heat --temperature 65 C --minutes 20",
                    {{"--temperature", Takes::one, "TEMPERATURE", "of heat: 62 C"},
                     {"--minutes", Takes::one, "NUMBER", "of heat, at that temperature"},
                     {"--pore", Takes::one, "NUMBER", "of a filter, micrometres: 0.45"},
                     {"--so2", Takes::one, "AMOUNT", "of sulphite: total SO2 it adds, \"30 mg/L\""},
                     {"--allergen", Takes::one, "NAME", "what else it brings", true}}});
    rows.push_back({"add",
                    Group::turn,
                    Role::act,
                    "VESSEL ITEM AMOUNT",
                    "fruit, spice, oak, hops, sugar, acid, enzyme go in",
                    "add \"Jar 23\" plum 3 kg",
                    {{"--kind", Takes::one, "KIND", "fruit, spice, oak, hops, sugar, acid, enzyme, nutrient, other"},
                     {"--bag", Takes::nothing, "", "in a bag, to be lifted out again"},
                     {"--live", Takes::nothing, "", "it brings the cultures named"},
                     {"--culture", Takes::one, "KIND", "with --live", true},
                     {"--allergen", Takes::one, "NAME", "what it brings", true},
                     {"--hold-up", Takes::one, "SHARE", "liquid kept by the fruit, of its mass; left out: 10 %"}}});
    rows.push_back({"lift",
                    Group::turn,
                    Role::act,
                    "VESSEL ITEM",
                    "what hung in a bag comes out",
                    "lift \"Jar 12\" oak cubes",
                    {}});

    rows.push_back(
        {"package",
         Group::package,
         Role::act,
         "VESSEL CONTAINER COUNT|all",
         "beer goes into bottles or cans: a run",
         "package \"Jar 23\" bottle_sparkling_750 24 --priming 5 g/L",
         {{"--run", Takes::one, "CODE", "on the label; left out: made from vessel, year and number"},
          {"--fill", Takes::one, "VOLUME", "in each; left out: the container's"},
          {"--head-space", Takes::one, "SHARE", "of the brimful container: 4 %"},
          {"--purged", Takes::nothing, "", "head space without air"},
          {"--priming", Takes::one, "AMOUNT", "table sugar: 5 g/L, or 90 g for the run"},
          {"--loss", Takes::one, "VOLUME", "hoses, foam, the half bottle at the end"},
          {"--location", Takes::one, "PLACE", "where the run is kept"},
          {"--store", Takes::one, "TEMPERATURE",
           "warmest it will stand, or cellar, flat, attic, post, car; left out: 25 C"},
          {"--given-away", Takes::nothing, "", "bottles leave the house: reckon with 50 C"},
          {"--limit", Takes::one, "PRESSURE", "the maker's figure for glass and closure: \"10 bar\""},
          {"--acknowledge", Takes::one, "WHY", "package although the gas check or a fault objects; booked with it"},
          {"--gear", Takes::one, "NAME", "hose, pump, cane, ... it was done with", true}}});
    rows.push_back(
        {"draw", Group::package, Role::act, "KEG VOLUME", "drawn from a keg and drunk", "draw \"Keg 1\" 2 L", {}});
    rows.push_back({"label",
                    Group::package,
                    Role::act,
                    "RUN",
                    "print a label and keep what it said",
                    "label AMB-26-1 --name \"Amber, spring pull\"",
                    {{"--name", Takes::one, "NAME", "what the beer is called; left out: the vessel's name"}}});
    rows.push_back({"acknowledge",
                    Group::package,
                    Role::act,
                    "RUN WORDS",
                    "what stands against a run was read and dealt with",
                    "acknowledge AMB-26-1 told Ines; hers are drunk",
                    {}});
    rows.push_back({"take",
                    Group::remember,
                    Role::act,
                    "RUN [COUNT] CAUSE [WORDS]",
                    "bottles leave a run: opened, given, sold, broken, returned",
                    "take AMB-26-1 2 given --to Ines",
                    {{"--to", Takes::one, "NAME", "who got them"},
                     {"--into", Takes::one, "VESSEL", "with returned: where the beer went"}}});

    rows.push_back({"void",
                    Group::correct,
                    Role::act,
                    "ENTRY|last",
                    "an entry was a mistake and counts no more",
                    "void last --reason \"wrong jar\"",
                    {{"--reason", Takes::one, "WHY", "kept with it"}}});
    rows.push_back({"correct",
                    Group::correct,
                    Role::act,
                    "ENTRY ACT...",
                    "say an entry again, in its place",
                    "correct 12 --reason \"misread\" read Amber 1.010",
                    {{"--reason", Takes::one, "WHY", "kept with it; comes before the act"}}});
    return rows;
}

}  // namespace undercroft::cli
