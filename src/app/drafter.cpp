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
    if (check.drawn) snapshot.facts["pressure of 95 in 100"] = text_of(GaugePressure::from_bar(check.drawn->high));
    if (check.limit) snapshot.facts["limit"] = text_of(*check.limit);
    if (!makers_limit.empty()) snapshot.facts["maker's figure"] = makers_limit;
    for (const auto& term : check.gas) snapshot.facts["volumes of " + term.name] = number_text(term.value, 3);
    return snapshot;
}

// Which vessels and runs of a cellar certain entries concern.
class Named {
public:
    Named(const Cellar& cellar, const std::set<const Entry*>& told) : m_cellar(cellar) {
        for (const Entry* entry : told) {
            const auto spot =
                std::lower_bound(cellar.entries.begin(), cellar.entries.end(), entry,
                                 [](const Entry* one, const Entry* wanted) { return one->place < wanted->place; });
            if (spot != cellar.entries.end() && *spot == entry)
                m_indices.push_back(static_cast<int>(spot - cellar.entries.begin()));
        }
    }
    // `entries`: those that concern one of them.
    [[nodiscard]] bool is_among(const std::vector<int>& entries) const {
        return std::any_of(m_indices.begin(), m_indices.end(),
                           [&entries](int index) { return std::binary_search(entries.begin(), entries.end(), index); });
    }
    [[nodiscard]] bool names(const EntryKey& key) const {
        const int vessel = m_cellar.vessel_of(key);
        const int run = m_cellar.run_of(key);
        return (vessel >= 0 && is_among(m_cellar.vessels[at_index(vessel)].entries)) ||
               (run >= 0 && is_among(m_cellar.runs[at_index(run)].entries));
    }

private:
    const Cellar& m_cellar;
    std::vector<int> m_indices;
};

}  // namespace

Drafter::Drafter(const DraftInputs& inputs)
    : m_in(inputs),
      m_booked(inputs.booked),
      m_people(inputs.persons, inputs.surroundings),
      m_pictures(inputs.surroundings) {}

Result<void> Drafter::place_sitting(const SittingRequest& request) {
    const Instant now = m_in.surroundings.now();
    const Day today = day_of(now, m_in.zone);
    std::string newest;
    // The last booked are mostly the newest: so few others are looked at closely.
    for (auto entry = m_in.booked.rbegin(); entry != m_in.booked.rend(); ++entry)
        if (entry->key.sitting > newest && is_sitting_key(entry->key.sitting)) newest = entry->key.sitting;
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
            const auto end = std::partition_point(m_booked.begin(), m_booked.end(),
                                                  [first](const Entry& entry) { return entry.sequence < first; });
            m_booked = m_booked.first(static_cast<std::size_t>(end - m_booked.begin()));
            m_earlier.emplace(m_booked);
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
        TRY(const Entry* entry, find_entry(m_booked, course().chains(), request.after));
        if (course().chains().superseding(entry->key) != nullptr || std::holds_alternative<Void>(entry->body))
            return fail(ErrorKind::stale, "after",
                        request.after + " no longer counts; name the entry that replaced it.");
        m_after = entry->place;
        m_at = entry->at();
        m_when_stated = true;
    }
    return {};
}

Result<std::shared_ptr<const Standing>> Drafter::standing_or_say(Course& course, const Scope& scope) const {
    auto standing = course.at(scope);
    if (standing) return *std::move(standing);
    const bool drafted = is_draft(standing.error().entry);
    Error error = words_of(course).error_of(standing.error(), drafted);
    if (!drafted && !m_superseded.empty()) name_needs(error, course);
    return tl::unexpected(std::move(error));
}

void Drafter::name_needs(Error& error, const Course& course) const {
    const Needs needs = needed_by(course, [this](const EntryKey& key) { return is_draft(key); });
    if (needs.entries.empty()) return;
    const Telling words = words_of(course);
    std::string changed;
    for (const EntryKey& key : m_superseded)
        changed += (changed.empty() ? "#" : ", #") + std::to_string(words.number_of(key));
    const std::size_t count = needs.entries.size();
    error.where = changed;
    error.what = (count == 1 ? "An entry that stands needs " : std::to_string(count) + " entries that stand need ") +
                 changed + " as it is.";
    if (!needs.all) error.what = "At least " + error.what;
    std::vector<Fact> facts;
    for (const Entry* entry : needs.entries)
        facts.push_back({"undercroft entries " + std::to_string(entry->sequence),
                         words.day_text(entry->at()) + "  " + words.sentence(*entry)});
    const std::string first = "#" + std::to_string(needs.entries.front()->sequence) + ": ";
    for (Fact& fact : error.facts) facts.push_back({first + fact.label, std::move(fact.value)});
    error.facts = std::move(facts);
    error.next_step = count == 1 ? "Void or correct that one first, or book this another way."
                                 : "Void or correct those first, the last of them before the others, or book this "
                                   "another way.";
}

Result<void> Drafter::replay_before(const Place& place) {
    TRY([[maybe_unused]] const auto standing, standing_or_say(course(), Scope{std::nullopt, place, std::nullopt}));
    return {};
}

Entry Drafter::new_entry(const std::string& by) const {
    Entry entry;
    entry.key = {m_key, static_cast<int>(m_drafts.size())};
    entry.place = m_after ? place_after(*m_after, entry.key) : place_at(m_at, entry.key);
    entry.by = by;
    return entry;
}

void Drafter::append(Entry entry) {
    m_drafts.push_back(std::move(entry));
    const Entry* const last = &m_drafts.back();
    m_with_drafts = (m_drafts.size() == 1 ? base() : m_with_drafts).with({&last, 1});
}

Result<Body> Drafter::body_for(const Act& act, Course& course, const Place& before) {
    TRY(const auto standing, standing_or_say(course, Scope{std::nullopt, before, std::nullopt}));
    const Cellar& cellar = standing->cellar;
    const engine::StateBook& states = standing->states;
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
              course.chains(),
              &m_pictures};
    Result<Body> body = std::visit(
        [&](const auto& one) -> Result<Body> {
            using One = std::decay_t<decltype(one)>;
            if constexpr (std::is_same_v<One, PrintLabel>) {
                TRY(const int run, find_run(cellar, "run", one.run));
                const Telling words = words_of(course);
                LabelView label =
                    label_of(Seen{cellar, states, words, before.at, m_in.tables}, m_in.tables, run, one.name);
                Snapshot snapshot;
                snapshot.kind = SnapshotKind::label;
                snapshot.subject = cellar.runs[at_index(run)].key;
                snapshot.text = label.text;
                snapshot.facts = {label.facts.begin(), label.facts.end()};
                m_labels.push_back(std::move(label));
                return Body{std::move(snapshot)};
            } else if constexpr (std::is_same_v<One, AcknowledgeFinding>) {
                TRY(const int run, find_run(cellar, "run", one.run));
                return acknowledge(one, cellar.runs[at_index(run)].key, course);
            } else if constexpr (std::is_same_v<One, VoidEntry> || std::is_same_v<One, Correct>) {
                return fail(ErrorKind::bad_input, "correct",
                            "A correction is corrected by correcting the entry it left: name that entry.");
            } else if constexpr (std::is_same_v<One, EndVessel> || std::is_same_v<One, SplitVessel>) {
                return fail(ErrorKind::bad_input, "correct",
                            "An end or a split is several entries: correct the one that is wrong.");
            } else {
                TRY(auto drafted, body_of(one, here));
                return Body{std::move(drafted)};
            }
        },
        act);
    if (body || body.error().kind != ErrorKind::not_found) return body;
    const auto whole = course.at({});
    if (!whole) return body;
    return tl::unexpected(unless_later(std::move(body).error(), (*whole)->cellar, before.at, words_of(course)));
}

Result<Body> Drafter::acknowledge(const AcknowledgeFinding& act, const EntryKey& run, Course& course) const {
    if (act.words.empty()) return fail(ErrorKind::bad_input, "words", "What was done about it? Say it in a few words.");
    // A finding is about today, whatever day this is booked for.
    TRY(const auto today, standing_or_say(course, {}));
    const Telling words = words_of(course);
    const auto findings = findings_of(words, m_in.tables, m_in.facts.gallons, today->cellar, today->states);
    const std::string code = words.name_of(run);
    if (std::none_of(findings.begin(), findings.end(), [&](const FindingView& one) { return one.run == code; }))
        return fail(ErrorKind::impossible, "run", "Nothing is found about " + code + " that could be acknowledged.", {},
                    "undercroft findings lists what stands.");
    return Body{Acknowledge{k_finding_caution, run, act.words}};
}

Result<void> Drafter::draft_act(const Act& act, const std::string& by) {
    if (const auto* correct = std::get_if<Correct>(&act)) return draft_correction(*correct, by);
    if (const auto* gone = std::get_if<VoidEntry>(&act)) return draft_void(*gone, by);
    if (const auto* end = std::get_if<EndVessel>(&act)) return draft_end(*end, by);
    if (const auto* split = std::get_if<SplitVessel>(&act)) return draft_split(*split, by);
    Entry entry = new_entry(by);
    TRY(const auto own_time, own_time_of(act, m_in.zone, m_in.surroundings.now()));
    if (own_time) {
        entry.place = place_at(*own_time, entry.key);
        TRY_VOID(replay_before(entry.place));
    }
    TRY(entry.body, body_for(act, course(), entry.place));
    append(std::move(entry));
    TRY_VOID(check_faults(act, by));
    return {};
}

Result<void> Drafter::draft_void(const VoidEntry& act, const std::string& by) {
    TRY(const Entry* target, find_entry(m_booked, course().chains(), act.entry));
    TRY_VOID(require_newest(course().chains(), *target));
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
    TRY_VOID(replay_before(target->place));
    append(std::move(entry));
    return {};
}

Result<void> Drafter::draft_correction(const Correct& act, const std::string& by) {
    TRY(const Entry* found, find_entry(m_booked, course().chains(), act.entry));
    const Entry& target = *found;
    TRY_VOID(require_newest(course().chains(), target));
    Entry entry = new_entry(by);
    if (!m_when_stated) entry.place = target.place;
    TRY(const auto own_time, own_time_of(*act.instead, m_in.zone, m_in.surroundings.now()));
    if (own_time) entry.place = place_at(*own_time, entry.key);
    entry.supersedes = target.key;
    entry.reason = act.reason;
    // Draft against the book as if the old entry had never been.
    Entry gone = entry;
    gone.body = Void{};
    const Entry* const taken_out = &gone;
    TRY_VOID(replay_before(std::min(entry.place, target.place)));
    Course without = course().with({&taken_out, 1});
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
    append(std::move(entry));
    return check_faults(*act.instead, by);
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
        TRY([[maybe_unused]] const auto so_far, standing_or_say(course(), Scope{std::nullopt, next, std::nullopt}));
    }
    for (Entry& draft : m_drafts) draft.sitting_size = static_cast<int>(m_drafts.size());
    TRY([[maybe_unused]] const auto whole, standing_or_say(course(), {}));
    if (!m_booked_same.empty()) return same_as_booked();
    return {};
}

Result<void> Drafter::same_as_booked() {
    bool same = m_booked_same.size() == m_drafts.size();
    for (std::size_t i = 0; same && i < m_booked_same.size(); ++i) {
        const Entry& mine = m_drafts[i];
        same = mine.body == m_booked_same[i].body && mine.supersedes == m_booked_same[i].supersedes &&
               mine.by == m_booked_same[i].by;
    }
    if (!same)
        return fail(ErrorKind::stale, "key", "That sitting was booked before and said something else.",
                    {{"sitting", m_key}}, "Make a new sitting key for a new sitting.");
    std::copy(m_booked_same.begin(), m_booked_same.end(), m_drafts.begin());
    std::vector<const Entry*> drafts;
    for (const Entry& draft : m_drafts) drafts.push_back(&draft);
    m_with_drafts = base().with(drafts);
    m_already = true;
    return {};
}

Sitting Drafter::sitting() const {
    return {m_key, {m_drafts.begin(), m_drafts.end()}, m_people.added(), m_pictures.added()};
}

Result<void> Drafter::show(SittingView& view) {
    const Telling words = telling();
    view.key = m_key;
    view.when = words.day_text(m_at) + " " + words.time_text(m_at);
    view.remarks = m_remarks;
    view.cautions = m_cautions;
    view.gas_checks = m_gas_checks;
    view.labels = m_labels;

    // A correction is judged by what it makes of the cellar now; anything else by the moment it stands at.
    Scope just_before;
    Scope just_after;
    Instant moment = m_in.surroundings.now();
    if (!m_corrects && !m_drafts.empty()) {
        // A calibration or a logger may stand at a time of its own.
        const auto last = std::max_element(m_drafts.begin(), m_drafts.end(),
                                           [](const Entry& a, const Entry& b) { return a.place < b.place; });
        just_before.before = just_after.before = last->place;
        just_after.before->path += "~";  // after the last draft, before whatever follows it
        moment = last->at();
    }
    TRY(const auto before, standing_or_say(base(), just_before));
    TRY(const auto after, standing_or_say(course(), just_after));
    for (const Entry& draft : m_drafts) view.entries.push_back(words.line(draft));

    std::set<const Entry*> told;  // the entries this is about
    for (const Entry& draft : m_drafts) told.insert(&draft);
    for (const EntryKey& key : m_superseded) told.insert(course().chains().find(key));
    const auto compare = [&](const Standing& standing_before, const Standing& standing_after, Instant when,
                             const std::string& prefix, bool keep_views) {
        const Cellar& was = standing_before.cellar;
        const Cellar& is = standing_after.cellar;
        const Seen seen_before{was, standing_before.states, words, when, m_in.tables};
        const Seen seen_after{is, standing_after.states, words, when, m_in.tables};
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
                view.touched.push_back(touched_of(old_view, new_view));
                view.before.push_back(old_view);
                view.after.push_back(new_view);
            }
        };
        std::set<std::string> done;
        for (const Cellar* cellar : {&was, &is}) {
            const Named named{*cellar, told};
            for (const VesselState& vessel : cellar->vessels)
                if (named.is_among(vessel.entries) && done.insert(vessel.key.text()).second) one(vessel.key, false);
            for (const RunState& run : cellar->runs)
                if (named.is_among(run.entries) && done.insert(run.key.text()).second) one(run.key, true);
        }
    };
    compare(*before, *after, moment, "", true);

    // News that comes late moves what stands today as well.
    TRY(const auto now_before, standing_or_say(base(), {}));
    TRY(const auto now_after, standing_or_say(course(), {}));
    const bool late = !m_corrects && now_after->cellar.entries.size() != after->cellar.entries.size();
    if (late) compare(*now_before, *now_after, m_in.surroundings.now(), "today: ", false);
    // And beyond what the sitting names: news travels. Bottles change only by these, or when they are named.
    const Named named_before{now_before->cellar, told};
    const Named named_after{now_after->cellar, told};
    const auto& runs = now_after->cellar.runs;
    const bool names_bottles =
        std::any_of(runs.begin(), runs.end(), [&](const RunState& run) { return named_after.is_among(run.entries); });
    if (!late && !m_corrects && !names_bottles) return {};
    const Telling before_words = words_of(base());
    const Seen seen_before{now_before->cellar, now_before->states, before_words, m_in.surroundings.now(), m_in.tables};
    const Seen seen_after{now_after->cellar, now_after->states, words, m_in.surroundings.now(), m_in.tables};
    if (late || m_corrects)
        view.moved = moved_between(seen_before, seen_after, [&](const EntryKey& key) {
            return named_before.names(key) || named_after.names(key);
        });
    FindingNews news = finding_news(seen_before, seen_after, m_in.tables, m_in.facts.gallons);
    view.findings_opened = std::move(news.opened);
    view.findings_closed = std::move(news.closed);
    return {};
}

}  // namespace undercroft::app
