// A running solera changed: the turns to come, drafted and replayed as a sitting would be, and never booked.
#include <algorithm>
#include <cmath>

#include "app/ages.hpp"
#include "app/bodies.hpp"
#include "app/book.hpp"
#include "app/drafter.hpp"
#include "app/names.hpp"
#include "engine/age/turns.hpp"
#include "units/duration.hpp"

namespace undercroft::app {
namespace {

constexpr double k_ms_per_year = 31'557'600'000.0;

Instant later(Instant from, double years) {
    return Instant{from.ms + static_cast<std::int64_t>(std::llround(years * k_ms_per_year))};
}

// The vessel, then the one it was last refilled from, and so on up to the one that gets the new beer.
std::vector<int> chain_above(const ledger::Cellar& cellar, int vessel) {
    std::vector<int> chain{vessel};
    while (true) {
        const auto turns = engine::turns_of_vessel(cellar, chain.back());
        int above = -1;
        for (const engine::BookedTurn& turn : turns) {
            if (turn.refill_entry < 0) continue;
            const auto* move = std::get_if<ledger::Move>(&cellar.entries[at_index(turn.refill_entry)]->body);
            above = move == nullptr ? -1 : cellar.vessel_of(move->from);
        }
        const bool usable = above >= 0 && !cellar.vessels[at_index(above)].retired &&
                            cellar.vessels[at_index(above)].as.role == ledger::VesselRole::solera &&
                            std::find(chain.begin(), chain.end(), above) == chain.end();
        if (!usable) return chain;
        chain.push_back(above);
    }
}

// A book that goes on: each step is drafted and replayed like a sitting, at its own time, and kept in memory only.
class Future {
public:
    explicit Future(const DraftInputs& inputs)
        : m_inputs(inputs), m_surroundings(inputs.surroundings), m_entries(inputs.booked), m_course(m_entries) {}

    [[nodiscard]] Result<std::shared_ptr<const Standing>> standing_at(Instant when) {
        ledger::Scope scope;
        scope.until = when;
        auto standing = m_course.at(scope);
        if (standing) return *std::move(standing);
        return tl::unexpected(Telling{m_course.chains(), m_inputs.persons, m_inputs.zone, m_inputs.unit}.error_of(
            standing.error(), true));
    }
    [[nodiscard]] Result<void> act(Instant when, std::vector<Act> acts) {
        m_surroundings.now = [when] { return when; };
        Drafter drafter(DraftInputs{m_inputs.facts, m_entries, m_course, m_inputs.persons, m_inputs.zone,
                                    m_inputs.tables, m_surroundings, m_inputs.unit});
        SittingRequest request;
        request.acts = std::move(acts);
        TRY_VOID(drafter.draft(request));
        const std::size_t before = m_entries.size();
        const ledger::Entry* const place = m_entries.data();
        for (ledger::Entry entry : drafter.sitting().entries) {
            entry.sequence = m_entries.empty() ? 1 : m_entries.back().sequence + 1;
            entry.recorded = when;
            m_entries.push_back(std::move(entry));
        }
        if (m_entries.data() == place) {
            std::vector<const ledger::Entry*> more;
            for (std::size_t i = before; i < m_entries.size(); ++i) more.push_back(&m_entries[i]);
            m_course.add(more);
        } else {
            m_course = Course{m_entries};
        }
        return {};
    }

private:
    DraftInputs m_inputs;
    Surroundings m_surroundings;
    std::vector<ledger::Entry> m_entries;
    Course m_course;
};

struct ChangeWay {
    std::vector<std::string> names;  // drawn from first
    double share = 0.0;
    double interval_years = 0.0;
};

Result<ChangeSide> turns_ahead(Future& future, const ChangeWay& way, Instant first, int turns, const Zone& zone) {
    ChangeSide side;
    side.stages.assign(way.names.rbegin(), way.names.rend());
    side.share = way.share;
    side.interval_years = way.interval_years;
    double litres = 0.0;
    for (int n = 0; n < turns; ++n) {
        const Instant when = later(first, n * way.interval_years);
        TRY(const auto standing, future.standing_at(when));
        const ledger::Cellar& cellar = standing->cellar;
        TRY(const int index, find_vessel(cellar, "vessel", way.names.front()));
        const ledger::VesselState& vessel = cellar.vessels[at_index(index)];
        ChangeTurn turn;
        turn.day = iso_text(day_of(when, zone));
        const auto age = engine::age_of(cellar, vessel.liquid, when, zone, engine::AgeFrom::brew_day);
        if (!age)
            return fail(ErrorKind::impossible, vessel.as.name,
                        vessel.as.name + " holds no beer, so nothing can be pulled.");
        turn.age = *age;
        turn.pulled = Volume::from_ul(
            static_cast<std::int64_t>(std::floor(static_cast<double>(vessel.liquid.volume.ul()) * way.share)));
        std::vector<Act> acts;
        acts.emplace_back(LoseLiquid{vessel.as.name, exact_text_of(turn.pulled), "served"});
        for (std::size_t i = 0; i + 1 < way.names.size(); ++i) {
            MoveLiquid refill;
            refill.reason = ledger::Reason::refill;
            refill.from = way.names[i + 1];
            refill.to = {{way.names[i], ""}};
            refill.to_full = true;
            acts.emplace_back(std::move(refill));
        }
        EnterLot refill;
        refill.vessel = way.names.back();
        refill.name = "Refill of " + turn.day;
        refill.reason = ledger::Reason::refill;
        refill.to_full = true;
        acts.emplace_back(std::move(refill));
        TRY_VOID(future.act(when, std::move(acts)));
        TRY(const auto after, future.standing_at(when));
        turn.refilled = after->cellar.lots.back().volume;
        litres += turn.pulled.in_litres();
        side.turns.push_back(std::move(turn));
    }
    side.yearly_litres = litres / (turns * way.interval_years);
    return side;
}

}  // namespace

Result<ChangeView> Book::change(const ChangeRequest& request) {
    constexpr int k_usual_turns = 10;
    constexpr int k_most_turns = 40;
    TRY_VOID(load());
    Instant now;
    TRY(const auto standing, standing_at({}, now));
    const ledger::Cellar& cellar = standing->cellar;
    TRY(const int index, find_vessel(cellar, "vessel", request.vessel));
    const ledger::VesselState& vessel = cellar.vessels[at_index(index)];
    ChangeView view;
    view.vessel = vessel.as.name;
    if (request.share.empty() && request.every.empty() && request.add_stages.empty())
        return fail(ErrorKind::bad_input, "change",
                    "Change what? Say a new --share, a new --every, or --add-stage with a volume.");
    int turns = k_usual_turns;
    if (!request.turns.empty()) {
        TRY(turns, parse_count("turns", request.turns, 1, k_most_turns));
    }

    const auto booked = engine::turns_of_vessel(cellar, index);
    const auto usual = engine::usual_turn(booked);
    if (!usual && (request.usual_share.empty() || request.usual_every.empty()))
        return fail(ErrorKind::impossible, vessel.as.name,
                    "The book knows no two turns of " + vessel.as.name + ", so not what it is used to.", {},
                    "Say what it is used to: --usual-share \"a third\" --usual-every 8 months.");
    ChangeWay old_way;
    for (const int stage : chain_above(cellar, index)) old_way.names.push_back(cellar.vessels[at_index(stage)].as.name);
    if (usual) {
        old_way.share = usual->share;
        old_way.interval_years = usual->interval_years;
        view.usual = "the middle of its last " + std::to_string(usual->counted) + " turns";
    }
    if (!request.usual_share.empty()) {
        TRY(old_way.share, parse_share("usual-share", request.usual_share));
        view.usual = "as said";
    }
    if (!request.usual_every.empty()) {
        TRY(const Duration every, parse_duration("usual-every", request.usual_every));
        old_way.interval_years = every.in_years();
        view.usual = "as said";
    }
    ChangeWay new_way = old_way;
    if (!request.share.empty()) {
        TRY(new_way.share, parse_share("share", request.share));
    }
    if (!request.every.empty()) {
        TRY(const Duration every, parse_duration("every", request.every));
        new_way.interval_years = every.in_years();
    }
    std::vector<Act> additions;
    for (std::size_t i = 0; i < request.add_stages.size(); ++i) {
        TRY(const Volume volume, positive_volume("add-stage", request.add_stages[i], gallons()));
        RegisterVessel stage;
        stage.name = "New stage " + std::to_string(i + 1) + " above " + vessel.as.name;
        stage.capacity = exact_text_of(volume);
        stage.role = "solera";
        EnterLot fill;
        fill.vessel = stage.name;
        fill.name = "First fill of new stage " + std::to_string(i + 1);
        fill.volume = exact_text_of(volume);
        new_way.names.push_back(stage.name);
        additions.emplace_back(std::move(stage));
        additions.emplace_back(std::move(fill));
    }

    // The next turn is due an interval after the last refill, or now when that is past.
    Instant last = now;
    for (const engine::BookedTurn& turn : booked)
        if (turn.refill_entry >= 0) last = turn.refilled;
    const auto first_of = [&](const ChangeWay& way) {
        return booked.empty() ? later(now, way.interval_years) : std::max(now, later(last, way.interval_years));
    };
    const DraftInputs inputs{m_journal.facts(), m_entries,      m_course,   m_persons, m_zone,
                             m_tables,          m_surroundings, line().unit};
    Future as_it_is(inputs);
    TRY(view.old_way, turns_ahead(as_it_is, old_way, first_of(old_way), turns, m_zone));
    Future as_it_would_be(inputs);
    if (!additions.empty()) {
        TRY_VOID(as_it_would_be.act(now, std::move(additions)));
    }
    TRY(view.new_way, turns_ahead(as_it_would_be, new_way, first_of(new_way), turns, m_zone));
    constexpr double k_hard_stop = 0.6;
    if (new_way.share > k_hard_stop)
        view.cautions.push_back({"solera.share",
                                 "More than 60 % a pull: acid, age and culture cannot follow, and the "
                                 "old beer is soon gone (common practice, no source)."});
    view.book = line();
    return view;
}

}  // namespace undercroft::app
