#include "cli/spelling.hpp"

#include <algorithm>
#include <cctype>

#include "cli/typed.hpp"
#include "ledger/entry.hpp"

namespace undercroft::cli {
namespace {

class Line {
public:
    explicit Line(std::string_view command) : m_text(command) {}
    Line& word(const std::string& value) {
        m_text += " " + spelled(value);
        return *this;
    }
    // What stands at the end and may begin with a dash.
    Line& words(const std::string& value) {
        if (value.empty()) return *this;
        if (is_option_word(value) || value == "--") m_text += " --";
        return word(value);
    }
    Line& option(std::string_view name, const std::string& value) {
        if (value.empty()) return *this;
        if (is_option_word(value) || value == "--") return word(std::string(name) + "=" + value);
        m_text += " " + std::string(name);
        return word(value);
    }
    Line& options(std::string_view name, const std::vector<std::string>& values) {
        for (const std::string& value : values) option(name, value);
        return *this;
    }
    Line& flag(std::string_view name, bool set) {
        if (set) m_text += " " + std::string(name);
        return *this;
    }
    [[nodiscard]] const std::string& text() const { return m_text; }

private:
    std::string m_text;
};

Line& add_gear(Line& line, const std::vector<std::string>& gear) {
    for (const std::string& one : gear) line.option("--gear", one);
    return line;
}

std::string verb_of(ledger::Reason reason) {
    return reason == ledger::Reason::top_up ? "top-up" : reason == ledger::Reason::refill ? "refill" : "pull";
}

void add_lot_options(Line& line, const app::EnterLot& act) {
    line.option("--kind", act.kind).option("--brewed", act.brewed).flag("--assumed", act.age_assumed);
    line.option("--og", act.original_gravity).option("--gravity", act.gravity).option("--alcohol", act.alcohol);
    line.option("--ibu", act.ibu).option("--colour", act.colour).option("--ph", act.ph).option("--ta", act.ta);
    for (const std::string& allergen : act.allergens) line.option("--allergen", allergen);
    for (const std::string& culture : act.cultures) line.option("--culture", culture);
    add_gear(line, act.gear);
}

struct Spell {
    std::string operator()(const app::RegisterVessel& act) const {
        return Line("vessel")
            .word(act.name)
            .option("--capacity", act.capacity)
            .option("--ullage", act.ullage)
            .option("--role", act.role)
            .option("--material", act.material)
            .option("--location", act.location)
            .option("--tag", act.tag)
            .option("--tare", act.tare)
            .option("--shape", act.shape)
            .option("--inner-height", act.inner_height)
            .option("--head-diameter", act.head_diameter)
            .options("--dip-mark", act.dip_marks)
            .text();
    }
    std::string operator()(const app::TakeStock& act) const {
        return Line("settle")
            .word(act.subject)
            .option("--dip", act.dip)
            .option("--ullage", act.ullage)
            .option("--weight", act.weight)
            .option("--volume", act.volume)
            .flag("--full", act.full)
            .option("--count", act.count)
            .option("--cause", act.cause)
            .option("--within", act.within)
            .text();
    }
    std::string operator()(const app::CalibrateInstrument& act) const {
        return Line("calibrate")
            .word(act.instrument)
            .word(act.quantity)
            .option("--offset", act.offset)
            .option("--reads", act.reads)
            .option("--true", act.truth)
            .option("--since", act.since)
            .text();
    }
    std::string operator()(const app::ReadLogger& act) const {
        return Line("logger")
            .word(act.subject)
            .word(act.file)
            .options("--map", act.maps)
            .option("--instrument", act.instrument)
            .text();
    }
    std::string operator()(const app::RetireVessel& act) const { return Line("retire").word(act.vessel).text(); }
    std::string operator()(const app::EnterLot& act) const {
        const bool fill = act.reason == ledger::Reason::fill;
        Line line(fill ? "lot" : verb_of(act.reason));
        line.word(fill ? act.name : act.vessel);
        if (!act.volume.empty()) line.word(act.volume);
        line.option(fill ? "--into" : "--lot", fill ? act.vessel : act.name).flag("--to-full", act.to_full);
        add_lot_options(line, act);
        return line.text();
    }
    std::string operator()(const app::MoveLiquid& act) const {
        using ledger::Reason;
        if (act.reason == Reason::refill || act.reason == Reason::top_up) {
            Line line(verb_of(act.reason));
            line.word(act.to.front().vessel);
            if (!act.to.front().volume.empty()) line.word(act.to.front().volume);
            line.option("--from", act.from).flag("--to-full", act.to_full);
            return add_gear(line, act.gear).option("--acknowledge", act.acknowledge).text();
        }
        if (act.reason == Reason::blend) {
            Line line("blend");
            line.word(act.to.front().vessel).option("--from", act.from).word(act.to.front().volume);
            return add_gear(line, act.gear).option("--acknowledge", act.acknowledge).text();
        }
        Line line(act.reason == Reason::pull ? "pull" : "rack");
        line.word(act.from);
        for (const auto& to : act.to) {
            if (act.reason == Reason::pull) {
                line.word(to.volume).word(to.vessel);
            } else {
                line.option("--to", to.vessel);
                if (!to.volume.empty()) line.word(to.volume);
            }
        }
        line.option("--loss", act.loss).flag("--to-full", act.to_full);
        return add_gear(line, act.gear).option("--acknowledge", act.acknowledge).text();
    }
    std::string operator()(const app::LoseLiquid& act) const {
        return Line("loss").word(act.vessel).word(act.volume).word(act.cause).text();
    }
    std::string operator()(const app::AddAddition& act) const {
        Line line("add");
        line.word(act.vessel).word(act.item).word(act.amount).option("--kind", act.kind);
        line.flag("--bag", act.contained).flag("--live", act.live).option("--hold-up", act.hold_up);
        for (const std::string& culture : act.cultures) line.option("--culture", culture);
        for (const std::string& allergen : act.allergens) line.option("--allergen", allergen);
        return line.text();
    }
    std::string operator()(const app::LiftAddition& act) const {
        return Line("lift").word(act.vessel).words(act.item).text();
    }
    std::string operator()(const app::PitchCulture& act) const {
        return Line("pitch")
            .word(act.vessel)
            .word(act.kind)
            .option("--name", act.name)
            .option("--killer", act.killer)
            .option("--toxin", act.toxin)
            .option("--diastatic", act.diastatic)
            .flag("--suspected", act.suspected)
            .option("--origin", act.origin)
            .text();
    }
    std::string operator()(const app::TakeReading& act) const {
        Line line("read");
        line.word(act.subject);
        if (!act.gravity.empty()) line.word(act.gravity);
        line.option("--ph", act.ph)
            .option("--ta", act.ta)
            .option("--temperature", act.temperature)
            .option("--co2", act.dissolved_co2)
            .option("--weight", act.weight)
            .option("--read-at", act.read_at)
            .option("--instrument", act.instrument)
            .option("--sample", act.sample);
        return add_gear(line, act.gear).text();
    }
    std::string operator()(const app::TasteIt& act) const {
        Line line("taste");
        line.word(act.subject);
        for (const std::string& score : act.scores) line.option("--score", score);
        for (const std::string& fault : act.faults) line.option("--fault", fault);
        for (const std::string& define : act.defines) line.option("--define", define);
        line.option("--liking", act.liking).option("--taster", act.taster).option("--sample", act.sample);
        return add_gear(line, act.gear).words(act.words).text();
    }
    std::string operator()(const app::PackageRun& act) const {
        Line line("package");
        line.word(act.from)
            .word(act.container)
            .word(act.count)
            .option("--run", act.run)
            .option("--fill", act.fill)
            .option("--head-space", act.head_space)
            .flag("--purged", act.purged)
            .option("--priming", act.priming)
            .option("--loss", act.loss)
            .option("--location", act.location)
            .option("--store", act.store)
            .flag("--given-away", act.given_away)
            .option("--limit", act.limit)
            .option("--acknowledge", act.acknowledge);
        return add_gear(line, act.gear).text();
    }
    std::string operator()(const app::TakeBottles& act) const {
        Line line("take");
        line.word(act.run);
        if (!act.count.empty()) line.word(act.count);
        line.word(act.cause).option("--to", act.person).option("--into", act.vessel);
        return line.words(act.words).text();
    }
    std::string operator()(const app::CleanVessel& act) const {
        Line line("clean");
        if (!act.vessel.empty()) line.word(act.vessel);
        if (!act.method.empty()) line.word(act.method);
        add_gear(line.flag("--kill", act.kill).option("--with", act.agent), act.gear);
        return line.words(act.words).text();
    }
    std::string operator()(const app::TreatLiquid& act) const {
        Line line("treat");
        line.word(act.subject).word(act.method).option("--temperature", act.temperature);
        line.option("--minutes", act.minutes).option("--pore", act.pore).option("--so2", act.so2);
        for (const std::string& allergen : act.allergens) line.option("--allergen", allergen);
        return line.words(act.words).text();
    }
    std::string operator()(const app::ConfirmCulture& act) const {
        return Line("confirm").word(act.subject).option("--how", act.how).words(act.culture).text();
    }
    std::string operator()(const app::EndVessel& act) const {
        Line line("end");
        line.word(act.vessel);
        for (const auto& to : act.to) {
            line.option("--to", to.vessel);
            if (!to.volume.empty()) line.word(to.volume);
        }
        return line.flag("--dump", act.dump).option("--acknowledge", act.acknowledge).words(act.words).text();
    }
    std::string operator()(const app::SplitVessel& act) const {
        Line line("split");
        line.word(act.vessel).word(act.into).word(act.volume).option("--capacity", act.fresh.capacity);
        line.option("--ullage", act.fresh.ullage).option("--material", act.fresh.material);
        line.option("--location", act.fresh.location).option("--tag", act.fresh.tag);
        return line.option("--acknowledge", act.acknowledge).text();
    }
    std::string operator()(const app::WriteNote& act) const {
        return Line("note")
            .option("--about", act.subject)
            .option("--picture", act.picture_file)
            .words(act.words)
            .text();
    }
    std::string operator()(const app::SetInterval& act) const {
        return Line("remind").word(act.subject).word(act.what).word(act.every).text();
    }
    std::string operator()(const app::DecideFinish& act) const {
        Line line("decide");
        line.word(act.vessel).word(act.technique).option("--dose", act.dose).option("--days", act.days);
        line.option("--volume", act.volume);
        for (const std::string& want : act.wants) line.option("--want", want);
        return line.option("--why", act.words).text();
    }
    std::string operator()(const app::SetTarget& act) const {
        Line line("target");
        line.word(act.subject);
        for (const std::string& want : act.wants) line.option("--want", want);
        return line.option("--like", act.like).words(act.words).text();
    }
    std::string operator()(const app::PrintLabel& act) const {
        return Line("label").word(act.run).option("--name", act.name).text();
    }
    std::string operator()(const app::AcknowledgeFinding& act) const {
        return Line("acknowledge").word(act.run).words(act.words).text();
    }
    std::string operator()(const app::VoidEntry& act) const {
        return Line("void").word(act.entry).option("--reason", act.reason).text();
    }
    std::string operator()(const app::Correct&) const { return {}; }
};

}  // namespace

std::string spelled(const std::string& word) {
    const bool plain = !word.empty() && word.front() != '#' && std::all_of(word.begin(), word.end(), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte >= 0x80 || std::isalnum(byte) != 0 ||
               std::string_view("._-+%=/,:#").find(c) != std::string_view::npos;
    });
    if (plain) return word;
    std::string quoted = "\"";
    for (const char c : word) {
        if (c == '"' || c == '\\') quoted += '\\';
        quoted += c;
    }
    return quoted + "\"";
}

std::string spelling_of(const app::Act& act) {
    return std::visit(Spell{}, act);
}

}  // namespace undercroft::cli
