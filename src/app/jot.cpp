#include "app/jot.hpp"

#include <array>

#include "app/jot_words.hpp"
#include "base/letters.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using ledger::Reason;

constexpr const char* k_expected =
    "a reading (1.008, pH 3.42, 18 C), or pulled, refilled, topped up, racked, tasted, lost, served, added, lifted, "
    "cleaned, opened, gave, note";

Failure want(const std::string& what) {
    return fail(ErrorKind::bad_input, "clause", what);
}

// One clause, and what the clauses before it were about.
class Clause {
public:
    Clause(std::string_view text, const Names& names, const JotHabits& habits, std::string& subject,
           std::vector<Act>& acts)
        : m_words(text), m_names(names), m_habits(habits), m_subject(subject), m_acts(acts) {}

    Result<void> read() {
        for (const std::string& word : m_words.rest())
            if (word.starts_with("--")) return want("\"" + word + "\" is an option; a jotting has none.");
        TRY_VOID(take_subject());
        using Reader = Result<void> (Clause::*)();
        struct Verb {
            std::vector<std::string_view> words;
            Reader read;
        };
        static const std::vector<Verb> k_verbs = {
            {{"pulled", "pull", "pulls"}, &Clause::pull},
            {{"refilled", "refill", "refills"}, &Clause::refill},
            {{"topped", "top", "top-up", "topped-up", "tops"}, &Clause::top_up},
            {{"racked", "rack", "racks"}, &Clause::rack},
            {{"tasted", "taste", "tastes"}, &Clause::taste},
            {{"read", "reads", "reading"}, &Clause::look},
            {{"lost", "loses", "loss"}, &Clause::lose},
            {{"served", "serve", "draw", "drew", "drank"}, &Clause::serve},
            {{"added", "add", "adds"}, &Clause::add},
            {{"lifted", "lift"}, &Clause::lift},
            {{"cleaned", "clean"}, &Clause::clean},
            {{"opened", "open"}, &Clause::open},
            {{"gave", "give", "given"}, &Clause::give},
            {{"note", "noted"}, &Clause::note},
        };
        for (const Verb& verb : k_verbs)
            if (m_words.skip_one_of(verb.words)) return (this->*verb.read)();
        return measures();
    }

private:
    // --- names -------------------------------------------------------------------------------
    Result<bool> take_subject() {
        // "12 C" is no word of "Jar 12".
        if (m_words.segment().empty() || is_jotted_number(m_words.word())) return false;
        TRY(const auto found, m_names.at_front(m_words.segment()));
        if (!found) return false;
        m_words.skip(found->words);
        m_words.skip_any({":"});
        m_subject = found->text;
        return true;
    }
    Result<std::string> take_vessel(std::string_view after) {
        if (m_words.segment().empty()) return want("After \"" + std::string(after) + "\" comes a vessel.");
        TRY(const auto found, m_names.at_front(m_words.segment()));
        if (!found || found->is_run) {
            TRY(std::string vessel, m_names.vessel("vessel", jot_joined(m_words.segment())));
            m_words.take_segment();
            return vessel;
        }
        m_words.skip(found->words);
        return found->text;
    }
    // "from Amber" where it comes next; else the subject stays.
    Result<void> from_subject() {
        if (!m_words.skip_any({"from"})) return {};
        TRY(m_subject, take_vessel("from"));
        return {};
    }
    Result<void> need_subject(std::string_view verb) {
        if (!m_subject.empty()) return {};
        return want("Which vessel? Begin with its name: Amber " + std::string(verb) + " ...");
    }
    Result<void> end() {
        m_words.skip_any({","});
        if (m_words.at_end()) return {};
        return want("\"" + m_words.take_rest() + "\" at the end is not understood.");
    }
    // The subject may also follow its verb, where no amount does.
    Result<void> subject_behind() {
        JotWords ahead = m_words;
        if (ahead.take_amount()) return {};
        if (m_words.lower_word() == "from" || m_words.lower_word() == "with" || m_words.lower_word() == "to") return {};
        TRY_VOID(take_subject());
        return {};
    }

    // --- moves -------------------------------------------------------------------------------
    // "18 L to Jar 12", "6 L to Jar 1, 6 L to Jar 2 and the rest to Jar 3", "lost 0.3 L".
    Result<void> destinations(MoveLiquid& move, std::string_view verb) {
        while (!m_words.at_end()) {
            if (m_words.skip_any({",", "and", "+"})) continue;
            if (m_words.skip_any({"lost", "loss", "losing"})) {
                const auto loss = m_words.take_amount();
                if (!loss || !move.loss.empty()) return want("How much was lost? Say lost 0.3 L, once.");
                move.loss = *loss;
                continue;
            }
            MoveLiquid::To to;
            if (const auto amount = m_words.take_amount()) to.volume = *amount;
            TRY_VOID(from_subject());
            if (!m_words.skip_any({"to", "into", "in"}))
                return want(m_words.at_end() ? "Where does it go? Say to VESSEL."
                                             : "\"" + m_words.take_rest() + "\": where does it go? Say to VESSEL.");
            TRY(to.vessel, take_vessel("to"));
            if (to.volume.empty()) {
                // "to Jar 12 6 L"
                if (const auto amount = m_words.take_amount()) to.volume = *amount;
            }
            move.to.push_back(std::move(to));
            TRY_VOID(from_subject());
        }
        if (move.to.empty()) return want("Where does it go? Say " + std::string(verb) + " 18 L to VESSEL.");
        TRY_VOID(need_subject(verb));
        move.from = m_subject;
        return {};
    }
    Result<void> pull() {
        TRY_VOID(subject_behind());
        TRY_VOID(from_subject());
        MoveLiquid move;
        move.reason = Reason::pull;
        TRY_VOID(destinations(move, "pulled"));
        for (const MoveLiquid::To& to : move.to)
            if (to.volume.empty()) return want("How much was pulled to " + to.vessel + "?");
        m_acts.emplace_back(std::move(move));
        return {};
    }
    Result<void> rack() {
        TRY_VOID(subject_behind());
        TRY_VOID(from_subject());
        MoveLiquid move;
        move.reason = Reason::rack;
        TRY_VOID(destinations(move, "racked"));
        for (MoveLiquid::To& to : move.to)
            if (to.volume.empty()) to.volume = move.to.size() == 1 ? "all" : "rest";
        m_acts.emplace_back(std::move(move));
        return {};
    }
    Result<void> top_up() {
        m_words.skip_any({"up"});
        return fill(Reason::top_up, "topped up");
    }
    Result<void> refill() { return fill(Reason::refill, "refilled"); }

    // "[Amber] [0.4 L] [to full] from Keg 1", or "18 L of Spring wort, OG 1.048".
    Result<void> fill(Reason reason, std::string_view verb) {
        TRY_VOID(subject_behind());
        std::string volume;
        if (const auto amount = m_words.take_amount()) volume = *amount;
        bool full = false;
        if (m_words.lower_word() == "to" && m_words.lower_word(1) == "full") {
            m_words.skip(2);
            full = true;
        }
        full = m_words.skip_any({"full"}) || full;
        TRY_VOID(need_subject(verb));
        if (volume.empty() && !full && reason == Reason::refill)
            return want("How much went in? Say refilled 18 L from VESSEL, or to full.");
        full = full || volume.empty();
        if (m_words.skip_any({"from"})) {
            TRY(std::string from, take_vessel("from"));
            m_acts.emplace_back(MoveLiquid{
                .reason = reason, .from = std::move(from), .to = {{m_subject, volume}}, .loss = {}, .to_full = full});
            return end();
        }
        if (!m_words.skip_any({"with", "of"}))
            return want("From where? Say " + std::string(verb) + " 18 L from VESSEL, or 18 L of a new brew's name.");
        EnterLot lot;
        lot.vessel = m_subject;
        lot.volume = volume;
        lot.reason = reason;
        lot.to_full = full;
        lot.name = m_words.take_segment();
        while (!m_words.at_end()) TRY_VOID(lot_figure(lot));
        m_acts.emplace_back(std::move(lot));
        return {};
    }
    Result<void> lot_figure(EnterLot& lot) {
        const std::string key = m_words.lower_word();
        struct Figure {
            std::string_view key;
            std::string* field;
        };
        const auto figures = std::to_array<Figure>({{"og", &lot.original_gravity},
                                                    {"gravity", &lot.gravity},
                                                    {"sg", &lot.gravity},
                                                    {"now", &lot.gravity},
                                                    {"ibu", &lot.ibu},
                                                    {"colour", &lot.colour},
                                                    {"ph", &lot.ph},
                                                    {"ta", &lot.ta},
                                                    {"alcohol", &lot.alcohol},
                                                    {"brewed", &lot.brewed}});
        for (const Figure& figure : figures) {
            if (figure.key != key) continue;
            m_words.skip();
            *figure.field = m_words.take_segment();
            return {};
        }
        return want("\"" + m_words.take_segment() +
                    "\" says nothing of a brew; say OG, gravity, IBU, colour, pH, TA, alcohol or brewed.");
    }

    // --- looking -----------------------------------------------------------------------------
    Result<void> look() {
        TRY_VOID(take_subject());
        return measures();
    }
    Result<void> measures() {
        TakeReading reading;
        bool any = false;
        while (!m_words.at_end()) {
            if (m_words.skip_any({",", "and"})) continue;
            TRY(const bool measured, take_measure(m_words, reading));
            if (!measured) return want("\"" + m_words.take_rest() + "\" is not understood.");
            any = true;
        }
        if (!any) return want("Nothing is said of " + (m_subject.empty() ? std::string("it") : m_subject) + ".");
        TRY_VOID(need_subject("1.008"));
        reading.subject = m_subject;
        if (reading.sample.empty()) reading.sample = m_habits.sample;
        m_acts.emplace_back(std::move(reading));
        return {};
    }
    Result<void> taste() {
        TRY_VOID(subject_behind_words());
        TRY_VOID(need_subject("tasted"));
        TasteIt tasting;
        tasting.subject = m_subject;
        m_words.skip_any({"of"});
        while (!m_words.at_end()) {
            if (m_words.skip_any({","})) continue;
            TRY_VOID(take_taste(m_words, tasting));
        }
        if (tasting.scores.empty() && tasting.faults.empty() && tasting.words.empty() && tasting.liking.empty())
            return want("What did it taste of? Say sour 6, lemon.");
        if (tasting.taster.empty()) tasting.taster = m_habits.taster;
        m_acts.emplace_back(std::move(tasting));
        return {};
    }
    // "tasted Amber sour 6": a whole name only, since "lemon" may be part of one.
    Result<void> subject_behind_words() {
        if (m_words.segment().empty()) return {};
        const auto found = m_names.at_front(m_words.segment());
        if (found && *found && is_whole((*found)->text, (*found)->words)) TRY_VOID(take_subject());
        return {};
    }
    [[nodiscard]] bool is_whole(const std::string& name, std::size_t words) const {
        return m_subject.empty() || JotWords{name}.rest().size() == words;
    }
    Result<void> note() {
        m_words.skip_any({":"});
        std::string words = m_words.take_rest();
        if (words.empty()) return want("A note wants words.");
        m_acts.emplace_back(WriteNote{m_subject, std::move(words)});
        return {};
    }

    // --- the rest ----------------------------------------------------------------------------
    Result<std::string> amount_for(std::string_view verb) {
        const auto amount = m_words.take_amount();
        if (!amount) return want("How much? Say " + std::string(verb) + " 0.5 L.");
        return *amount;
    }
    Result<void> lose() {
        TRY_VOID(subject_behind());
        TRY(std::string volume, amount_for("lost"));
        TRY_VOID(from_subject());
        m_words.skip_any({"to", "by", "as", "of"});
        std::string cause = m_words.take_segment();
        if (cause == "spilt" || cause == "spilled") cause = "spill";
        if (cause == "evaporated") cause = "evaporation";
        if (!ledger::from_word<ledger::LossCause>(cause))
            return want("To what? Say evaporation, sample, spill, dump, lees, served or unknown.");
        TRY_VOID(need_subject("lost"));
        m_acts.emplace_back(LoseLiquid{m_subject, std::move(volume), std::move(cause)});
        return end();
    }
    Result<void> serve() {
        TRY_VOID(subject_behind());
        TRY(std::string volume, amount_for("served"));
        TRY_VOID(from_subject());
        TRY_VOID(need_subject("served"));
        m_acts.emplace_back(LoseLiquid{m_subject, std::move(volume), ledger::word(ledger::LossCause::served)});
        return end();
    }
    Result<void> add() {
        AddAddition act;
        std::vector<std::string> item;
        while (!m_words.at_end()) {
            const bool bag =
                m_words.lower_word() == "in" && m_words.lower_word(1) == "a" && m_words.lower_word(2) == "bag";
            if (bag) {
                m_words.skip(3);
                act.contained = true;
            } else if (m_words.skip_any({"to", "into"})) {
                TRY(m_subject, take_vessel("to"));
            } else if (act.amount.empty() && is_jotted_number(m_words.word())) {
                act.amount = *m_words.take_amount();
                m_words.skip_any({"of"});
            } else {
                item.push_back(m_words.word());
                m_words.skip();
            }
        }
        act.item = jot_joined(item);
        if (act.amount.empty() || act.item.empty()) return want("How much of what? Say added 3 kg plum.");
        TRY_VOID(need_subject("added"));
        act.vessel = m_subject;
        m_acts.emplace_back(std::move(act));
        return {};
    }
    Result<void> lift() {
        m_words.skip_any({"the"});
        std::string item = m_words.take_rest();
        if (item.empty()) return want("What came out? Say lifted oak cubes.");
        TRY_VOID(need_subject("lifted"));
        m_acts.emplace_back(LiftAddition{m_subject, std::move(item)});
        return {};
    }
    Result<void> clean() {
        TRY_VOID(subject_behind_words());
        TRY_VOID(need_subject("cleaned"));
        m_words.skip_any({",", ":"});
        std::string words = m_words.take_rest();
        m_acts.emplace_back(CleanVessel{m_subject, std::move(words)});
        return {};
    }
    Result<void> open() { return take("opened"); }
    Result<void> give() { return take("given"); }
    // "opened 2 AMB-3, gushed", "gave 3 AMB-2 to Ines".
    Result<void> take(const char* cause) {
        TakeBottles act;
        act.cause = cause;
        if (is_jotted_number(m_words.word())) {
            act.count = m_words.word();
            m_words.skip();
        }
        m_words.skip_any({"of", "bottles", "bottle"});
        m_words.skip_any({"of"});
        if (!m_words.segment().empty()) {
            const auto found = m_names.at_front(m_words.segment());
            if (found && *found && (*found)->is_run) TRY_VOID(take_subject());
        }
        TRY_VOID(need_subject(cause));
        act.run = m_subject;
        if (m_words.skip_any({"to"})) act.person = m_words.take_segment();
        m_words.skip_any({",", ":"});
        act.words = m_words.take_rest();
        m_acts.emplace_back(std::move(act));
        return {};
    }

    JotWords m_words;
    const Names& m_names;
    const JotHabits& m_habits;
    std::string& m_subject;
    std::vector<Act>& m_acts;
};

// At ";" and line breaks outside quotes.
std::vector<std::string> clauses_of(const std::string& text) {
    std::vector<std::string> clauses(1);
    bool quoted = false;
    for (const char c : text) {
        if (c == '"') quoted = !quoted;
        if (!quoted && (c == ';' || c == '\n'))
            clauses.emplace_back();
        else
            clauses.back() += c;
    }
    return clauses;
}

}  // namespace

Result<std::vector<Act>> read_jotting(const std::string& text, const Names& names, const JotHabits& habits) {
    std::vector<Act> acts;
    std::string subject = habits.subject;
    for (const std::string& raw : clauses_of(text)) {
        const std::string clause = trimmed(raw);
        if (clause.empty()) continue;
        if (auto read = Clause{clause, names, habits, subject, acts}.read(); !read) {
            Error error = std::move(read).error();
            error.facts.insert(error.facts.begin(), {"clause", clause});
            error.facts.push_back({"expected", k_expected});
            return tl::unexpected(std::move(error));
        }
    }
    if (acts.empty())
        return fail(ErrorKind::bad_input, "log", "There is nothing to log.", {{"expected", k_expected}},
                    "undercroft log \"Amber 1.008 pH 3.42 18 C; tasted sour 6, lemon\"");
    return acts;
}

}  // namespace undercroft::app
