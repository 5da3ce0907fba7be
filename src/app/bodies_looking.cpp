// Readings, tastings, notes, and how often they are wanted.
#include <algorithm>
#include <set>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "base/letters.hpp"
#include "chem/extract.hpp"
#include "units/amount.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// What a look cost, out of a vessel; a bottle that was opened for it is booked as taken.
Result<Volume> sample_from(const std::string& text, engine::HolderRef holder, Here& here) {
    if (text.empty()) return Volume{};
    TRY(const Volume sample, positive_volume("sample", text, here.gallons));
    if (holder.run >= 0)
        return fail(ErrorKind::bad_input, "sample",
                    "A run gives whole bottles: book the bottle as opened (take) instead of a sample.");
    return sample;
}

// A bottle is opened for it: no gear reaches into the others.
Result<GearNames> gear_in_vessel(const std::vector<std::string>& names, engine::HolderRef holder, Here& here) {
    if (holder.run >= 0 && !names.empty())
        return fail(ErrorKind::bad_input, "gear", "A bottle is opened to be read or tasted; gear touches vessels.");
    return gear_from(names, here);
}

Decimal decimal_of(double value, int places) {
    return Decimal::from_double(value, places);
}

}  // namespace

Result<std::string> Pictures::commitment_of(const std::string& bytes, const std::string& file) {
    const std::string name = file.empty() ? "The picture" : "\"" + file + "\"";
    if (bytes.size() > k_largest_picture)
        return fail(ErrorKind::bad_input, "picture",
                    name + " has " + std::to_string(bytes.size() / (1024 * 1024)) +
                        " MB or more; a picture in a book has at most 8 MB.",
                    {}, "Make it smaller, or keep it elsewhere and note where.");
    const std::string media_type = media_type_of(bytes);
    if (media_type.empty())
        return fail(ErrorKind::bad_input, "picture", name + " is neither a PNG nor a JPEG.", {},
                    "Save it as one of the two.");
    for (const Picture& booked : m_booked)
        if (booked.bytes == bytes) return booked.commitment;
    // Forgotten meanwhile: nobody can tell any more whether it was another one.
    for (const Picture& booked : m_booked)
        if (booked.is_forgotten()) return booked.commitment;
    const std::string salt = m_surroundings.random16();
    m_added.push_back({m_surroundings.commitment(salt, bytes), salt, media_type, bytes});
    return m_added.back().commitment;
}

Result<Reading> body_of(const TakeReading& act, Here& here) {
    Reading body;
    TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
    body.subject = key_of(here.cellar, holder);
    if (!act.gravity.empty()) {
        TRY(const GravityText written, parse_gravity("gravity", act.gravity));
        body.values.push_back({Quantity::gravity, written.value, written.unit});
        const engine::LiquidState& state =
            holder.run >= 0 ? here.states.runs[at_index(holder.run)] : here.states.vessels[at_index(holder.vessel)];
        if (written.unit == "Brix" && state.alcohol() && state.alcohol()->mean > 0.5)
            return fail(ErrorKind::outside_model, "gravity",
                        "A Brix reading of beer is spoilt by its alcohol. Read a hydrometer, in SG or °P.");
        const double sg =
            engine::gravity_of_reading(body.values.back(), std::nullopt,
                                       here.cellar.calibration_at(static_cast<int>(here.cellar.entries.size()),
                                                                  act.instrument, Quantity::gravity));
        const double highest =
            state.composition ? std::max(state.original_gravity, state.gravity()->mean) : state.original_gravity;
        if (state.composition && sg > highest + 0.010)
            here.remarks.push_back("That gravity is above anything that went in (" + number_text(highest, 3) +
                                   "): read it again.");
    }
    if (!act.ph.empty()) {
        TRY(const Decimal value, parse_number("ph", act.ph, 2, 9));
        body.values.push_back({Quantity::ph, value, "pH"});
    }
    if (!act.ta.empty()) {
        TRY(const Decimal value, parse_grams_per_litre("ta", act.ta));
        body.values.push_back({Quantity::ta, value, "g/L"});
    }
    if (!act.temperature.empty()) {
        TRY(const Temperature value, parse_temperature("temperature", act.temperature));
        if (value.in_celsius() < -10 || value.in_celsius() > 60)
            return fail(ErrorKind::bad_input, "temperature",
                        act.temperature + " is no temperature of a cellar. Write one between -10 C and 60 C.");
        const bool fahrenheit = act.temperature.find_first_of("fF") != std::string::npos;
        body.values.push_back({Quantity::temperature,
                               decimal_of(fahrenheit ? value.in_fahrenheit() : value.in_celsius(), 1),
                               fahrenheit ? "F" : "C"});
    }
    if (!act.dissolved_co2.empty()) {
        TRY(const CarbonationText value, parse_carbonation("co2", act.dissolved_co2));
        body.values.push_back({Quantity::dissolved_co2, value.value, value.unit});
    }
    if (!act.weight.empty()) {
        TRY(const Mass value, parse_mass("weight", act.weight));
        if (value <= Mass{}) return fail(ErrorKind::bad_input, "weight", act.weight + " is not above zero.");
        body.values.push_back({Quantity::weight, Decimal{value.mg(), 3}, "g"});
    }
    if (body.values.empty())
        return fail(ErrorKind::bad_input, "reading",
                    "What was read? Write a gravity such as 1.008, or --ph 3.42, --ta 7.2 g/L, --temperature 18 C.");
    if (!act.read_at.empty()) {
        TRY(const Temperature value, parse_temperature("read-at", act.read_at));
        const auto correctable = chem::gravity_at_20(1.010, value, Temperature::from_celsius(20.0));
        if (!correctable) return tl::unexpected(correctable.error());
        body.read_at_c = decimal_of(value.in_celsius(), 1);
    }
    body.instrument = act.instrument;
    TRY(body.sample, sample_from(act.sample, holder, here));
    TRY(body.gear, gear_in_vessel(act.gear, holder, here));
    return body;
}

namespace {

// The attributes and faults that a tasting may name: those of the tables, those that this book scored or defined
// before, and those that the tasting defines.
class TastingWords {
public:
    static Result<TastingWords> of(const TasteIt& act, Here& here) {
        TastingWords words(here);
        for (const std::string& text : act.defines) {
            const auto colon = text.find(':');
            const std::string name = colon == std::string::npos ? "" : trimmed(text.substr(0, colon));
            const std::string like = colon == std::string::npos ? "" : trimmed(text.substr(colon + 1));
            if (name.empty() || like.empty())
                return fail(ErrorKind::bad_input, "define",
                            "\"" + text +
                                "\" defines nothing. Write the word, a colon, and what it is like: "
                                "\"salty: like sea water\".");
            if (here.tables.find_attribute(name) || here.tables.find_fault(name))
                return fail(ErrorKind::bad_input, "define", "\"" + name + "\" is explained in the tables already.", {},
                            "undercroft tasting-words \"" + name + "\" says how; use another word for what you mean.");
            if (!words.m_own.emplace(name, like).second)
                return fail(ErrorKind::bad_input, "define", "\"" + name + "\" is defined twice.");
        }
        return words;
    }

    Result<std::string> attribute(const std::string& word) {
        const auto row = m_here.tables.find_attribute(word);
        if (row) return (*row)->id;
        return own("score", word, row.error());
    }
    Result<std::string> fault(const std::string& word) {
        const auto row = m_here.tables.find_fault(word);
        if (row) return (*row)->id;
        return own("fault", word, row.error());
    }
    // What was defined and used.
    Result<std::map<std::string, std::string>> defined() const {
        for (const auto& [name, like] : m_own)
            if (!m_used.contains(name))
                return fail(ErrorKind::bad_input, "define",
                            "\"" + name + "\" is defined, but neither scored nor named as a fault.");
        return m_own;
    }

private:
    explicit TastingWords(Here& here) : m_here(here) {}

    Result<std::string> own(const char* field, const std::string& word, Error unknown) {
        if (m_own.contains(word) || is_in_book(word)) {
            m_used.insert(word);
            return word;
        }
        unknown.kind = ErrorKind::bad_input;
        unknown.where = field;
        unknown.next_step +=
            (unknown.next_step.empty() ? "Say what it is like, --define \"" : " Or say what it is like, --define \"") +
            word + ": like ...\"; undercroft tasting-words lists those that are explained.";
        return tl::unexpected(std::move(unknown));
    }

    bool is_in_book(const std::string& word) const {
        // Of the whole book: an old sheet brought in later may use a word that was defined since.
        for (int number = 0; number < static_cast<int>(m_here.chains.size()); ++number) {
            if (m_here.chains.next_of(number) != Chains::k_none) continue;
            const auto* tasting = std::get_if<Tasting>(&m_here.chains.entry(number).body);
            if (tasting == nullptr) continue;
            if (tasting->scores.contains(word) || tasting->defines.contains(word) ||
                std::find(tasting->faults.begin(), tasting->faults.end(), word) != tasting->faults.end())
                return true;
        }
        return false;
    }

    Here& m_here;
    std::map<std::string, std::string> m_own;
    std::set<std::string> m_used;
};

}  // namespace

Result<Tasting> body_of(const TasteIt& act, Here& here) {
    Tasting body;
    TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
    body.subject = key_of(here.cellar, holder);
    body.taster = here.people.commitment_of(act.taster);
    TRY(TastingWords words, TastingWords::of(act, here));
    for (const std::string& score : act.scores) {
        const auto equals = score.find('=');
        if (equals == std::string::npos || equals == 0)
            return fail(
                ErrorKind::bad_input, "score",
                "\"" + score + "\" is not a score. Write attribute=number, such as sour=6, on a scale of 0 to 10.");
        TRY(const Decimal value, parse_number("score " + score.substr(0, equals), score.substr(equals + 1), 0, 10));
        TRY(const std::string attribute, words.attribute(score.substr(0, equals)));
        if (!body.scores.emplace(attribute, value).second)
            return fail(ErrorKind::bad_input, "score", "\"" + attribute + "\" is scored twice.");
    }
    for (const std::string& named : act.faults) {
        TRY(const std::string fault, words.fault(named));
        if (std::find(body.faults.begin(), body.faults.end(), fault) != body.faults.end())
            return fail(ErrorKind::bad_input, "fault", "\"" + fault + "\" is named twice.");
        body.faults.push_back(fault);
    }
    TRY(body.defines, words.defined());
    body.words = act.words;
    if (!act.liking.empty()) {
        TRY(body.liking, parse_number("liking", act.liking, 0, 10));
    }
    if (body.scores.empty() && body.faults.empty() && body.words.empty() && !body.liking)
        return fail(ErrorKind::bad_input, "tasting",
                    "Write what you tasted: words, --score sour=6, --fault mousy, or --liking 7.");
    TRY(body.sample, sample_from(act.sample, holder, here));
    TRY(body.gear, gear_in_vessel(act.gear, holder, here));
    return body;
}

Result<Note> body_of(const WriteNote& act, Here& here) {
    Note body;
    if (act.words.empty() && act.picture.empty() && act.picture_file.empty())
        return fail(ErrorKind::bad_input, "words", "A note needs words, or a picture.");
    if (!act.subject.empty()) {
        TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
        body.subject = key_of(here.cellar, holder);
    }
    body.words = act.words;
    if (!act.picture.empty() || !act.picture_file.empty()) {
        if (here.pictures == nullptr)
            return fail(ErrorKind::bad_input, "picture", "A picture comes with a note of its own, not this way.");
        TRY(body.picture, here.pictures->commitment_of(act.picture, act.picture_file));
    }
    return body;
}

Result<Interval> body_of(const SetInterval& act, Here& here) {
    Interval body;
    body.role = from_word<VesselRole>(act.subject);
    if (body.role) {
        const auto named_so = [&](const VesselState& vessel) {
            return !vessel.retired && vessel.as.name == act.subject;
        };
        if (std::any_of(here.cellar.vessels.begin(), here.cellar.vessels.end(), named_so))
            return fail(ErrorKind::bad_input, "subject",
                        "\"" + act.subject + "\" could be the vessel of that name or every vessel of that role.", {},
                        "Name the vessel by its tag.");
    } else {
        TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
        body.subject = key_of(here.cellar, holder);
        if (holder.run >= 0 && act.what != word(Recurring::reading) && act.what != word(Recurring::tasting))
            return fail(ErrorKind::bad_input, "what", "Bottles are read and tasted; they have no " + act.what + ".");
    }
    TRY(body.what, one_word<Recurring>("what", act.what, "reading, tasting, pull, top-up"));
    if (act.every != "never") {
        TRY(body.days, parse_span("every", act.every));
    }
    return body;
}

}  // namespace undercroft::app
