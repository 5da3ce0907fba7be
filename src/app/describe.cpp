#include "app/describe.hpp"

#include <algorithm>
#include <cstdio>

#include "app/gas.hpp"
#include "app/names.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

std::string join(const std::vector<std::string>& list, const char* separator) {
    std::string text;
    for (const std::string& one : list) text += (text.empty() ? "" : separator) + one;
    return text;
}

std::string verb_of(Reason reason) {
    switch (reason) {
        case Reason::fill:
            return "fills";
        case Reason::pull:
            return "pulls";
        case Reason::refill:
            return "refills";
        case Reason::top_up:
            return "tops up";
        case Reason::rack:
            return "racks";
        case Reason::blend:
            return "blends";
        case Reason::split:
            return "splits";
        case Reason::serve:
            break;
    }
    return "serves";
}

class Sentence {
public:
    explicit Sentence(const Telling& telling) : m_telling(telling) {}

    std::string operator()(const VesselJoins& body) const {
        std::string text = body.name + " joins: " + volume(body.capacity) + " brimful";
        if (body.ullage > Volume{}) text += ", full at " + volume(body.capacity - body.ullage);
        if (!body.material.empty()) text += ", " + body.material;
        if (!body.location.empty()) text += ", in " + body.location;
        if (const std::string inside = gauge_text(body.gauge); !inside.empty()) text += "; " + inside;
        return text;
    }
    std::string operator()(const VesselLeaves& body) const { return name(body.vessel) + " leaves the cellar"; }
    std::string operator()(const LotEnters& body) const {
        std::string text = volume(body.volume) + " of " + body.name + " enters " + name(body.vessel);
        if (body.reason != Reason::fill) text += std::string(" (") + word(body.reason) + ")";
        if (body.original_gravity) text += ", OG " + body.original_gravity->text();
        if (body.gravity) text += ", now " + body.gravity->text();
        return text + settled(body.settlement) + with(body.gear);
    }
    std::string operator()(const Move& body) const {
        std::vector<std::string> parts;
        for (const Destination& one : body.to) parts.push_back(volume(one.volume) + " into " + name(one.vessel));
        std::string text = verb_of(body.reason) + " from " + name(body.from) + ": " + join(parts, ", ");
        if (body.loss > Volume{}) text += ", " + volume(body.loss) + " left behind";
        return text + settled(body.settlement) + with(body.gear);
    }
    std::string operator()(const Loss& body) const {
        return name(body.vessel) + " loses " + volume(body.volume) + " (" + word(body.cause) + ")";
    }
    std::string operator()(const Addition& body) const {
        std::string text = (body.mass > Mass{} ? text_of(body.mass) : volume(body.dose)) + " of " + body.name +
                           " goes into " + name(body.vessel);
        if (body.contained) text += " in a bag";
        if (body.brings > Volume{}) text += ", brings " + volume(body.brings) + " of liquid";
        return text;
    }
    std::string operator()(const Lift& body) const {
        if (const Entry* entry = m_telling.chains.find(body.addition))
            if (const auto* addition = std::get_if<Addition>(&entry->body))
                return addition->name + " is lifted out of " + name(addition->vessel);
        return "an addition is lifted out";
    }
    std::string operator()(const Pitch& body) const {
        std::string text =
            body.culture.name + (body.suspected ? " is suspected in " : " is pitched into ") + name(body.vessel);
        if (body.culture.killer == KillerPhenotype::killer) text += std::string(", killer ") + word(body.culture.toxin);
        if (body.culture.diastatic == Diastatic::yes) text += ", diastatic";
        return text;
    }
    std::string operator()(const Reading& body) const {
        std::vector<std::string> parts;
        for (const Measured& one : body.values) {
            const std::string unit = one.quantity == Quantity::ph ? "" : " " + one.unit;
            const std::string what = one.quantity == Quantity::ph ? "pH " : one.quantity == Quantity::ta ? "TA " : "";
            parts.push_back(what + one.value.text() + unit);
        }
        std::string text = "reads " + join(parts, ", ") + " in " + name(body.subject);
        if (body.sample > Volume{}) text += ", sample " + volume(body.sample);
        return text + with(body.gear);
    }
    std::string operator()(const Tasting& body) const {
        std::string text = "tastes " + name(body.subject);
        if (const std::string taster = person_of(body.taster); !taster.empty()) text = taster + " " + text;
        std::vector<std::string> parts;
        for (const auto& [attribute, score] : body.scores) parts.push_back(attribute + " " + score.text());
        for (const std::string& fault : body.faults) parts.push_back("fault: " + fault);
        if (body.liking) parts.push_back("liking " + body.liking->text());
        for (const auto& [name, explanation] : body.defines) parts.push_back(name + " is " + explanation);
        if (!parts.empty()) text += ": " + join(parts, ", ");
        text += with(body.gear);
        if (!body.words.empty()) text += ". \"" + body.words + "\"";
        return text;
    }
    std::string operator()(const Package& body) const {
        std::string text = "packages " + std::to_string(body.count) + " × " + volume(body.fill) + " (" +
                           body.container_name + ") from " + name(body.from) + " as " + body.run;
        if (body.priming_sugar > Mass{}) text += ", primed with " + text_of(body.priming_sugar) + " of sugar";
        if (body.loss > Volume{}) text += ", " + volume(body.loss) + " lost";
        return text + with(body.gear);
    }
    std::string operator()(const Take& body) const {
        std::string text = std::to_string(body.count) + " of " + name(body.run) + " " + word(body.cause);
        if (const std::string person = person_of(body.person); !person.empty()) text += " to " + person;
        if (!body.vessel.empty()) text += " into " + name(body.vessel);
        if (!body.words.empty()) text += ". \"" + body.words + "\"";
        return text;
    }
    std::string operator()(const Care& body) const {
        const std::string done = body.method ? word(*body.method) : word(CareMethod::cleaned);
        std::string text = body.vessel.empty() ? listed(body.gear) + " is " + done : name(body.vessel) + " is " + done;
        if (!body.vessel.empty() && !body.gear.empty())
            text += (body.kill ? " together with " : " with ") + listed(body.gear);
        if (body.kill)
            text += std::string(", a kill step") + (body.agent ? std::string(" (") + word(*body.agent) + ")" : "");
        if (body.in_pores) text += ", but not below its surface";
        return text + (body.words.empty() ? "" : ": " + body.words);
    }
    std::string operator()(const Treat& body) const {
        std::string text = name(body.subject) + " is treated";
        switch (body.method) {
            case Treatment::heat:
                text += " by heat: " + (body.celsius ? body.celsius->text() + " °C" : "") +
                        (body.minutes ? ", " + body.minutes->text() + " min" : "");
                break;
            case Treatment::filter:
                text += " by a filter" + (body.pore_um ? " of " + body.pore_um->text() + " µm" : std::string());
                break;
            case Treatment::sulphite:
            case Treatment::sorbate:
                text += std::string(" with ") + word(body.method);
                break;
        }
        for (const Allergen& one : body.allergens)
            text += ", brings " + one.group + (one.mg_per_litre ? " " + one.mg_per_litre->text() + " mg/L" : "");
        return text + (body.words.empty() ? "" : ". \"" + body.words + "\"");
    }
    std::string operator()(const Confirm& body) const {
        return body.culture + " is found alive in " + name(body.subject) + (body.how.empty() ? "" : ": " + body.how);
    }
    std::string operator()(const Note& body) const {
        std::string text = body.subject.empty() ? "" : name(body.subject) + ": ";
        if (!body.words.empty()) text += "\"" + body.words + "\"";
        if (!body.picture.empty()) text += body.words.empty() ? "a picture" : ", with a picture";
        return text;
    }
    std::string operator()(const Snapshot& body) const {
        if (body.kind == SnapshotKind::verdict) {
            const bool drawn = body.facts.contains("pressure of 95 in 100");
            return "gas check of " + name(body.subject) + ": " + verdict_in_words(fact(body, "verdict")) +
                   (drawn ? ", 95 in 100 within " + fact(body, "pressure of 95 in 100")
                          : ", at most " + fact(body, "total pressure")) +
                   " at " + fact(body, "store");
        }
        return "label of " + name(body.subject) + " kept";
    }
    std::string operator()(const Acknowledge& body) const {
        return "caution " + body.caution + " acknowledged for " + name(body.subject) + ": \"" + body.words + "\"";
    }
    std::string operator()(const Target& body) const {
        std::vector<std::string> figures;
        for (const TargetFigure& one : body.figures)
            figures.push_back(one.figure + " " +
                              (one.low && one.high ? one.low->text() + " to " + one.high->text()
                               : one.low           ? "at least " + one.low->text()
                               : one.high          ? "at most " + one.high->text()
                                                   : "anything"));
        return name(body.subject) + " shall be: " + join(figures, ", ") +
               (body.words.empty() ? "" : ". \"" + body.words + "\"");
    }
    std::string operator()(const Decide& body) const {
        const std::string sure = " (" + percent_text(body.inside.value(), 0) + " sure to end inside the target)" +
                                 (body.words.empty() ? "" : ": \"" + body.words + "\"");
        if (body.technique == "leave")
            return volume(body.volume) + " of " + name(body.subject) + " is to be left alone" + sure;
        std::string how = body.technique;
        std::replace(how.begin(), how.end(), '_', ' ');
        if (!body.way.empty()) how += body.way == "onto_beer" ? ", straight onto the beer" : ", fermented first";
        if (!body.unit.empty()) how += ", " + body.dose.text() + (body.unit == "percent" ? " %" : " " + body.unit);
        return volume(body.volume) + " of " + name(body.subject) + " is to be finished: " + how + sure;
    }
    std::string operator()(const Interval& body) const {
        const std::string whom =
            body.role ? std::string("every vessel of role ") + word(*body.role) : name(body.subject);
        return "for " + whom + " a " + word(body.what) + " is asked for " +
               (body.days > 0 ? "every " + span_text(body.days) : std::string("no more"));
    }
    std::string operator()(const Settle& body) const {
        if (body.found_by == FoundBy::count) {
            std::string text = name(body.subject) + " is counted: " + std::to_string(body.count) + " there";
            if (body.missing_count > 0) text += ", " + std::to_string(body.missing_count) + " missing";
            if (body.surplus_count > 0) text += ", " + std::to_string(body.surplus_count) + " found";
            return text;
        }
        std::string text = name(body.subject) + " is found to hold " +
                           text_with_spread(body.found, body.found_sd, m_telling.unit) + " (" + word(body.found_by);
        if (body.depth > Length{}) text += " " + text_of(body.depth);
        if (body.weight > Mass{}) text += " " + text_of(body.weight);
        text += ")";
        if (body.missing > Volume{})
            return text + ": " + volume(body.missing) + " less than the book, " +
                   (body.cause == LossCause::unknown ? "an unknown loss" : word(body.cause));
        if (body.surplus > Volume{}) return text + ": " + volume(body.surplus) + " more than the book, found";
        return text + ", as the book has it";
    }
    std::string operator()(const Calibrate& body) const {
        if (body.offset.value() == 0.0) return body.instrument + " reads " + word(body.quantity) + " true from here on";
        return body.instrument + " is calibrated: " + (body.offset.value() > 0.0 ? "+" : "") + body.offset.text() +
               (body.unit == "pH" ? "" : " " + body.unit) + " on the " + word(body.quantity) + " it reads from here on";
    }
    std::string operator()(const LoggerFile& body) const {
        std::string text = (body.instrument.empty() ? "a logger" : body.instrument) + " logged " +
                           std::to_string(body.rows) + (body.rows == 1 ? " temperature in " : " temperatures in ") +
                           name(body.subject) + " since " + m_telling.day_text(body.begun);
        const auto by_warmth = [](const LoggedPoint& a, const LoggedPoint& b) {
            return a.celsius.value() < b.celsius.value();
        };
        const auto [coldest, warmest] = std::minmax_element(body.points.begin(), body.points.end(), by_warmth);
        if (coldest != body.points.end())
            text += ": " + coldest->celsius.text() + " to " + warmest->celsius.text() + " °C";
        return text + (body.file.empty() ? "" : " (" + body.file + ")");
    }
    std::string operator()(const Void&) const { return "takes an entry out of the book"; }
    std::string operator()(const Unknown& body) const {
        return "an entry of kind \"" + body.kind + "\", which this program does not know";
    }

private:
    [[nodiscard]] static std::string fact(const Snapshot& snapshot, const std::string& name) {
        const auto found = snapshot.facts.find(name);
        return found == snapshot.facts.end() ? "unknown" : found->second;
    }
    [[nodiscard]] std::string name(const EntryKey& key) const { return m_telling.name_of(key); }
    [[nodiscard]] std::string volume(Volume value) const { return m_telling.volume(value); }
    [[nodiscard]] static std::string listed(const GearNames& gear) { return join(gear, ", "); }
    [[nodiscard]] static std::string with(const GearNames& gear) {
        return gear.empty() ? std::string() : ", with " + listed(gear);
    }
    [[nodiscard]] std::string person_of(const std::string& commitment) const {
        return person_name(m_telling.persons, commitment);
    }
    [[nodiscard]] std::string settled(const FullSettlement& settlement) const {
        if (settlement.evaporation > Volume{})
            return ", to full: " + volume(settlement.evaporation) + " had evaporated";
        if (settlement.found > Volume{}) return ", to full: " + volume(settlement.found) + " found";
        return {};
    }

    const Telling& m_telling;
};

}  // namespace

std::string gauge_text(const Gauge& gauge) {
    std::string text;
    if (gauge.shape) {
        switch (*gauge.shape) {
            case VesselShape::upright:
                text = "upright, " + text_of(gauge.inner_height) + " high inside";
                break;
            case VesselShape::lying:
                text = "lying, " + text_of(gauge.inner_height) + " at the bilge and " + text_of(gauge.head_diameter) +
                       " at the heads inside";
                break;
            case VesselShape::table:
                text = "a dip table of " + std::to_string(gauge.dips.size()) +
                       (gauge.dips.size() == 1 ? " mark" : " marks");
                if (gauge.inner_height > Length{}) text += ", " + text_of(gauge.inner_height) + " high inside";
                break;
        }
    }
    if (gauge.tare > Mass{}) text += (text.empty() ? "" : "; ") + ("tare " + text_of(gauge.tare));
    return text;
}

std::string Telling::name_of(const EntryKey& key) const {
    // The newest of the chain that runs through this key, before it was taken out of the book.
    std::string name;
    for (const Entry* entry = chains.find(key); entry != nullptr && !std::holds_alternative<Void>(entry->body);
         entry = chains.superseding(entry->key)) {
        if (const auto* vessel = std::get_if<VesselJoins>(&entry->body)) name = vessel->name;
        if (const auto* run = std::get_if<Package>(&entry->body)) name = run->run;
    }
    return name.empty() ? "something unknown" : name;
}

std::string Telling::sentence(const Entry& entry) const {
    return std::visit(Sentence{*this}, entry.body);
}

std::string Telling::day_text(Instant instant) const {
    return iso_text(day_of(instant, zone));
}

std::string Telling::time_text(Instant instant) const {
    const int minute = zone.local_of(instant).minute_of_day;
    char text[16];
    std::snprintf(text, sizeof text, "%02d:%02d", minute / 60, minute % 60);
    return text;
}

std::string Telling::volume(Volume value) const {
    return text_of(value, unit);
}

std::int64_t Telling::number_of(const EntryKey& key) const {
    const Entry* entry = chains.find(key);
    return entry == nullptr ? 0 : entry->sequence;
}

EntryLine Telling::line(const Entry& entry) const {
    EntryLine line;
    line.number = entry.sequence;
    line.key = entry.key.text();
    line.kind = kind_word(entry.body);
    line.day = day_text(entry.at());
    line.time = time_text(entry.at());
    line.text = sentence(entry);
    line.by = person_name(persons, entry.by);
    line.reason = entry.reason;
    if (const Entry* by = chains.superseding(entry.key)) {
        line.live = false;
        if (by->sequence > 0) line.superseded_by = "#" + std::to_string(by->sequence);
    }
    if (std::holds_alternative<Void>(entry.body) && entry.supersedes)
        line.text = "takes #" + std::to_string(number_of(*entry.supersedes)) + " out of the book";
    return line;
}

Error Telling::error_of(const ReplayFault& fault, bool drafted) const {
    Error error;
    error.kind = ErrorKind::impossible;
    const Entry* entry = chains.find(fault.entry);
    if (!drafted && entry != nullptr) {
        const std::string number = "entry #" + std::to_string(entry->sequence) + " of " + day_text(entry->at());
        error.where = number;
        error.what = "This would break " + number + ": " + sentence(*entry) + ".";
        error.next_step = "Correct " + number + " first, or book this another way.";
    } else {
        error.where = fault.what;
    }
    const auto say = [&error, drafted](const std::string& what) {
        if (drafted) error.what = what;
    };
    const auto name = [this, &fault] {
        const auto key = EntryKey::from_text(fault.what);
        return key ? name_of(*key) : fault.what;
    };
    switch (fault.kind) {
        case FaultKind::more_than_held:
            say(fault.what + " does not hold that much.");
            error.facts.push_back({fault.what + (drafted ? " holds" : " would then hold"), volume(fault.held)});
            error.facts.push_back({drafted ? "wanted" : "it takes", volume(fault.wanted)});
            error.facts.push_back({"short by", volume(fault.wanted - fault.held)});
            if (drafted) error.next_step = "Take less, or book first what is missing.";
            break;
        case FaultKind::over_full:
            say(fault.what + " would run over.");
            error.facts.push_back({"room, brimful less fruit", volume(fault.held)});
            error.facts.push_back({"it would hold", volume(fault.wanted)});
            error.facts.push_back({"over by", volume(fault.wanted - fault.held)});
            if (drafted) error.next_step = "Pour less, or into a larger vessel.";
            break;
        case FaultKind::bottles_short:
            say(fault.what + " has not that many left.");
            error.facts.push_back({"left", std::to_string(fault.held_count)});
            error.facts.push_back({"wanted", std::to_string(fault.count)});
            break;
        case FaultKind::unknown_reference:
            say("That names something which is not in the book, or not of that kind.");
            error.facts.push_back({"named", name()});
            break;
        case FaultKind::not_there_yet:
            say(name() + " is not in the cellar at that time.");
            error.facts.push_back({"concerned", name()});
            if (drafted) error.next_step = "Check the date, or when it joined and left.";
            break;
        case FaultKind::not_empty:
            say(fault.what + " still holds liquid.");
            error.facts.push_back({"holds", volume(fault.held)});
            if (drafted) error.next_step = "Rack it, or book what was left as a loss (dump, lees).";
            break;
        case FaultKind::name_taken:
            say("There is a \"" + fault.what + "\" already.");
            if (drafted) error.next_step = "Choose another name.";
            break;
        case FaultKind::same_vessel:
            say(fault.what + " cannot be poured into itself.");
            break;
        case FaultKind::broken_chain:
            error.kind = drafted ? ErrorKind::stale : ErrorKind::storage;
            say("That entry has been superseded already; a correction names the newest of its chain.");
            if (!drafted) error.what = "The book is damaged: a correction names an entry that is not there.";
            if (!drafted) error.next_step = "Run `undercroft check`, and restore a backup.";
            break;
        case FaultKind::never_there:
            if (fault.count > 0) {
                say(fault.what + " never had that many.");
                error.facts.push_back({"filled", std::to_string(fault.held_count)});
                error.facts.push_back({"counted", std::to_string(fault.count)});
                if (drafted) error.next_step = "Count again; bottles of another run may stand among them.";
                break;
            }
            say(fault.held == Volume{}
                    ? "By the book nothing has ever gone into " + fault.what + " that could be found there."
                    : fault.what + " cannot hold that much: it is more than ever went in.");
            error.facts.push_back({"found", volume(fault.wanted)});
            if (fault.held > Volume{})
                error.facts.push_back(
                    {"ever went in, and a twentieth for how well it was measured", volume(fault.held)});
            if (drafted)
                error.next_step = "Book first what went in (lot, refill, rack), with --when for the day it did.";
            break;
        case FaultKind::holds_nothing:
            say(fault.what + " holds nothing that could be treated.");
            break;
        case FaultKind::no_such_culture:
            say("No culture \"" + fault.what + "\" is known there that could be confirmed.");
            break;
        case FaultKind::absurd:
            error.kind = drafted ? ErrorKind::bad_input : ErrorKind::impossible;
            say("An amount of " + fault.what + " is nothing, or below nothing.");
            error.facts.push_back({"amount", volume(fault.wanted)});
            if (drafted) error.next_step = "Write an amount above zero.";
            break;
    }
    return error;
}

}  // namespace undercroft::app
