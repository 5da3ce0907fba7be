#include "app/book.hpp"

#include <algorithm>
#include <utility>

#include "app/bodies.hpp"
#include "app/book_line.hpp"
#include "app/book_look.hpp"
#include "app/due.hpp"
#include "app/findings.hpp"
#include "app/fruit.hpp"
#include "app/gas.hpp"
#include "app/label.hpp"
#include "app/names.hpp"
#include "app/views_of.hpp"
#include "units/amount.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

// Today and next, beside the cellar.
constexpr std::size_t k_due_in_cellar = 5;
constexpr int k_days_in_cellar = 14;

// So many entries can be booked before the book is read again.
constexpr std::size_t k_room_for_bookings = 256;

Volume total_of(const ledger::Cellar& cellar, engine::HolderRef holder) {
    return holder.run >= 0 ? cellar.runs[at_index(holder.run)].liquid.volume
                           : cellar.vessels[at_index(holder.vessel)].liquid.volume;
}

std::string name_of(const ledger::Cellar& cellar, engine::HolderRef holder) {
    return holder.run >= 0 ? cellar.runs[at_index(holder.run)].as.run : cellar.vessels[at_index(holder.vessel)].as.name;
}

const char* kind_of(engine::HolderRef holder) {
    return holder.run >= 0 ? "run" : "vessel";
}

std::string brewed_text(const ledger::LotState& lot) {
    if (!lot.brewed_from) return "";
    const std::string from = iso_text(*lot.brewed_from);
    const std::string to = lot.brewed_to ? iso_text(*lot.brewed_to) : from;
    return from == to ? "brewed " + from
                      : "brewed between " + from + " and " + to + (lot.age_assumed ? " (assumed)" : "");
}

}  // namespace

Book::Book(ledger::Journal& journal, ledger::Keepsafe* keepsafe, const Zone& zone, const tables::Tables& tables,
           Surroundings surroundings)
    : m_journal(journal),
      m_keepsafe(keepsafe),
      m_zone(zone),
      m_tables(tables),
      m_surroundings(std::move(surroundings)) {}

Result<void> Book::load() {
    TRY(const std::int64_t last, m_journal.last_sequence());
    // Somebody can be forgotten without an entry.
    TRY(m_persons, m_journal.persons());
    if (last == m_sequence && last != 0) return {};
    TRY(std::vector<ledger::Entry> entries, m_journal.entries());
    entries.reserve(entries.size() + k_room_for_bookings);
    m_entries = std::move(entries);
    m_course = Course{m_entries};
    m_sequence = m_entries.empty() ? 0 : m_entries.back().sequence;
    return {};
}

Result<void> Book::take_in(std::vector<ledger::Entry> booked) {
    const bool has_room = m_entries.capacity() - m_entries.size() >= booked.size();
    if (!has_room || booked.empty() || booked.front().sequence != m_sequence + 1) return load();
    std::vector<const ledger::Entry*> more;
    for (ledger::Entry& entry : booked) {
        m_entries.push_back(std::move(entry));
        more.push_back(&m_entries.back());
    }
    m_course.add(more);
    m_sequence = m_entries.back().sequence;
    return {};
}

Telling Book::telling() const {
    return {m_course.chains(), m_persons, m_zone, unit_of(m_journal.facts())};
}

BookLine Book::line() const {
    BookLine line = line_of(m_journal, m_entries, m_zone);
    if (m_whole_until) line.answers_until = iso_text(day_of(*m_whole_until, m_zone));
    return line;
}

Result<std::shared_ptr<const Standing>> Book::standing_at(const Moment& moment, Instant& when) {
    ledger::Scope scope;
    when = m_surroundings.now();
    if (!moment.on.empty()) {
        TRY(const Day day, parse_day("on", moment.on, today()));
        if (day > today())
            return fail(ErrorKind::bad_input, "on",
                        iso_text(day) + " is in the future; the book holds what has happened. Today is " +
                            iso_text(today()) + ".");
        when = end_of_day(day, m_zone);
        scope.until = when;
    }
    if (!moment.known_on.empty()) {
        TRY(const Day day, parse_day("known-on", moment.known_on, today()));
        scope.known_on = end_of_day(day, m_zone);
        if (moment.on.empty()) {
            when = std::min(when, *scope.known_on);
            scope.until = when;
        }
    }
    m_whole_until.reset();
    auto found = standing(scope);
    if (!found && holds_unknown(m_entries)) {
        // What this program does not know may have brought what a later entry takes: answer up to there.
        if (const ledger::Entry* broken = m_course.chains().find(found.error().entry)) {
            scope.before = broken->place;
            m_whole_until = broken->at();
        }
        when = std::min(when, m_whole_until.value_or(when));
        found = standing(scope);
    }
    if (found) return *std::move(found);
    return tl::unexpected(telling().error_of(found.error(), false));
}

tl::expected<std::shared_ptr<const Standing>, ledger::ReplayFault> Book::standing(const ledger::Scope& scope) {
    if (!scope.known_on) return m_course.at(scope);
    auto cellar = ledger::replay(m_entries, scope);
    if (!cellar) return tl::unexpected(cellar.error());
    auto earlier = std::make_shared<Standing>();
    earlier->cellar = *std::move(cellar);
    engine::follow(earlier->states, earlier->cellar);
    return earlier;
}

Result<Book::Look> Book::look(const Moment& moment) {
    TRY_VOID(load());
    Instant when;
    TRY(std::shared_ptr<const Standing> standing, standing_at(moment, when));
    return Look{when, std::move(standing), telling(), m_tables};
}

Result<engine::HolderRef> Book::holder_named(const Look& here, std::string_view field, const std::string& name) {
    auto found = find_holder(here.cellar(), field, name);
    if (found || found.error().kind != ErrorKind::not_found) return found;
    // On an earlier day: what is there today, when it came.
    const auto today = m_course.at({});
    if (!today) return found;
    return tl::unexpected(unless_later(std::move(found).error(), (*today)->cellar, here.when, here.telling));
}

Result<CellarView> Book::cellar(const Moment& moment) {
    TRY(const Look here, look(moment));
    const auto& cellar = here.cellar();
    const auto& telling = here.telling;
    const Seen seen = here.seen();
    const Instant when = here.when;
    CellarView view;
    view.book = line();
    view.on = telling.day_text(when);
    for (const auto role : {ledger::VesselRole::solera, ledger::VesselRole::finishing, ledger::VesselRole::serving})
        for (std::size_t i = 0; i < cellar.vessels.size(); ++i)
            if (!cellar.vessels[i].retired && cellar.vessels[i].as.role == role)
                view.vessels.push_back(vessel_summary(seen, static_cast<int>(i)));
    for (std::size_t i = 0; i < cellar.runs.size(); ++i) view.runs.push_back(run_summary(seen, static_cast<int>(i)));
    const ledger::Totals totals = cellar.totals();
    view.in = totals.in;
    view.out = totals.out;
    view.on_hand = totals.on_hand;
    if (moment.is_now())
        for (DueLine& one : due_lines(seen, m_tables))
            if (view.today.size() < k_due_in_cellar && one.days <= k_days_in_cellar)
                view.today.push_back(std::move(one));
    if (moment.is_now()) view.findings = findings_at(here);
    return view;
}

Result<HoldingView> Book::show(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    const auto& cellar = here.cellar();
    const auto& telling = here.telling;
    const Seen seen = here.seen();
    engine::HolderRef holder;
    if (!name.empty() && name.front() == '#') {
        TRY(const ledger::Entry* entry, find_entry(m_entries, m_course.chains(), name));
        holder = {cellar.vessel_of(entry->key), cellar.run_of(entry->key)};
        if (holder.vessel < 0 && holder.run < 0)
            return fail(ErrorKind::not_found, "name",
                        name + " is no vessel and no run: " + telling.sentence(*entry) + ".", {},
                        "Look at it with `entries`.");
    } else {
        TRY(holder, holder_named(here, "name", name));
    }
    constexpr std::size_t k_entries_shown = 1000;
    HoldingView view = holding_view(seen, holder, k_entries_shown);
    view.book = line();
    if (view.run && moment.is_now())
        for (FindingView& finding : findings_at(here))
            if (finding.run == view.run->run) view.findings.push_back(std::move(finding));
    const bool lively = std::any_of(view.cultures.begin(), view.cultures.end(), [](const CultureLine& culture) {
        return culture.killer == ledger::KillerPhenotype::killer;
    });
    if (lively)
        view.cautions.push_back(
            {"culture.killer", "A killer yeast may live in it: never put this beer or its dregs into a solera."});
    if (view.run && view.run->left > 0)
        view.cautions.push_back(
            {"gas.store", "Keep these below the warmest store they were checked for; chill before opening."});
    return view;
}

Result<TraceView> Book::trace_back(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    const auto& cellar = here.cellar();
    const auto& telling = here.telling;
    const Instant when = here.when;
    TRY(const engine::HolderRef holder, holder_named(here, "name", name));
    const engine::BackTrace trace = engine::trace_back(cellar, holder);
    TraceView view;
    view.book = line();
    view.direction = "back";
    view.subject = name_of(cellar, holder);
    view.on = telling.day_text(when);
    const Volume total = total_of(cellar, holder);
    for (const auto& [index, share] : trace.lots) {
        const ledger::LotState& lot = cellar.lots[at_index(index)];
        std::string detail = brewed_text(lot);
        detail += (detail.empty() ? "entered " : ", entered ") + cellar.vessels[at_index(lot.vessel)].as.name + " " +
                  telling.day_text(lot.entered);
        view.sources.push_back({ledger::word(lot.kind), lot.name, detail, share,
                                Volume::from_litres(total.in_litres() * share), telling.day_text(lot.entered), ""});
        view.share_sum += share;
    }
    for (const int index : trace.additions) {
        const ledger::AdditionState& addition = cellar.additions[at_index(index)];
        view.additions.push_back({ledger::word(addition.as.kind), addition.as.name,
                                  "into " + cellar.vessels[at_index(addition.vessel)].as.name, 0.0, addition.as.brings,
                                  telling.day_text(addition.from), ""});
    }
    for (const ledger::CultureHere& present : trace.cultures) {
        const ledger::CultureState& culture = cellar.cultures[at_index(present.culture)];
        std::string detail =
            "came into " + cellar.vessels[at_index(culture.vessel)].as.name + " " + telling.day_text(culture.from);
        if (culture.as.killer == ledger::KillerPhenotype::killer)
            detail += std::string(", killer ") + ledger::word(culture.as.toxin);
        if (culture.as.diastatic == ledger::Diastatic::yes) detail += ", diastatic";
        view.cultures.push_back({"culture",
                                 culture.as.name,
                                 detail,
                                 0.0,
                                 {},
                                 telling.day_text(present.since),
                                 ledger::word(certainty_of(here.seen(), holder, present))});
    }
    for (const engine::PathStep& step : trace.path) {
        const std::string from = telling.day_text(step.from);
        const std::string to = telling.day_text(step.to);
        view.path.push_back({kind_of(step.through),
                             name_of(cellar, step.through),
                             from == to ? "flowed on " + from : "flowed on between " + from + " and " + to,
                             0.0,
                             {},
                             from,
                             ""});
    }
    return view;
}

Result<TraceView> Book::trace_forward(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    const auto& cellar = here.cellar();
    const auto& telling = here.telling;
    const Instant when = here.when;
    TRY(const Origin origin, find_origin(cellar, name));
    TraceView view;
    view.book = line();
    view.direction = "forward";
    view.on = telling.day_text(when);
    const auto holder_step = [&](engine::HolderRef holder) {
        return TraceStep{kind_of(holder),
                         name_of(cellar, holder),
                         "holds " + telling.volume(total_of(cellar, holder)),
                         0.0,
                         {},
                         "",
                         ""};
    };
    std::vector<int> lots = origin.lots;
    if (!origin.additions.empty()) {
        view.subject = cellar.additions[at_index(origin.additions.front())].as.name;
        for (const engine::HolderRef holder : engine::trace_additions(cellar, origin.additions))
            view.additions.push_back(holder_step(holder));
        for (std::size_t i = 0; i < cellar.lots.size(); ++i)
            if (std::find(origin.additions.begin(), origin.additions.end(), cellar.lots[i].addition) !=
                origin.additions.end())
                lots.push_back(static_cast<int>(i));
    } else if (!origin.cultures.empty()) {
        view.subject = cellar.cultures[at_index(origin.cultures.front())].as.name;
        for (const engine::CultureAt& found : engine::trace_cultures(cellar, origin.cultures)) {
            TraceStep step = holder_step(found.holder);
            step.certainty = ledger::word(certainty_of(here.seen(), found.holder, found.here));
            step.when = telling.day_text(found.here.since);
            view.cultures.push_back(std::move(step));
        }
    } else {
        view.subject = cellar.lots[at_index(lots.front())].name;
    }
    if (lots.empty()) return view;
    const engine::ForwardTrace trace = engine::trace_lots(cellar, lots);
    Volume entered;
    for (const int lot : lots) entered += cellar.lots[at_index(lot)].volume;
    for (const engine::WentTo& went : trace.on_hand) {
        TraceStep step = holder_step(went.holder);
        step.share = went.share_of_lot;
        step.volume = went.volume;
        step.detail =
            percent_text(went.share_there, 1) + " of the " + telling.volume(total_of(cellar, went.holder)) + " in it";
        view.share_sum += step.share;
        view.sources.push_back(std::move(step));
    }
    for (const auto& [cause, volume] : trace.gone) {
        const double share = volume.in_litres() / entered.in_litres();
        view.sources.push_back({"gone", cause, "left the cellar", share, volume, "", ""});
        view.share_sum += share;
    }
    return view;
}

Result<FruitView> Book::fruit(const FruitRequest& request) {
    TRY(const Look here, look(Moment{}));
    const auto& cellar = here.cellar();
    const auto& states = here.states();
    if (request.beer.empty()) {
        TRY(FruitView sum, fruit_sum(request, m_tables, gallons(), today()));
        sum.book = line();
        return sum;
    }
    TRY(const int vessel, find_vessel(cellar, "beer", request.beer));
    const engine::LiquidState& state = states.vessels[at_index(vessel)];
    if (!state.composition)
        return fail(ErrorKind::impossible, "beer", cellar.vessels[at_index(vessel)].as.name + " is empty.");
    engine::fruit::Beer beer;
    beer.volume = state.volume;
    if (!request.volume.empty()) {
        TRY(beer.volume, volume_from("volume", request.volume, state.volume, state.volume, gallons()));
    }
    beer.gravity = state.gravity()->mean;
    beer.abv = state.alcohol()->mean;
    if (!request.gravity.empty()) {
        TRY(const Decimal gravity, gravity_as_sg("gravity", request.gravity));
        beer.gravity = gravity.value();
    }
    if (!request.alcohol.empty()) {
        TRY(const Decimal alcohol, parse_alcohol("alcohol", request.alcohol));
        beer.abv = alcohol.value();
    }
    beer.cultures = gas_question_of(cellar, states, m_tables, {vessel, -1}).cultures;
    TRY(FruitView view, fruit_view(request, beer, m_tables, gallons(), today()));
    view.book = line();
    return view;
}

Result<GasCheckView> Book::gas(const GasRequest& request) {
    TRY(const Look here, look(Moment{}));
    const auto& cellar = here.cellar();
    const auto& states = here.states();
    if (request.beer.empty()) {
        TRY(GasCheckView sum, gas_sum(request, m_tables, gallons()));
        sum.book = line();
        return sum;
    }
    TRY(const engine::HolderRef holder, find_holder(cellar, "beer", request.beer));
    if (total_of(cellar, holder) == Volume{})
        return fail(ErrorKind::impossible, "beer", name_of(cellar, holder) + " is empty: there is nothing to check.");
    engine::package::GasQuestion question = gas_question_of(cellar, states, m_tables, holder);
    GasRequest figures = request;
    if (holder.run >= 0 && figures.container.empty())
        figures.container = cellar.runs[at_index(holder.run)].as.container;
    if (figures.container.empty() && figures.limit.empty())
        return fail(ErrorKind::bad_input, "container",
                    "Into what? Name a container such as bottle_330_heavy, or give the maker's --limit.");
    TRY_VOID(state_figures(question, figures, m_tables, gallons()));
    if (question.container == nullptr) question.container_name = "own container";
    if (holder.run >= 0) question.stage = engine::package::Stage::on_the_shelf;
    TRY(GasCheckView view, full_gas_view(question, m_tables, name_of(cellar, holder)));
    view.book = line();
    return view;
}

Result<DueView> Book::due(const std::string& within) {
    TRY(const Look here, look(Moment{}));
    DueView view;
    view.book = line();
    view.on = here.telling.day_text(here.when);
    TRY(view.within_days, parse_span("within", within));
    for (DueLine& one : due_lines(here.seen(), m_tables))
        if (one.days <= view.within_days) view.lines.push_back(std::move(one));
    return view;
}

Result<RoundView> Book::round() {
    TRY(const Look here, look(Moment{}));
    RoundView view;
    view.book = line();
    view.on = here.telling.day_text(here.when);
    for (std::size_t i = 0; i < here.cellar().vessels.size(); ++i) {
        const ledger::VesselState& vessel = here.cellar().vessels[i];
        if (!vessel.retired && (vessel.liquid.volume > Volume{} || !vessel.additions_inside.empty()))
            view.vessels.push_back(vessel_summary(here.seen(), static_cast<int>(i)));
    }
    std::stable_sort(view.vessels.begin(), view.vessels.end(), stands_before);
    return view;
}

Result<Names> Book::names() {
    TRY(const Look here, look(Moment{}));
    return Names{here.cellar()};
}

Result<LabelView> Book::label(const std::string& run, const std::string& beer_name) {
    TRY(const Look here, look(Moment{}));
    const auto& cellar = here.cellar();
    const Seen seen = here.seen();
    TRY(const int index, find_run(cellar, "run", run));
    LabelView view = label_of(seen, m_tables, index, beer_name);
    view.book = line();
    return view;
}

Result<BackupView> Book::backup(const std::string& path) {
    TRY_VOID(load());
    if (m_keepsafe == nullptr)
        return fail(ErrorKind::storage, path, "This book is kept in memory only and cannot be copied.");
    BackupView view;
    view.book = line();
    view.path = path;
    TRY(view.entries, m_keepsafe->backup_to(path));
    TRY(view.head, m_keepsafe->chain_head());
    return view;
}

}  // namespace undercroft::app
