#include "app/retold.hpp"

#include <algorithm>

#include "app/findings.hpp"
#include "app/names.hpp"
#include "units/amount.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// Four decimals: behind exactly three a point could part thousands.
std::string exact(Mass mass) {
    return mass == Mass{} ? "" : Decimal{mass.mg() * 10, 4}.text() + " g";
}

std::string exact(Volume volume) {
    return volume == Volume{} ? "" : exact_text_of(volume);
}

std::string exact(Length length) {
    return length == Length{} ? "" : text_of(length);
}

std::string unit_behind(const std::optional<Decimal>& value, const char* unit) {
    return value ? value->text() + unit : "";
}

std::vector<std::string> allergen_texts(const std::vector<Allergen>& allergens) {
    std::vector<std::string> texts;
    for (const Allergen& one : allergens)
        texts.push_back(one.mg_per_litre ? one.group + " " + one.mg_per_litre->text() + " mg/L" : one.group);
    return texts;
}

std::vector<std::string> kinds_of(const std::vector<Culture>& cultures) {
    std::vector<std::string> kinds;
    for (const Culture& culture : cultures) kinds.push_back(culture.kind);
    return kinds;
}

class Retelling {
public:
    Retelling(const Entry& entry, const Telling& telling) : m_entry(entry), m_telling(telling) {}

    std::optional<Act> operator()(const VesselJoins& body) const {
        RegisterVessel act{body.name,       body.tag,      exact(body.capacity), exact(body.ullage),
                           word(body.role), body.material, body.location};
        act.tare = exact(body.gauge.tare);
        if (body.gauge.shape) act.shape = word(*body.gauge.shape);
        act.inner_height = exact(body.gauge.inner_height);
        act.head_diameter = exact(body.gauge.head_diameter);
        for (const DipMark& mark : body.gauge.dips)
            act.dip_marks.push_back(text_of(mark.depth) + "=" + exact_text_of(mark.volume));
        return act;
    }
    std::optional<Act> operator()(const VesselLeaves& body) const { return RetireVessel{number(body.vessel)}; }
    std::optional<Act> operator()(const LotEnters& body) const {
        EnterLot act;
        act.vessel = number(body.vessel);
        act.name = body.name;
        act.volume = exact(body.volume);
        act.kind = word(body.kind);
        act.reason = body.reason;
        act.to_full = body.settlement != FullSettlement{};
        if (body.brewed_from) act.brewed = iso_text(*body.brewed_from);
        if (body.brewed_from && body.brewed_to && *body.brewed_to != *body.brewed_from)
            act.brewed += ".." + iso_text(*body.brewed_to);
        act.age_assumed = body.age_assumed;
        act.original_gravity = unit_behind(body.original_gravity, " SG");
        act.gravity = unit_behind(body.gravity, " SG");
        act.alcohol = unit_behind(body.alcohol, " %");
        act.ibu = unit_behind(body.ibu, "");
        act.colour = unit_behind(body.colour_ebc, "");
        act.ph = unit_behind(body.ph, "");
        act.ta = unit_behind(body.ta_g_per_litre, " g/L");
        act.allergens = allergen_texts(body.allergens);
        const bool gluten = std::any_of(body.allergens.begin(), body.allergens.end(),
                                        [](const Allergen& one) { return one.group == "gluten"; });
        // Beer brings gluten unless it is said to have none.
        if (body.kind == LotKind::beer && !gluten) act.allergens.emplace_back("no gluten");
        act.cultures = kinds_of(body.cultures);
        act.gear = body.gear;
        return act;
    }
    std::optional<Act> operator()(const Move& body) const {
        MoveLiquid act;
        act.reason = body.reason;
        act.from = number(body.from);
        for (const Destination& one : body.to) act.to.push_back({number(one.vessel), exact(one.volume)});
        act.loss = exact(body.loss);
        act.to_full = body.settlement != FullSettlement{};
        act.gear = body.gear;
        return act;
    }
    std::optional<Act> operator()(const Loss& body) const {
        return LoseLiquid{number(body.vessel), exact(body.volume), word(body.cause)};
    }
    std::optional<Act> operator()(const Addition& body) const {
        AddAddition act;
        act.vessel = number(body.vessel);
        // What a table calls otherwise than it was typed is found there again, and its kind with it.
        if (body.name == body.item) act.kind = word(body.kind);
        act.item = body.item;
        act.amount = body.mass > Mass{} ? exact(body.mass) : exact(body.dose);
        act.contained = body.contained;
        act.live = !body.cultures.empty();
        act.cultures = kinds_of(body.cultures);
        act.allergens = allergen_texts(body.allergens);
        // Sulphured fruit brings its sulphite by the table.
        if (body.contents.sulphite > Mass{})
            std::erase_if(act.allergens, [](const std::string& one) { return one.starts_with("sulphite"); });
        if (body.kind == AdditionKind::fruit && body.mass > Mass{})
            act.hold_up = number_text(100.0 * body.hold_up.in_litres() / body.mass.in_grams() * 1000.0, 6) + " %";
        return act;
    }
    std::optional<Act> operator()(const Lift& body) const {
        const Entry* added = m_telling.chains.find(body.addition);
        const auto* addition = added == nullptr ? nullptr : std::get_if<Addition>(&added->body);
        if (addition == nullptr) return std::nullopt;
        return LiftAddition{number(addition->vessel), addition->name};
    }
    std::optional<Act> operator()(const Pitch& body) const {
        return PitchCulture{number(body.vessel),      body.culture.kind,
                            body.culture.name,        word(body.culture.killer),
                            word(body.culture.toxin), word(body.culture.diastatic),
                            body.suspected,           body.origin};
    }
    std::optional<Act> operator()(const Reading& body) const {
        TakeReading act;
        act.subject = number(body.subject);
        for (const Measured& one : body.values) {
            const std::string written = one.value.text() + (one.unit == "pH" ? "" : " " + one.unit);
            switch (one.quantity) {
                case Quantity::gravity:
                    act.gravity = written;
                    break;
                case Quantity::ph:
                    act.ph = written;
                    break;
                case Quantity::ta:
                    act.ta = written;
                    break;
                case Quantity::temperature:
                    act.temperature = written;
                    break;
                case Quantity::dissolved_co2:
                    act.dissolved_co2 = written;
                    break;
                case Quantity::weight:
                    act.weight = one.value.places() == 3 ? one.value.text() + "0 " + one.unit : written;
                    break;
            }
        }
        act.read_at = unit_behind(body.read_at_c, " C");
        act.instrument = body.instrument;
        act.sample = exact(body.sample);
        act.gear = body.gear;
        return act;
    }
    std::optional<Act> operator()(const Tasting& body) const {
        TasteIt act;
        act.subject = number(body.subject);
        act.taster = person(body.taster);
        for (const auto& [attribute, value] : body.scores) act.scores.push_back(attribute + "=" + value.text());
        act.faults = body.faults;
        for (const auto& [name, explanation] : body.defines) act.defines.push_back(name + ": " + explanation);
        act.words = body.words;
        act.liking = unit_behind(body.liking, "");
        act.sample = exact(body.sample);
        act.gear = body.gear;
        return act;
    }
    std::optional<Act> operator()(const Package& body) const {
        PackageRun act;
        act.from = number(body.from);
        act.run = body.run;
        act.container = body.container;
        act.count = std::to_string(body.count);
        act.fill = exact(body.fill);
        act.head_space = Decimal::from_double(body.head_space.value() * 100.0, 2).text() + " %";
        act.purged = body.purged;
        act.priming = exact(body.priming_sugar);
        act.loss = exact(body.loss);
        act.location = body.location;
        act.gear = body.gear;
        tell_verdict(act);
        return act;
    }
    std::optional<Act> operator()(const Take& body) const {
        return TakeBottles{number(body.run),    std::to_string(body.count), word(body.cause),
                           person(body.person), number(body.vessel),        body.words};
    }
    std::optional<Act> operator()(const Care& body) const {
        CleanVessel act{number(body.vessel), body.words};
        if (body.method) act.method = word(*body.method);
        act.kill = body.kills();
        if (body.agent) act.agent = word(*body.agent);
        act.gear = body.gear;
        return act;
    }
    std::optional<Act> operator()(const Treat& body) const {
        TreatLiquid act{number(body.subject), word(body.method)};
        act.temperature = unit_behind(body.celsius, " C");
        act.minutes = unit_behind(body.minutes, "");
        act.pore = unit_behind(body.pore_um, "");
        for (const Allergen& one : body.allergens) {
            if (one.group == "sulphite" && one.mg_per_litre && body.method == Treatment::sulphite)
                act.so2 = one.mg_per_litre->text() + " mg/L";
            else
                act.allergens.push_back(one.mg_per_litre ? one.group + " " + one.mg_per_litre->text() + " mg/L"
                                                         : one.group);
        }
        act.words = body.words;
        return act;
    }
    std::optional<Act> operator()(const Confirm& body) const {
        return ConfirmCulture{number(body.subject), body.culture, body.how};
    }
    std::optional<Act> operator()(const Settle& body) const {
        TakeStock act;
        act.subject = number(body.subject);
        switch (body.found_by) {
            case FoundBy::dip:
                act.dip = exact(body.depth);
                break;
            case FoundBy::ullage:
                act.ullage = exact(body.depth);
                break;
            case FoundBy::weight:
                act.weight = exact(body.weight);
                break;
            case FoundBy::volume:
                act.volume = exact_text_of(body.found);
                break;
            case FoundBy::full:
                act.full = true;
                break;
            case FoundBy::count:
                act.count = std::to_string(body.count);
                break;
        }
        if (body.cause == LossCause::unknown) act.cause = word(body.cause);
        return act;
    }
    std::optional<Act> operator()(const Calibrate& body) const {
        CalibrateInstrument act;
        act.instrument = body.instrument;
        act.quantity = word(body.quantity);
        act.offset = body.offset.text() + (body.unit == "pH" ? "" : " " + body.unit);
        return act;
    }
    // Its file is not kept: bring it in again, and void this one.
    std::optional<Act> operator()(const LoggerFile&) const { return std::nullopt; }
    std::optional<Act> operator()(const Note& body) const {
        return WriteNote{number(body.subject), body.words, {}, {}};
    }
    std::optional<Act> operator()(const Target& body) const {
        SetTarget act;
        act.subject = number(body.subject);
        for (const TargetFigure& one : body.figures)
            act.wants.push_back(one.figure + " " +
                                (one.low && one.high ? one.low->text() + " to " + one.high->text()
                                 : one.low           ? "at least " + one.low->text()
                                                     : "at most " + one.high.value_or(Decimal{}).text()) +
                                (one.weight == Decimal{1, 0} ? "" : " weight " + one.weight.text()));
        act.words = body.words;
        return act;
    }
    // What was expected was expected then: decide anew, and void this one.
    std::optional<Act> operator()(const Decide&) const { return std::nullopt; }
    std::optional<Act> operator()(const Interval& body) const {
        return SetInterval{body.role ? word(*body.role) : number(body.subject), word(body.what),
                           body.days == 0 ? "never" : span_text(body.days)};
    }
    std::optional<Act> operator()(const Snapshot& body) const {
        if (body.kind != SnapshotKind::label) return std::nullopt;
        return PrintLabel{number(body.subject), body.text.substr(0, body.text.find('\n'))};
    }
    std::optional<Act> operator()(const Acknowledge& body) const {
        if (body.caution != k_finding_caution) return std::nullopt;
        return AcknowledgeFinding{number(body.subject), body.words};
    }
    std::optional<Act> operator()(const Void&) const { return std::nullopt; }
    std::optional<Act> operator()(const Unknown&) const { return std::nullopt; }

private:
    // "#12" of the first entry of what a key stands for; empty for no key.
    [[nodiscard]] std::string number(const EntryKey& key) const {
        const int first = key.empty() ? Chains::k_none : m_telling.chains.first_of(key);
        return first == Chains::k_none ? "" : "#" + std::to_string(m_telling.chains.entry(first).sequence);
    }
    // What the gas check of a run was told, and why it was packaged all the same.
    void tell_verdict(PackageRun& act) const {
        const auto is_about_it = [&](const EntryKey& subject) {
            return m_telling.chains.first_of(subject) == m_telling.chains.first_of(m_entry.key);
        };
        for (int i = 0; i < static_cast<int>(m_telling.chains.size()); ++i) {
            const Entry& other = m_telling.chains.entry(i);
            if (other.key.sitting != m_entry.key.sitting) continue;
            if (const auto* verdict = std::get_if<Snapshot>(&other.body);
                verdict != nullptr && verdict->kind == SnapshotKind::verdict && is_about_it(verdict->subject)) {
                if (const auto store = verdict->facts.find("store"); store != verdict->facts.end())
                    act.store = store->second;
                if (const auto limit = verdict->facts.find("maker's figure"); limit != verdict->facts.end())
                    act.limit = limit->second;
            }
            if (const auto* accepted = std::get_if<Acknowledge>(&other.body);
                accepted != nullptr && accepted->caution.starts_with("gas.") && is_about_it(accepted->subject))
                act.acknowledge = accepted->words;
        }
    }
    // A forgotten person stays forgotten.
    [[nodiscard]] std::string person(const std::string& commitment) const {
        for (const Person& one : m_telling.persons)
            if (one.commitment == commitment) return one.name;
        return "";
    }

    const Entry& m_entry;
    const Telling& m_telling;
};

}  // namespace

std::optional<Act> act_of(const Entry& entry, const Telling& telling) {
    return std::visit(Retelling{entry, telling}, entry.body);
}

}  // namespace undercroft::app
