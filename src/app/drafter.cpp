#include "app/drafter.hpp"

#include <algorithm>
#include <set>

#include "app/findings.hpp"
#include "app/gas.hpp"
#include "app/label.hpp"
#include "app/names.hpp"
#include "app/needs.hpp"
#include "app/news.hpp"
#include "app/sitting_key.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

Snapshot verdict_snapshot(const engine::package::GasCheck& check, const EntryKey& run,
                          const std::string& makers_limit) {
    Snapshot snapshot;
    snapshot.kind = SnapshotKind::verdict;
    snapshot.subject = run;
    snapshot.text = check.words;
    snapshot.facts["verdict"] = engine::package::word(check.verdict);
    snapshot.facts["volumes at most"] = number_text(check.total_volumes, 2);
    snapshot.facts["store"] = text_of(check.store);
    if (check.total) snapshot.facts["total pressure"] = text_of(*check.total);
    if (check.limit) snapshot.facts["limit"] = text_of(*check.limit);
    if (!makers_limit.empty()) snapshot.facts["maker's figure"] = makers_limit;
    for (const auto& term : check.gas) snapshot.facts["volumes of " + term.name] = number_text(term.value, 3);
    return snapshot;
}

}  // namespace

Drafter::Drafter(const DraftInputs& inputs)
    : m_in(inputs),
      m_all(inputs.booked),
      m_first_draft(inputs.booked.size()),
      m_people(inputs.persons, inputs.surroundings),
      m_pictures(inputs.surroundings) {}

Result<void> Drafter::place_sitting(const SittingRequest& request) {
    const Instant now = m_in.surroundings.now();
    const Day today = day_of(now, m_in.zone);
    std::string newest;
    for (const Entry& entry : m_in.booked)
        if (is_sitting_key(entry.key.sitting)) newest = std::max(newest, entry.key.sitting);
    m_key = request.key.empty() ? new_sitting_key(now, m_in.surroundings.random16(), newest) : request.key;
    if (!is_sitting_key(m_key))
        return fail(ErrorKind::bad_input, "key",
                    "\"" + m_key + "\" is no sitting key; it is a UUID of version 7 in lower case.");
    m_at = now;
    if (!request.key.empty()) {
        // The same sitting sent again: draft it where it was booked, against the book as it was then.
        for (const Entry& entry : m_in.booked)
            if (entry.key.sitting == m_key) m_booked_same.push_back(entry);
        if (!m_booked_same.empty()) {
            for (const Entry& entry : m_booked_same)
                if (const auto* note = std::get_if<Note>(&entry.body);
                    note != nullptr && !note->picture.empty() && m_in.picture) {
                    TRY(auto picture, m_in.picture(note->picture));
                    if (picture) m_pictures.know(std::move(*picture));
                }
            // What came later may stand on it, or have corrected it.
            const std::int64_t first = m_booked_same.front().sequence;
            std::erase_if(m_all, [first](const Entry& entry) { return entry.sequence >= first; });
            m_first_draft = m_all.size();
            m_at = m_booked_same.front().at();
        }
    }
    if (!request.when.empty() && !request.after.empty())
        return fail(ErrorKind::bad_input, "after", "Say when, or after which entry, not both.");
    if (!request.when.empty()) {
        TRY(const DayAndTime when, parse_day_and_time("when", request.when, today));
        if (when.day > today)
            return fail(ErrorKind::bad_input, "when",
                        iso_text(when.day) + " is in the future; the book holds what has happened. Today is " +
                            iso_text(today) + ".");
        m_when_stated = true;
        if (when.minute_of_day)
            m_at = m_in.zone.instant_of(LocalTime{when.day, *when.minute_of_day, 0});
        else if (when.day == today)
            m_at = m_booked_same.empty() ? now : m_at;
        else
            m_at = noon_of(when.day, m_in.zone);
    }
    if (!request.after.empty()) {
        TRY(const Cellar cellar, replay_or_say(m_all, {}));
        TRY(const Entry* entry, find_entry(m_all, cellar, request.after));
        if (cellar.superseded_by.contains(entry->key.text()) || std::holds_alternative<Void>(entry->body))
            return fail(ErrorKind::stale, "after",
                        request.after + " no longer counts; name the entry that replaced it.");
        m_after = entry->place;
        m_at = entry->at();
        m_when_stated = true;
    }
    return {};
}

Result<Cellar> Drafter::replay_or_say(const std::vector<Entry>& entries, const Scope& scope) const {
    auto cellar = replay(entries, scope);
    if (cellar) return std::move(*cellar);
    const Telling words{entries, m_people.all(), m_in.zone, m_in.unit};
    const bool drafted = is_draft(cellar.error().entry);
    Error error = words.error_of(cellar.error(), drafted);
    if (!drafted && !m_superseded.empty()) name_needs(error, entries, words);
    return tl::unexpected(std::move(error));
}

void Drafter::name_needs(Error& error, const std::vector<Entry>& entries, const Telling& words) const {
    const Needs needs = needed_by(entries, [this](const EntryKey& key) { return is_draft(key); });
    if (needs.entries.empty()) return;
    std::string changed;
    for (const EntryKey& key : m_superseded)
        changed += (changed.empty() ? "#" : ", #") + std::to_string(number_of(entries, key));
    const std::size_t count = needs.entries.size();
    error.where = changed;
    error.what = (count == 1 ? "An entry that stands needs " : std::to_string(count) + " entries that stand need ") +
                 changed + " as it is.";
    if (!needs.all) error.what = "At least " + error.what;
    std::vector<Fact> facts;
    for (const Entry& entry : needs.entries)
        facts.push_back({"undercroft entries " + std::to_string(entry.sequence),
                         words.day_text(entry.at()) + "  " + words.sentence(entry)});
    const std::string first = "#" + std::to_string(needs.entries.front().sequence) + ": ";
    for (Fact& fact : error.facts) facts.push_back({first + fact.label, std::move(fact.value)});
    error.facts = std::move(facts);
    error.next_step = count == 1 ? "Void or correct that one first, or book this another way."
                                 : "Void or correct those first, the last of them before the others, or book this "
                                   "another way.";
}

Entry Drafter::new_entry(const std::string& by) const {
    Entry entry;
    entry.key = {m_key, static_cast<int>(drafted())};
    entry.place = m_after ? place_after(*m_after, entry.key) : place_at(m_at, entry.key);
    entry.by = by;
    return entry;
}

Result<void> Drafter::append(Entry entry) {
    m_all.push_back(std::move(entry));
    return {};
}

Result<Body> Drafter::body_for(const Act& act, const std::vector<Entry>& entries, const Place& before) {
    TRY(const Cellar cellar, replay_or_say(entries, Scope{std::nullopt, before, std::nullopt}));
    const engine::StateBook states = engine::states_of(cellar);
    Here here{cellar,
              states,
              m_in.tables,
              m_in.zone,
              m_in.facts.gallons,
              m_in.unit,
              before.at,
              day_of(m_in.surroundings.now(), m_in.zone),
              m_remarks,
              m_cautions,
              m_people,
              entries,
              &m_pictures};
    Result<Body> body = std::visit(
        [&](const auto& one) -> Result<Body> {
            using One = std::decay_t<decltype(one)>;
            if constexpr (std::is_same_v<One, PrintLabel>) {
                TRY(const int run, find_run(cellar, "run", one.run));
                const Telling words{entries, m_people.all(), m_in.zone, m_in.unit};
                LabelView label = label_of(Seen{cellar, states, words, before.at}, m_in.tables, run, one.name);
                Snapshot snapshot;
                snapshot.kind = SnapshotKind::label;
                snapshot.subject = cellar.runs[at_index(run)].key;
                snapshot.text = label.text;
                snapshot.facts = {label.facts.begin(), label.facts.end()};
                m_labels.push_back(std::move(label));
                return Body{std::move(snapshot)};
            } else if constexpr (std::is_same_v<One, AcknowledgeFinding>) {
                TRY(const int run, find_run(cellar, "run", one.run));
                return acknowledge(one, cellar.runs[at_index(run)].key, entries);
            } else if constexpr (std::is_same_v<One, VoidEntry> || std::is_same_v<One, Correct>) {
                return fail(ErrorKind::bad_input, "correct",
                            "A correction is corrected by correcting the entry it left: name that entry.");
            } else {
                TRY(auto drafted, body_of(one, here));
                return Body{std::move(drafted)};
            }
        },
        act);
    if (body || body.error().kind != ErrorKind::not_found) return body;
    const auto whole = replay(entries);
    if (!whole) return body;
    return tl::unexpected(unless_later(std::move(body).error(), *whole, before.at,
                                       Telling{entries, m_people.all(), m_in.zone, m_in.unit}));
}

Result<Body> Drafter::acknowledge(const AcknowledgeFinding& act, const EntryKey& run,
                                  const std::vector<Entry>& entries) const {
    if (act.words.empty()) return fail(ErrorKind::bad_input, "words", "What was done about it? Say it in a few words.");
    // A finding is about today, whatever day this is booked for.
    TRY(const Cellar today, replay_or_say(entries, {}));
    const Telling words{entries, m_people.all(), m_in.zone, m_in.unit};
    const auto findings = findings_of(words, m_in.tables, m_in.facts.gallons, today, engine::states_of(today));
    const std::string code = words.name_of(run);
    if (std::none_of(findings.begin(), findings.end(), [&](const FindingView& one) { return one.run == code; }))
        return fail(ErrorKind::impossible, "run", "Nothing is found about " + code + " that could be acknowledged.", {},
                    "undercroft findings lists what stands.");
    return Body{Acknowledge{k_finding_caution, run, act.words}};
}

Result<void> Drafter::draft_act(const Act& act, const std::string& by) {
    if (const auto* correct = std::get_if<Correct>(&act)) return draft_correction(*correct, by);
    if (const auto* gone = std::get_if<VoidEntry>(&act)) return draft_void(*gone, by);
    Entry entry = new_entry(by);
    TRY(entry.body, body_for(act, m_all, entry.place));
    TRY_VOID(append(std::move(entry)));
    if (const auto* package = std::get_if<PackageRun>(&act)) return check_gas(*package, by);
    return {};
}

Result<void> Drafter::draft_void(const VoidEntry& act, const std::string& by) {
    TRY(const Cellar cellar, replay_or_say(m_all, {}));
    TRY(const Entry* target, find_entry(m_all, cellar, act.entry));
    TRY_VOID(require_newest(m_all, cellar, *target));
    if (std::holds_alternative<Void>(target->body))
        return fail(ErrorKind::stale, "entry",
                    "#" + std::to_string(target->sequence) + " took an entry out of the book already.", {},
                    "To bring that entry back, correct #" + std::to_string(target->sequence) + " with what it said.");
    Entry entry = new_entry(by);
    entry.place = target->place;
    entry.supersedes = target->key;
    entry.reason = act.reason;
    entry.body = Void{};
    m_corrects = true;
    m_superseded.push_back(target->key);
    return append(std::move(entry));
}

Result<void> Drafter::draft_correction(const Correct& act, const std::string& by) {
    TRY(const Cellar cellar, replay_or_say(m_all, {}));
    TRY(const Entry* found, find_entry(m_all, cellar, act.entry));
    const Entry target = *found;
    TRY_VOID(require_newest(m_all, cellar, target));
    Entry entry = new_entry(by);
    if (!m_when_stated) entry.place = target.place;
    entry.supersedes = target.key;
    entry.reason = act.reason;
    // Draft against the book as if the old entry had never been.
    std::vector<Entry> without = m_all;
    Entry gone = entry;
    gone.body = Void{};
    without.push_back(gone);
    TRY(entry.body, body_for(*act.instead, without, entry.place));
    // Bottles keep the code that stands on them unless the correction is of the code.
    if (const auto* run = std::get_if<PackageRun>(act.instead.get()); run != nullptr && run->run.empty())
        if (const auto* old = std::get_if<Package>(&target.body))
            if (auto* body = std::get_if<Package>(&entry.body)) body->run = old->run;
    if (!std::holds_alternative<Void>(target.body) && kind_word(entry.body) != kind_word(target.body))
        return fail(ErrorKind::bad_input, "correct",
                    "#" + std::to_string(target.sequence) + " is of kind " + kind_word(target.body) +
                        " and cannot become one of kind " + kind_word(entry.body) + ". Void it and book the other.");
    m_corrects = true;
    m_superseded.push_back(target.key);
    TRY_VOID(append(std::move(entry)));
    if (const auto* package = std::get_if<PackageRun>(act.instead.get())) return check_gas(*package, by);
    return {};
}

Result<void> Drafter::check_gas(const PackageRun& act, const std::string& by) {
    const Entry packaged = m_all.back();
    const Entry next = new_entry(by);
    // The run as it was filled: a correction may stand long before today.
    Place just_after = packaged.place;
    just_after.path += "/";
    TRY(const Cellar cellar, replay_or_say(m_all, Scope{std::nullopt, just_after, std::nullopt}));
    const engine::StateBook states = engine::states_of(cellar);
    const int run = cellar.run_of(packaged.key);
    engine::package::GasQuestion question = gas_question_of(cellar, states, m_in.tables, {-1, run});
    GasRequest figures;
    figures.container = act.container;
    figures.store = act.store;
    figures.given_away = act.given_away;
    figures.limit = act.limit;
    TRY_VOID(state_figures(question, figures, m_in.tables, m_in.facts.gallons));
    TRY(const engine::package::GasCheck check, engine::package::first_gas_check(question, m_in.tables));
    m_gas_checks.push_back(gas_view(check, cellar.runs[at_index(run)].as.run));
    // The verdict is kept with what it rests on: what was known when the bottles were filled.
    Entry kept = next;
    kept.body = verdict_snapshot(check, packaged.key, act.limit);
    if (check.verdict == engine::package::Verdict::no_objection) return append(std::move(kept));
    if (act.acknowledge.empty()) {
        Error error;
        error.kind = ErrorKind::impossible;
        error.where = "gas check";
        error.what = check.words;
        for (const std::string& reason : check.reasons) error.facts.push_back({"because", reason});
        error.next_step =
            "Nothing was booked. Give the maker's figure with --limit, or book it as it is with --acknowledge \"why\".";
        m_objection = std::move(error);
        return {};
    }
    TRY_VOID(append(std::move(kept)));
    Entry entry = new_entry(by);
    entry.body = Acknowledge{std::string("gas.") + engine::package::word(check.verdict), packaged.key, act.acknowledge};
    return append(std::move(entry));
}

Result<void> Drafter::draft(const SittingRequest& request) {
    if (request.acts.empty()) return fail(ErrorKind::bad_input, "sitting", "There is nothing to book.");
    if (request.acts.size() > 10'000)
        return fail(ErrorKind::bad_input, "sitting", "A sitting holds at most 10,000 acts; split it.");
    TRY_VOID(place_sitting(request));
    const std::string by = m_people.commitment_of(request.by);
    for (const Act& act : request.acts) {
        TRY_VOID(draft_act(act, by));
        // Say what is wrong with this act before the next one hides it.
        const Place next = new_entry(by).place;
        TRY([[maybe_unused]] const Cellar so_far, replay_or_say(m_all, Scope{std::nullopt, next, std::nullopt}));
    }
    for (std::size_t i = m_first_draft; i < m_all.size(); ++i) m_all[i].sitting_size = static_cast<int>(drafted());
    TRY([[maybe_unused]] const Cellar whole, replay_or_say(m_all, {}));
    if (!m_booked_same.empty()) return same_as_booked();
    return {};
}

Result<void> Drafter::same_as_booked() {
    bool same = m_booked_same.size() == drafted();
    for (std::size_t i = 0; same && i < m_booked_same.size(); ++i) {
        const Entry& mine = m_all[m_first_draft + i];
        same = mine.body == m_booked_same[i].body && mine.supersedes == m_booked_same[i].supersedes &&
               mine.by == m_booked_same[i].by;
    }
    if (!same)
        return fail(ErrorKind::stale, "key", "That sitting was booked before and said something else.",
                    {{"sitting", m_key}}, "Make a new sitting key for a new sitting.");
    std::copy(m_booked_same.begin(), m_booked_same.end(), m_all.begin() + static_cast<std::ptrdiff_t>(m_first_draft));
    m_already = true;
    return {};
}

Sitting Drafter::sitting() const {
    return {m_key,
            {m_all.begin() + static_cast<std::ptrdiff_t>(m_first_draft), m_all.end()},
            m_people.added(),
            m_pictures.added()};
}

Result<void> Drafter::show(SittingView& view) const {
    const Telling words = telling();
    view.key = m_key;
    view.when = words.day_text(m_at) + " " + words.time_text(m_at);
    view.remarks = m_remarks;
    view.cautions = m_cautions;
    view.gas_checks = m_gas_checks;
    view.labels = m_labels;

    const std::vector<Entry> others(m_all.begin(), m_all.begin() + static_cast<std::ptrdiff_t>(m_first_draft));
    // A correction is judged by what it makes of the cellar now; anything else by the moment it stands at.
    Scope just_before;
    Scope just_after;
    Instant moment = m_in.surroundings.now();
    if (!m_corrects && drafted() > 0) {
        just_before.before = m_all[m_first_draft].place;
        just_after.before = m_all.back().place;
        just_after.before->path += "~";  // after the last draft, before whatever follows it
        moment = m_at;
    }
    TRY(const Cellar before, replay_or_say(others, just_before));
    TRY(const Cellar after, replay_or_say(m_all, just_after));
    for (std::size_t i = m_first_draft; i < m_all.size(); ++i) view.entries.push_back(words.line(m_all[i], after));

    const auto concerns = [&](const Cellar& cellar, const std::vector<int>& entries) {
        return std::any_of(entries.begin(), entries.end(), [&](int index) {
            const EntryKey& key = cellar.entries[at_index(index)]->key;
            return is_draft(key) || std::find(m_superseded.begin(), m_superseded.end(), key) != m_superseded.end();
        });
    };
    const auto compare = [&](const Cellar& was, const Cellar& is, Instant when, const std::string& prefix,
                             bool keep_views) {
        const engine::StateBook states_before = engine::states_of(was);
        const engine::StateBook states_after = engine::states_of(is);
        const Seen seen_before{was, states_before, words, when};
        const Seen seen_after{is, states_after, words, when};
        const auto one = [&](const EntryKey& key, bool run) {
            const int there = run ? was.run_of(key) : was.vessel_of(key);
            const int here = run ? is.run_of(key) : is.vessel_of(key);
            const HoldingView old_view =
                there < 0
                    ? HoldingView{}
                    : holding_view(seen_before, run ? engine::HolderRef{-1, there} : engine::HolderRef{there, -1}, 0);
            const HoldingView new_view =
                here < 0 ? HoldingView{}
                         : holding_view(seen_after, run ? engine::HolderRef{-1, here} : engine::HolderRef{here, -1}, 0);
            for (Change& change : changes_between(old_view, new_view, m_in.unit)) {
                change.what = prefix + change.what;
                view.changes.push_back(std::move(change));
            }
            if (keep_views) {
                view.before.push_back(old_view);
                view.after.push_back(new_view);
            }
        };
        std::set<std::string> done;
        for (const Cellar* cellar : {&was, &is}) {
            for (const VesselState& vessel : cellar->vessels)
                if (concerns(*cellar, vessel.entries) && done.insert(vessel.key.text()).second) one(vessel.key, false);
            for (const RunState& run : cellar->runs)
                if (concerns(*cellar, run.entries) && done.insert(run.key.text()).second) one(run.key, true);
        }
    };
    compare(before, after, moment, "", true);

    // News that comes late moves what stands today as well.
    TRY(const Cellar now_before, replay_or_say(others, {}));
    TRY(const Cellar now_after, replay_or_say(m_all, {}));
    const bool late = !m_corrects && now_after.entries.size() != after.entries.size();
    if (late) compare(now_before, now_after, m_in.surroundings.now(), "today: ", false);
    // And beyond what the sitting names: news travels. Bottles change only by these, or when they are named.
    const bool names_bottles = std::any_of(now_after.runs.begin(), now_after.runs.end(),
                                           [&](const RunState& run) { return concerns(now_after, run.entries); });
    if (!late && !m_corrects && !names_bottles) return {};
    const engine::StateBook states_before = engine::states_of(now_before);
    const engine::StateBook states_after = engine::states_of(now_after);
    const Telling before_words{others, m_people.all(), m_in.zone, m_in.unit};
    const Seen seen_before{now_before, states_before, before_words, m_in.surroundings.now()};
    const Seen seen_after{now_after, states_after, words, m_in.surroundings.now()};
    if (late || m_corrects)
        view.moved = moved_between(seen_before, seen_after, [&](const EntryKey& key) {
            const auto named = [&](const Cellar& cellar) {
                const int vessel = cellar.vessel_of(key);
                const int run = cellar.run_of(key);
                return (vessel >= 0 && concerns(cellar, cellar.vessels[at_index(vessel)].entries)) ||
                       (run >= 0 && concerns(cellar, cellar.runs[at_index(run)].entries));
            };
            return named(now_before) || named(now_after);
        });
    FindingNews news = finding_news(seen_before, seen_after, m_in.tables, m_in.facts.gallons);
    view.findings_opened = std::move(news.opened);
    view.findings_closed = std::move(news.closed);
    return {};
}

}  // namespace undercroft::app
