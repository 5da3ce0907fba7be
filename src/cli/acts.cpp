#include "cli/acts.hpp"

#include <algorithm>
#include <cctype>
#include <functional>
#include <map>

#include "ledger/entry.hpp"
#include "units/amount.hpp"

namespace undercroft::cli {
namespace {

using app::Act;
using Acts = std::vector<Act>;

// "sour=6", "sour=6,5".
bool is_score_word(const std::string& word) {
    const std::size_t equals = word.find('=');
    return equals != std::string::npos && equals > 0 && word.find(' ') == std::string::npos &&
           is_number_word(std::string_view(word).substr(equals + 1));
}

bool is_count_word(const std::string& word) {
    return is_number_word(word) || word == "all";
}

Result<Acts> vessel(const Typed& t) {
    if (t.words.empty()) return wants_words("vessel", "A vessel wants its name.");
    if (!t.has("--capacity"))
        return wants_words("vessel", "How much does " + t.rest(0) + " hold? Say --capacity, brimful: 60 L.");
    return Acts{app::RegisterVessel{.name = t.rest(0),
                                    .tag = t.one("--tag"),
                                    .capacity = t.one("--capacity"),
                                    .ullage = t.one("--ullage"),
                                    .role = t.one("--role"),
                                    .material = t.one("--material"),
                                    .location = t.one("--location"),
                                    .tare = t.one("--tare"),
                                    .shape = t.one("--shape"),
                                    .inner_height = t.one("--inner-height"),
                                    .head_diameter = t.one("--head-diameter"),
                                    .dip_marks = t.all("--dip-mark")}};
}

Result<Acts> retire(const Typed& t) {
    if (t.words.empty()) return wants_words("retire", "Which vessel leaves?");
    return Acts{app::RetireVessel{t.rest(0)}};
}

app::EnterLot lot_with_options(const Typed& t) {
    app::EnterLot lot;
    lot.kind = t.one("--kind");
    lot.brewed = t.one("--brewed");
    lot.age_assumed = t.has("--assumed");
    lot.original_gravity = t.one("--og");
    lot.gravity = t.one("--gravity");
    lot.alcohol = t.one("--alcohol");
    lot.ibu = t.one("--ibu");
    lot.colour = t.one("--colour");
    lot.ph = t.one("--ph");
    lot.ta = t.one("--ta");
    lot.allergens = t.all("--allergen");
    lot.cultures = t.all("--culture");
    lot.gear = t.all("--gear");
    return lot;
}

Result<Acts> lot(const Typed& t) {
    if (t.words.size() < 2) return wants_words("lot", "A lot wants its name and its volume.");
    if (!t.has("--into")) return wants_words("lot", "Where does " + t.rest(0, 1) + " go? Say --into VESSEL.");
    app::EnterLot lot = lot_with_options(t);
    lot.vessel = t.one("--into");
    lot.name = t.rest(0, 1);
    lot.volume = t.words.back();
    return Acts{lot};
}

// refill and top-up: new beer under --lot, or liquid of the book --from a vessel.
Result<Acts> fill_up(const Typed& t, std::string_view verb, ledger::Reason reason) {
    if (t.words.empty()) return wants_words(verb, "Which vessel is filled?");
    if (t.words.size() > 2)
        return wants_words(verb, "One vessel and one volume, please; a name of several words goes in quotes.");
    const std::string volume = t.words.size() > 1 ? t.words[1] : std::string{};
    const bool to_full = t.has("--to-full") || (volume.empty() && reason == ledger::Reason::top_up);
    if (volume.empty() && !to_full) return wants_words(verb, "How much goes into " + t.words[0] + "?");
    if (t.has("--lot") == t.has("--from"))
        return wants_words(verb, t.has("--lot") ? "It comes from a new --lot or --from a vessel, not both."
                                                : "Where does it come from? Say --lot NAME or --from VESSEL.");
    if (t.has("--from")) {
        for (const auto& [name, values] : t.options)
            if (name != "--from" && name != "--to-full" && name != "--gear" && name != "--acknowledge")
                return wants_words(verb,
                                   name + " says something about a new lot; beer --from a vessel is known already.");
        return Acts{app::MoveLiquid{.reason = reason,
                                    .from = t.one("--from"),
                                    .to = {{t.words[0], volume}},
                                    .loss = {},
                                    .to_full = to_full,
                                    .gear = t.all("--gear"),
                                    .acknowledge = t.one("--acknowledge")}};
    }
    app::EnterLot lot = lot_with_options(t);
    lot.vessel = t.words[0];
    lot.name = t.one("--lot");
    lot.volume = volume;
    lot.reason = reason;
    lot.to_full = to_full;
    return Acts{lot};
}

Result<Acts> pull(const Typed& t) {
    if (t.words.size() < 3) return wants_words("pull", "A pull wants the vessel, how much, and where it goes.");
    if (t.words.size() % 2 == 0)
        return wants_words("pull", "After \"" + t.words[0] + "\" come pairs: how much, and where it goes.");
    app::MoveLiquid move{.reason = ledger::Reason::pull,
                         .from = t.words[0],
                         .to = {},
                         .loss = t.one("--loss"),
                         .gear = t.all("--gear"),
                         .acknowledge = t.one("--acknowledge")};
    for (std::size_t i = 1; i + 1 < t.words.size(); i += 2) move.to.push_back({t.words[i + 1], t.words[i]});
    return Acts{move};
}

Result<Acts> rack(const Typed& t) {
    if (t.words.empty() || t.words.size() > 2)
        return wants_words("rack", "A racking wants one vessel, and perhaps a volume.");
    if (!t.has("--to")) return wants_words("rack", "Where does " + t.words[0] + " go? Say --to VESSEL.");
    app::MoveLiquid move{.reason = ledger::Reason::rack,
                         .from = t.words[0],
                         .to = {},
                         .loss = t.one("--loss"),
                         .to_full = t.has("--to-full"),
                         .gear = t.all("--gear"),
                         .acknowledge = t.one("--acknowledge")};
    const auto& targets = t.options.find("--to")->second;
    for (const auto& target : targets) move.to.push_back({target[0], target.size() > 1 ? target[1] : std::string{}});
    if (t.words.size() > 1) {
        if (targets.size() > 1 || !move.to[0].volume.empty())
            return wants_words("rack", "How much goes where? Put the volume behind each --to VESSEL.");
        move.to[0].volume = t.words[1];
    }
    if (targets.size() == 1 && move.to[0].volume.empty() && !move.to_full) move.to[0].volume = "all";
    for (const auto& to : move.to)
        if (targets.size() > 1 && to.volume.empty())
            return wants_words("rack",
                               "How much goes into " + to.vessel + "? Say --to \"" + to.vessel + "\" 5 L, or rest.");
    return Acts{move};
}

Result<Acts> blend(const Typed& t) {
    if (t.words.empty()) return wants_words("blend", "Which vessel does the blend go into?");
    const auto stocks = t.options.find("--from");
    if (stocks == t.options.end()) return wants_words("blend", "Of what? Say --from VESSEL VOLUME for each stock.");
    Acts acts;
    for (const auto& stock : stocks->second) {
        if (stock.size() < 2)
            return wants_words("blend", "--from wants a vessel and a volume: --from \"" + stock[0] + "\" 5 L.");
        acts.push_back(app::MoveLiquid{.reason = ledger::Reason::blend,
                                       .from = stock[0],
                                       .to = {{t.rest(0), stock[1]}},
                                       .loss = {},
                                       .gear = t.all("--gear"),
                                       .acknowledge = t.one("--acknowledge")});
    }
    return acts;
}

Result<Acts> loss(const Typed& t) {
    if (t.words.size() < 3) return wants_words("loss", "A loss wants the vessel, how much, and the cause.");
    return Acts{app::LoseLiquid{t.rest(0, 2), t.words[t.words.size() - 2], t.words.back()}};
}

Result<Acts> draw(const Typed& t) {
    if (t.words.size() < 2) return wants_words("draw", "Drawing wants the keg and how much was drawn.");
    return Acts{app::LoseLiquid{t.rest(0, 1), t.words.back(), ledger::word(ledger::LossCause::served)}};
}

Result<Acts> pitch(const Typed& t) {
    if (t.words.size() < 2) return wants_words("pitch", "A pitch wants the vessel and the kind of culture.");
    return Acts{app::PitchCulture{.vessel = t.words[0],
                                  .kind = t.rest(1),
                                  .name = t.one("--name"),
                                  .killer = t.one("--killer"),
                                  .toxin = t.one("--toxin"),
                                  .diastatic = t.one("--diastatic"),
                                  .suspected = t.has("--suspected"),
                                  .origin = t.one("--origin")}};
}

Result<Acts> add(const Typed& t) {
    if (t.words.size() < 3) return wants_words("add", "An addition wants the vessel, the item, and how much.");
    return Acts{app::AddAddition{.vessel = t.words[0],
                                 .kind = t.one("--kind"),
                                 .item = t.rest(1, 1),
                                 .amount = t.words.back(),
                                 .contained = t.has("--bag"),
                                 .live = t.has("--live"),
                                 .cultures = t.all("--culture"),
                                 .allergens = t.all("--allergen"),
                                 .hold_up = t.one("--hold-up")}};
}

Result<Acts> lift(const Typed& t) {
    if (t.words.size() < 2) return wants_words("lift", "Lifting wants the vessel and what comes out.");
    return Acts{app::LiftAddition{t.words[0], t.rest(1)}};
}

Result<Acts> read(const Typed& t) {
    if (t.words.empty()) return wants_words("read", "A reading of what?");
    if (t.words.size() > 2)
        return wants_words("read",
                           "\"" + t.words[2] + "\" is one word too many; a name of several words goes in quotes.");
    if (t.words.size() == 2 && t.has("--gravity"))
        return wants_words("read", "The gravity is given twice: " + t.words[1] + " and " + t.one("--gravity") + ".");
    app::TakeReading reading{.subject = t.words[0],
                             .gravity = t.words.size() == 2 ? t.words[1] : t.one("--gravity"),
                             .ph = t.one("--ph"),
                             .ta = t.one("--ta"),
                             .temperature = t.one("--temperature"),
                             .dissolved_co2 = t.one("--co2"),
                             .weight = t.one("--weight"),
                             .read_at = t.one("--read-at"),
                             .instrument = t.one("--instrument"),
                             .sample = t.one("--sample"),
                             .gear = t.all("--gear")};
    if (reading.gravity.empty() && reading.ph.empty() && reading.ta.empty() && reading.temperature.empty() &&
        reading.dissolved_co2.empty() && reading.weight.empty())
        return wants_words("read", "What was read? A gravity, or --ph, --ta, --temperature, --co2, --weight.");
    return Acts{reading};
}

Result<Acts> taste(const Typed& t) {
    if (t.words.empty()) return wants_words("taste", "A tasting of what?");
    app::TasteIt tasting{.subject = t.words[0],
                         .taster = t.one("--taster"),
                         .scores = t.all("--score"),
                         .faults = t.all("--fault"),
                         .words = {},
                         .liking = t.one("--liking"),
                         .sample = t.one("--sample"),
                         .gear = t.all("--gear"),
                         .defines = t.all("--define")};
    for (std::size_t i = 1; i < t.words.size(); ++i) {
        if (is_score_word(t.words[i]))
            tasting.scores.push_back(t.words[i]);
        else
            tasting.words += (tasting.words.empty() ? "" : " ") + t.words[i];
    }
    if (tasting.scores.empty() && tasting.faults.empty() && tasting.words.empty() && tasting.liking.empty())
        return wants_words("taste", "What was it like? A score (sour=6), a --fault, a --liking, or words.");
    return Acts{tasting};
}

Result<Acts> package(const Typed& t) {
    if (t.words.size() < 3)
        return wants_words("package", "Packaging wants the vessel, the container, and how many or all.");
    if (!is_count_word(t.words.back()))
        return wants_words("package",
                           "How many? \"" + t.words.back() + "\" is no number; the last word is a count or all.");
    return Acts{app::PackageRun{.from = t.words[0],
                                .run = t.one("--run"),
                                .container = t.rest(1, 1),
                                .count = t.words.back(),
                                .fill = t.one("--fill"),
                                .head_space = t.one("--head-space"),
                                .purged = t.has("--purged"),
                                .priming = t.one("--priming"),
                                .loss = t.one("--loss"),
                                .location = t.one("--location"),
                                .store = t.one("--store"),
                                .given_away = t.has("--given-away"),
                                .limit = t.one("--limit"),
                                .acknowledge = t.one("--acknowledge"),
                                .gear = t.all("--gear")}};
}

Result<Acts> take(const Typed& t) {
    const bool counted = t.words.size() > 1 && is_count_word(t.words[1]);
    const std::size_t cause = counted ? 2 : 1;
    if (t.words.size() <= cause)
        return wants_words("take", "Taking wants the run and the cause: opened, given, sold, broken or returned.");
    return Acts{app::TakeBottles{.run = t.words[0],
                                 .count = counted ? t.words[1] : std::string{},
                                 .cause = t.words[cause],
                                 .person = t.one("--to"),
                                 .vessel = t.one("--into"),
                                 .words = t.rest(cause + 1)}};
}

Result<Acts> clean(const Typed& t) {
    if (t.words.empty() && !t.has("--gear")) return wants_words("clean", "What was cleaned? A vessel, or --gear NAME.");
    const auto is_method = [&t](std::size_t i) {
        return i < t.words.size() && ledger::from_word<ledger::CareMethod>(t.words[i]).has_value();
    };
    // "clean rinsed --gear hose": only the gear.
    const bool only_gear = t.words.empty() || (is_method(0) && t.has("--gear"));
    const std::size_t next = only_gear ? 0 : 1;
    return Acts{app::CleanVessel{.vessel = only_gear ? std::string{} : t.words[0],
                                 .words = t.rest(is_method(next) ? next + 1 : next),
                                 .method = is_method(next) ? t.words[next] : std::string{},
                                 .kill = t.has("--kill"),
                                 .agent = t.one("--with"),
                                 .gear = t.all("--gear")}};
}

Result<Acts> treat(const Typed& t) {
    if (t.words.size() < 2)
        return wants_words("treat", "What was treated, and how: heat, filter, sulphite or sorbate?");
    return Acts{app::TreatLiquid{.subject = t.words[0],
                                 .method = t.words[1],
                                 .temperature = t.one("--temperature"),
                                 .minutes = t.one("--minutes"),
                                 .pore = t.one("--pore"),
                                 .so2 = t.one("--so2"),
                                 .allergens = t.all("--allergen"),
                                 .words = t.rest(2)}};
}

Result<Acts> confirm(const Typed& t) {
    if (t.words.size() < 2) return wants_words("confirm", "Where, and which culture was found alive?");
    return Acts{app::ConfirmCulture{t.words[0], t.rest(1), t.one("--how")}};
}

Result<Acts> end(const Typed& t) {
    if (t.words.empty()) return wants_words("end", "Which vessel ends?");
    app::EndVessel act{.vessel = t.words[0],
                       .to = {},
                       .dump = t.has("--dump"),
                       .words = t.rest(1),
                       .acknowledge = t.one("--acknowledge")};
    if (const auto targets = t.options.find("--to"); targets != t.options.end())
        for (const auto& target : targets->second)
            act.to.push_back({target[0], target.size() > 1 ? target[1] : std::string{}});
    return Acts{act};
}

Result<Acts> split(const Typed& t) {
    if (t.words.size() != 3)
        return wants_words("split", "A split wants the solera, the vessel that a part goes into, and how much.");
    return Acts{app::SplitVessel{.vessel = t.words[0],
                                 .into = t.words[1],
                                 .volume = t.words[2],
                                 .fresh = {.name = {},
                                           .tag = t.one("--tag"),
                                           .capacity = t.one("--capacity"),
                                           .ullage = t.one("--ullage"),
                                           .role = {},
                                           .material = t.one("--material"),
                                           .location = t.one("--location")},
                                 .acknowledge = t.one("--acknowledge")}};
}

Result<Acts> note(const Typed& t) {
    if (t.words.empty() && !t.has("--picture")) return wants_words("note", "A note wants words, or a --picture.");
    return Acts{app::WriteNote{
        .subject = t.one("--about"), .words = t.rest(0), .picture_file = t.one("--picture"), .picture = {}}};
}

Result<Acts> target(const Typed& t) {
    if (t.words.empty()) return wants_words("target", "The target of what?");
    return Acts{
        app::SetTarget{.subject = t.words[0], .wants = t.all("--want"), .like = t.one("--like"), .words = t.rest(1)}};
}

Result<Acts> decide(const Typed& t) {
    if (t.words.size() < 2) return wants_words("decide", "Which vessel, and how is it to be finished?");
    return Acts{app::DecideFinish{.vessel = t.words[0],
                                  .technique = t.rest(1),
                                  .dose = t.one("--dose"),
                                  .days = t.one("--days"),
                                  .volume = t.one("--volume"),
                                  .wants = t.all("--want"),
                                  .words = t.one("--why")}};
}

// "Old Peat Row reading 6 weeks": the subject ends where the first word of a recurring task stands.
Result<Acts> remind(const Typed& t) {
    std::size_t what = 1;
    while (what < t.words.size() && !ledger::from_word<ledger::Recurring>(t.words[what])) ++what;
    if (what + 1 >= t.words.size())
        return wants_words("remind", "Of what, and how often? Say reading, tasting, pull or top-up, and 6 weeks.");
    std::string subject = t.words[0];
    for (std::size_t i = 1; i < what; ++i) subject += " " + t.words[i];
    return Acts{app::SetInterval{subject, t.words[what], t.rest(what + 1)}};
}

Result<Acts> settle(const Typed& t) {
    if (t.words.empty()) return wants_words("settle", "A stock-take of which vessel or run?");
    return Acts{app::TakeStock{.subject = t.rest(0),
                               .dip = t.one("--dip"),
                               .ullage = t.one("--ullage"),
                               .weight = t.one("--weight"),
                               .volume = t.one("--volume"),
                               .full = t.has("--full"),
                               .count = t.one("--count"),
                               .cause = t.one("--cause"),
                               .within = t.one("--within")}};
}

Result<Acts> calibrate(const Typed& t) {
    if (t.words.size() < 2)
        return wants_words("calibrate", "Which instrument, and what of it: gravity, ph, ta, temperature, co2, weight?");
    return Acts{app::CalibrateInstrument{.instrument = t.rest(0, 1),
                                         .quantity = t.words.back(),
                                         .offset = t.one("--offset"),
                                         .reads = t.one("--reads"),
                                         .truth = t.one("--true"),
                                         .since = t.one("--since")}};
}

Result<Acts> logger(const Typed& t) {
    if (t.words.size() < 2) return wants_words("logger", "Which vessel did it hang in, and which file did it write?");
    return Acts{app::ReadLogger{.subject = t.rest(0, 1),
                                .file = t.words.back(),
                                .bytes = {},
                                .maps = t.all("--map"),
                                .instrument = t.one("--instrument")}};
}

Result<Acts> label(const Typed& t) {
    if (t.words.empty()) return wants_words("label", "A label for which run?");
    return Acts{app::PrintLabel{t.rest(0), t.one("--name")}};
}

Result<Acts> acknowledge(const Typed& t) {
    if (t.words.size() < 2)
        return wants_words("acknowledge", "Which run, and what was done? A few words are kept with it.");
    return Acts{app::AcknowledgeFinding{t.words[0], t.rest(1)}};
}

Result<Acts> void_entry(const Typed& t) {
    if (t.words.size() != 1) return wants_words("void", "Void wants one entry: its number, or last.");
    return Acts{app::VoidEntry{t.words[0], t.one("--reason")}};
}

using Reader = std::function<Result<Acts>(const Typed&)>;

const std::map<std::string_view, Reader>& readers() {
    static const std::map<std::string_view, Reader> k_readers = {
        {"vessel", vessel},
        {"retire", retire},
        {"lot", lot},
        {"refill", [](const Typed& t) { return fill_up(t, "refill", ledger::Reason::refill); }},
        {"top-up", [](const Typed& t) { return fill_up(t, "top-up", ledger::Reason::top_up); }},
        {"target", target},
        {"pull", pull},
        {"rack", rack},
        {"blend", blend},
        {"loss", loss},
        {"draw", draw},
        {"pitch", pitch},
        {"add", add},
        {"lift", lift},
        {"read", read},
        {"taste", taste},
        {"package", package},
        {"take", take},
        {"clean", clean},
        {"treat", treat},
        {"confirm", confirm},
        {"end", end},
        {"split", split},
        {"note", note},
        {"remind", remind},
        {"settle", settle},
        {"calibrate", calibrate},
        {"logger", logger},
        {"label", label},
        {"acknowledge", acknowledge},
        {"decide", decide},
        {"void", void_entry},
    };
    return k_readers;
}

}  // namespace

Result<std::vector<app::Act>> acts_of(const Command& command, const Typed& typed) {
    const auto reader = readers().find(command.name);
    if (reader == readers().end())
        return fail(ErrorKind::bad_input, std::string(command.name),
                    "\"" + std::string(command.name) + "\" is not an act that can be booked in a sitting.");
    return reader->second(typed);
}

}  // namespace undercroft::cli
