#include "app/findings.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "app/bodies.hpp"
#include "app/course.hpp"
#include "app/gas.hpp"
#include "app/label.hpp"
#include "app/names.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;
namespace package = engine::package;

// An accepted caution was accepted at a pressure. A rise below this share is within what the sum can tell apart
// (own choice: a quarter of the reserve of 0.8 to the maker's figure that every verdict keeps).
constexpr double k_pressure_rise = 0.05;

int severity(const std::string& verdict) {
    if (verdict == package::word(package::Verdict::do_not)) return 2;
    return verdict == package::word(package::Verdict::wait) ? 1 : 0;
}

// What was said about a run, or is to be said now.
struct Told {
    LabelClaims label;                      // of a label
    std::string verdict;                    // of a verdict: word of package::Verdict
    std::optional<GaugePressure> pressure;  // at the warmest store
    std::string advice;                     // of a verdict, for bottles on the shelf
};

// A label or verdict in the book, and the containers that carry it.
struct Kept {
    const Entry* entry = nullptr;
    const Snapshot* what = nullptr;
    const Entry* accepted = nullptr;      // the caution of a verdict was accepted with this entry
    const Entry* acknowledged = nullptr;  // newest entry that acknowledged a finding about it
    int run = -1;
    int on_hand = 0;
    int given = 0;
    int sold = 0;
    std::vector<std::pair<const Entry*, const Take*>> out;

    [[nodiscard]] int containers() const { return on_hand + given + sold; }
    void take(const Entry& entry_of_take, const Take& take) {
        if (take.cause != TakeCause::given && take.cause != TakeCause::sold) return;
        (take.cause == TakeCause::given ? given : sold) += take.count;
        out.emplace_back(&entry_of_take, &take);
    }
};

bool arrived_after(const Entry& one, const Entry& other) {
    if (one.sequence == 0 || other.sequence == 0) return one.sequence == 0 && other.sequence != 0;
    return one.sequence > other.sequence;
}

// In the order of the book. A label is carried by what left between it and the next label of its run, and by what is
// on hand when it is the last; a verdict, by all that left and is on hand.
std::vector<Kept> kept_things(const Cellar& cellar) {
    std::vector<Kept> all;
    std::map<int, std::size_t> label_of_run;
    std::map<int, std::size_t> verdict_of_run;
    const auto keep = [&](std::map<int, std::size_t>& newest, const Entry& entry, const Snapshot& what, int run) {
        newest[run] = all.size();
        Kept kept;
        kept.entry = &entry;
        kept.what = &what;
        kept.run = run;
        all.push_back(std::move(kept));
    };
    for (const Entry* entry : cellar.entries) {
        if (const auto* snapshot = std::get_if<Snapshot>(&entry->body)) {
            const int run = cellar.run_of(snapshot->subject);
            if (run >= 0)
                keep(snapshot->kind == SnapshotKind::label ? label_of_run : verdict_of_run, *entry, *snapshot, run);
        } else if (const auto* take = std::get_if<Take>(&entry->body)) {
            const int run = cellar.run_of(take->run);
            if (const auto label = label_of_run.find(run); label != label_of_run.end())
                all[label->second].take(*entry, *take);
        } else if (const auto* accepted = std::get_if<Acknowledge>(&entry->body)) {
            const auto verdict = verdict_of_run.find(cellar.run_of(accepted->subject));
            if (accepted->caution != k_finding_caution && verdict != verdict_of_run.end())
                all[verdict->second].accepted = entry;
        }
    }
    for (const Entry* entry : cellar.entries) {
        // Bottles that left before the last verdict was given are of the same run all the same.
        if (const auto* take = std::get_if<Take>(&entry->body))
            if (const auto verdict = verdict_of_run.find(cellar.run_of(take->run)); verdict != verdict_of_run.end())
                all[verdict->second].take(*entry, *take);
        // Whatever day it is booked for, it is about what was in the book when it came.
        if (const auto* known = std::get_if<Acknowledge>(&entry->body);
            known != nullptr && known->caution == k_finding_caution)
            for (Kept& kept : all)
                if (kept.run == cellar.run_of(known->subject) && !arrived_after(*kept.entry, *entry) &&
                    (kept.acknowledged == nullptr || arrived_after(*entry, *kept.acknowledged)))
                    kept.acknowledged = entry;
    }
    for (const auto* newest : {&label_of_run, &verdict_of_run})
        for (const auto& [run, index] : *newest) all[index].on_hand = cellar.runs[at_index(run)].left;
    std::erase_if(all, [](const Kept& kept) { return kept.containers() == 0; });
    return all;
}

class Finder {
public:
    Finder(const Telling& telling, const tables::Tables& tables, Gallons gallons, const Cellar& cellar,
           const engine::StateBook& states)
        : m_telling(telling), m_tables(tables), m_gallons(gallons), m_cellar(cellar), m_states(states) {}

    std::vector<FindingView> run(const std::set<EntryKey>& passed_over) {
        m_all = kept_things(m_cellar);
        std::erase_if(m_all,
                      [&](const Kept& kept) { return passed_over.contains(m_cellar.runs[at_index(kept.run)].key); });
        std::vector<Doubt> untrue = doubts();
        if (!untrue.empty()) find_since(untrue);
        std::vector<FindingView> found;
        for (const Doubt& one : untrue)
            found.push_back(view_of(*one.kept, tell(*one.kept, m_cellar, m_states, package::Draws::always),
                                    differences(*one.kept, one.said, one.now), one.since));
        return found;
    }

private:
    // In order of arrival.
    [[nodiscard]] const Entry& entry(std::size_t number) const {
        return m_telling.chains.entry(static_cast<int>(number));
    }
    // Ends of sittings, as numbers of entries: between two of them nobody saw the book.
    const std::vector<std::size_t>& ends() {
        if (!m_ends.empty()) return m_ends;
        for (std::size_t i = 0; i < m_telling.chains.size() && entry(i).sequence > 0; ++i) {
            if (i > 0 && entry(i).key.sitting == entry(i - 1).key.sitting)
                m_ends.back() = i + 1;
            else
                m_ends.push_back(i + 1);
        }
        return m_ends;
    }

    // `draws`: always for the words of the advice, which hundreds of runs need not have.
    [[nodiscard]] Told tell(const Kept& kept, const Cellar& cellar, const engine::StateBook& states,
                            package::Draws draws = package::Draws::where_they_decide) const {
        Told told;
        const int run = cellar.run_of(kept.what->subject);
        if (run < 0) return told;
        if (kept.what->kind == SnapshotKind::label) {
            // As of the day it was printed: what dies out later makes no label untrue.
            told.label = claims_of(cellar, states, m_tables, run, kept.entry->at());
            return told;
        }
        package::GasQuestion question = gas_question_of(cellar, states, m_tables, {-1, run});
        GasRequest figures;
        figures.container = cellar.runs[at_index(run)].as.container;
        for (const auto& [name, value] : kept.what->facts) {
            if (name == "store") figures.store = value;
            if (name == "maker's figure") figures.limit = value;
        }
        question.stage = package::Stage::on_the_shelf;
        if (!state_figures(question, figures, m_tables, m_gallons)) return told;
        if (const auto check = package::gas_check(question, m_tables, draws)) {
            told.verdict = package::word(check->verdict);
            told.pressure = check->total;
            told.advice = check->words;
        }
        return told;
    }

    [[nodiscard]] Told said_by(const Kept& kept) const {
        Told said;
        if (kept.what->kind == SnapshotKind::label) {
            said.label = claims_of(kept.what->facts);
            return said;
        }
        for (const auto& [name, value] : kept.what->facts) {
            if (name == "verdict") said.verdict = value;
            if (name == "total pressure")
                if (const auto pressure = parse_gauge_pressure("total pressure", value)) said.pressure = *pressure;
        }
        return said;
    }

    [[nodiscard]] static std::vector<FindingDifference> differences(const Kept& kept, const Told& said,
                                                                    const Told& now) {
        std::vector<FindingDifference> all;
        if (kept.what->kind == SnapshotKind::label) {
            const LabelClaims& then = said.label;
            if (then.culture != now.label.culture) all.push_back({"culture", then.culture, now.label.culture});
            if (then.allergens != now.label.allergens)
                all.push_back({"allergens", then.allergens, now.label.allergens});
            constexpr double k_last_digit = 0.05;  // of a percentage with one decimal
            if (then.alcohol && now.label.alcohol &&
                std::abs(*then.alcohol - *now.label.alcohol) > then.alcohol_tolerance + k_last_digit)
                all.push_back({"alcohol", then.alcohol_text(), now.label.alcohol_text()});
            return all;
        }
        if (now.verdict.empty() || said.verdict.empty()) return all;
        if (severity(now.verdict) > severity(said.verdict))
            all.push_back({"verdict", verdict_in_words(said.verdict), verdict_in_words(now.verdict)});
        const bool higher =
            now.pressure && said.pressure && now.pressure->in_bar() > said.pressure->in_bar() * (1.0 + k_pressure_rise);
        if (!all.empty() || (kept.accepted != nullptr && higher && severity(now.verdict) == severity(said.verdict)))
            all.push_back({"total pressure", said.pressure ? text_of(*said.pressure) : "not known",
                           now.pressure ? text_of(*now.pressure) : "not known"});
        return all;
    }

    // The end of the sitting an entry arrived in; nothing for a draft.
    [[nodiscard]] std::optional<std::size_t> end_of(const Entry& one) {
        if (one.sequence == 0) return std::nullopt;
        const auto number = static_cast<std::size_t>(m_telling.chains.number_of(one.key));
        return *std::upper_bound(ends().begin(), ends().end(), number);
    }

    // One that may be untrue, and what is known of when it became so.
    struct Doubt {
        const Kept* kept = nullptr;
        std::size_t from = 0;  // end of the sitting in which it was said
        Told said;
        Told then;  // what this program made of the book when it was said; only entries can have changed that
        Told now;
        std::size_t low = 0;   // still true at this end of a sitting,
        std::size_t high = 0;  // untrue at this one; both by their numbers among ends()
        std::int64_t since = 0;

        [[nodiscard]] bool is_untrue(const Told& told) const {
            return !differences(*kept, said, told).empty() && !differences(*kept, then, told).empty();
        }
    };
    struct Question {
        std::size_t entries = 0;  // of the book as it was when it held so many
        Doubt* doubt = nullptr;
    };

    [[nodiscard]] std::vector<Doubt> doubts() {
        std::vector<Doubt> all;
        for (const Kept& kept : m_all) {
            const auto from = end_of(kept.acknowledged != nullptr ? *kept.acknowledged : *kept.entry);
            if (!from) continue;  // drafted just now
            Doubt doubt{&kept, *from, said_by(kept), {}, tell(kept, m_cellar, m_states)};
            if (kept.acknowledged != nullptr || !differences(kept, doubt.said, doubt.now).empty())
                all.push_back(std::move(doubt));
        }
        std::vector<Question> when_said;
        for (Doubt& doubt : all) when_said.push_back({doubt.from, &doubt});
        std::set<const Doubt*> standing;
        ask(std::move(when_said), [&standing](Doubt& doubt, std::size_t, Told told) {
            if (doubt.kept->acknowledged != nullptr) doubt.said = told;
            doubt.then = std::move(told);
            if (doubt.is_untrue(doubt.now)) standing.insert(&doubt);
        });
        std::erase_if(all, [&standing](const Doubt& doubt) { return !standing.contains(&doubt); });
        return all;
    }

    // Calls answer(doubt, entries, told) for every question, those about a smaller book first: so the book is replayed
    // once for all of them. Books that do not stand by themselves are passed over.
    template <class Answer>
    void ask(std::vector<Question> questions, const Answer& answer) const {
        std::stable_sort(questions.begin(), questions.end(),
                         [](const Question& a, const Question& b) { return a.entries < b.entries; });
        Course past;
        for (const Question& question : questions) {
            std::vector<const Entry*> more;
            for (std::size_t i = past.chains().size(); i < question.entries; ++i) more.push_back(&entry(i));
            past.add(more);
            const auto then = past.at({});
            if (!then) continue;
            answer(*question.doubt, question.entries, tell(*question.doubt->kept, (*then)->cellar, (*then)->states));
        }
    }

    // Finds the entry after which each was untrue; 0 stays where only drafts make it so.
    void find_since(std::vector<Doubt>& all) {
        std::vector<Question> questions;
        for (Doubt& doubt : all) questions.push_back({ends().back(), &doubt});
        ask(std::move(questions), [this](Doubt& doubt, std::size_t, const Told& told) {
            if (!doubt.is_untrue(told)) return;
            doubt.high = ends().size() - 1;
            doubt.low = number_of_end(doubt.from);
        });
        while (true) {
            questions.clear();
            for (Doubt& doubt : all)
                if (doubt.high > doubt.low + 1)
                    questions.push_back({ends()[doubt.low + (doubt.high - doubt.low) / 2], &doubt});
            if (questions.empty()) break;
            halve(std::move(questions));
        }
        for (Doubt& doubt : all) {
            if (doubt.high == 0) continue;
            for (std::size_t entries = ends()[doubt.low] + 1; entries < ends()[doubt.high]; ++entries)
                questions.push_back({entries, &doubt});
        }
        ask(std::move(questions), [this](Doubt& doubt, std::size_t entries, const Told& told) {
            if (doubt.since == 0 && doubt.is_untrue(told)) doubt.since = entry(entries - 1).sequence;
        });
        // Of a sitting that only stands whole, or whose last entry did it.
        for (Doubt& doubt : all)
            if (doubt.high > 0 && doubt.since == 0) doubt.since = entry(ends()[doubt.high] - 1).sequence;
    }

    void halve(std::vector<Question> questions) {
        std::set<const Doubt*> untrue;
        std::vector<Doubt*> asked;
        for (const Question& question : questions) asked.push_back(question.doubt);
        ask(std::move(questions), [&untrue](Doubt& doubt, std::size_t, const Told& told) {
            if (doubt.is_untrue(told)) untrue.insert(&doubt);
        });
        for (Doubt* doubt : asked) {
            const std::size_t middle = doubt->low + (doubt->high - doubt->low) / 2;
            (untrue.contains(doubt) ? doubt->high : doubt->low) = middle;
        }
    }

    std::size_t number_of_end(std::size_t entries) {
        return static_cast<std::size_t>(std::lower_bound(ends().begin(), ends().end(), entries) - ends().begin());
    }

    [[nodiscard]] FindingView view_of(const Kept& kept, const Told& now, const std::vector<FindingDifference>& untrue,
                                      std::int64_t since) const {
        const RunState& run = m_cellar.runs[at_index(kept.run)];
        FindingView view;
        const bool label = kept.what->kind == SnapshotKind::label;
        view.kind = label ? "label" : kept.accepted != nullptr ? "caution" : "verdict";
        view.run = run.as.run;
        view.number = kept.entry->sequence;
        view.key = kept.entry->key.text();
        view.day = m_telling.day_text(kept.entry->at());
        view.since = since;
        view.differences = untrue;
        view.on_hand = kept.on_hand;
        view.given = kept.given;
        view.sold = kept.sold;
        for (const auto& [entry, take] : kept.out)
            view.receivers.push_back({person_name(m_telling.persons, take->person), take->count, word(take->cause),
                                      m_telling.day_text(entry->at())});
        const bool cans = run.as.container.starts_with("can");
        const auto counted = [cans](int count) {
            return std::to_string(count) + (cans ? " can" : " bottle") + (count == 1 ? "" : "s");
        };
        const std::string when = since > 0 ? "since entry #" + std::to_string(since) : std::string("with this sitting");
        if (label) {
            view.words = counted(kept.containers()) + " of " + view.run +
                         (kept.containers() == 1 ? " carries" : " carry") + " a label that is no longer true: ";
            for (std::size_t i = 0; i < untrue.size(); ++i)
                view.words += (i > 0 ? "; " : "") + label_words(untrue[i], now.label, when);
            view.next_step =
                (kept.on_hand > 0 ? "Print a new label for those on hand: undercroft label " + view.run + ". "
                                  : std::string()) +
                (kept.given + kept.sold > 0
                     ? "Tell whoever has the others, then: undercroft acknowledge " + view.run + " \"they know\"."
                     : std::string());
        } else {
            const FindingDifference& first = untrue.front();
            view.words = std::string(kept.accepted != nullptr ? "The caution accepted for " : "The gas verdict on ") +
                         counted(kept.containers()) + " of " + view.run + " no longer holds: it " +
                         (first.what == "verdict"
                              ? "was \"" + first.said + "\"; " + when + " it is \"" + first.now + "\". "
                              : "was given at " + first.said + "; " + when + " up to " + first.now + " could come. ") +
                         now.advice;
            view.next_step =
                "Do not touch them warm: face shield and gloves, chill them to 2 °C for a day in a closed box. Once "
                "you "
                "know what to do: undercroft acknowledge " +
                view.run + " \"what was decided\".";
        }
        while (view.next_step.ends_with(' ')) view.next_step.pop_back();
        if (!view.words.ends_with('.')) view.words += ".";
        view.where = std::to_string(kept.on_hand) + " on hand";
        for (const Receiver& one : view.receivers)
            view.where += ", " + std::to_string(one.count) + " " + one.cause +
                          (one.who.empty() ? "" : " to " + one.who) + " on " + one.day;
        view.where += ".";
        return view;
    }

    [[nodiscard]] static std::string label_words(const FindingDifference& untrue, const LabelClaims& now,
                                                 const std::string& when) {
        constexpr const char* k_killer = "killer wine yeast";
        if (untrue.what == "culture" && now.killer && untrue.said.find(k_killer) == std::string::npos)
            return "it says no killer yeast; " + when + " one is " +
                   (*now.killer == Certainty::certain ? "certainly" : "likely") + " inside";
        if (untrue.what == "alcohol") return "it says " + untrue.said + "; " + when + " it is " + untrue.now;
        return "of " + (untrue.what == "culture" ? std::string("cultures") : untrue.what) + " it says \"" +
               untrue.said + "\"; " + when + " it would say \"" + untrue.now + "\"";
    }

    const Telling& m_telling;
    const tables::Tables& m_tables;
    Gallons m_gallons;
    const Cellar& m_cellar;
    const engine::StateBook& m_states;
    std::vector<std::size_t> m_ends;
    std::vector<Kept> m_all;
};

}  // namespace

std::vector<FindingView> findings_of(const Telling& telling, const tables::Tables& tables, Gallons gallons,
                                     const Cellar& cellar, const engine::StateBook& states,
                                     const std::set<EntryKey>& passed_over) {
    return Finder{telling, tables, gallons, cellar, states}.run(passed_over);
}

}  // namespace undercroft::app
