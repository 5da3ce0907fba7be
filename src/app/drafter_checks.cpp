// What a sitting is held to before it is booked: gas of what is packaged, faults of what is packaged or moved.
#include <algorithm>

#include "app/drafter.hpp"
#include "app/faults.hpp"
#include "app/gas.hpp"

namespace undercroft::app {

using namespace ledger;

// What moves or is packaged although a fault stands against it. After the act is drafted, on what stood before it.
Result<void> Drafter::check_faults(const Act& act, const std::string& by) {
    const auto* package = std::get_if<PackageRun>(&act);
    const auto* move = std::get_if<MoveLiquid>(&act);
    if (package == nullptr && move == nullptr) return {};
    const Entry& drafted = m_drafts.back();
    const Place place = drafted.place;
    const EntryKey drafted_key = drafted.key;
    const Body body = drafted.body;
    if (package != nullptr) TRY_VOID(check_gas(*package, by));
    TRY(const auto standing, standing_or_say(course(), Scope{std::nullopt, place, std::nullopt}));
    const Telling words = telling();
    std::vector<FaultMeaning> against;
    const auto take = [&](const EntryKey& holder, auto forbids) {
        for (FaultMeaning& fault : faults_of(standing->cellar, m_in.tables, words, holder, place.at))
            if (forbids(fault)) against.push_back(std::move(fault));
    };
    EntryKey subject = drafted_key;
    if (package != nullptr) {
        take(std::get<Package>(body).from, [](const FaultMeaning& one) { return one.blocks_packaging; });
        for (const FaultMeaning& fault : against)
            if (fault.unsafe)
                return fail(ErrorKind::impossible, "fault", fault.words, {{"what to do", fault.action}},
                            "It is not packaged. If the fault was named in error, correct or void that tasting.");
    } else {
        const Move& moved = std::get<Move>(body);
        subject = moved.from;
        take(moved.from,
             [](const FaultMeaning& one) { return one.blocks_pull || one.blocks_return_to_solera || one.unsafe; });
        for (const Destination& to : moved.to)
            take(to.vessel, [](const FaultMeaning& one) { return one.blocks_refilling; });
    }
    if (against.empty()) return {};
    const std::string& why = package != nullptr ? package->acknowledge : move->acknowledge;
    if (why.empty()) {
        Error error = m_objection.value_or(Error{});
        error.kind = ErrorKind::impossible;
        if (error.where.empty()) error.where = "fault";
        if (!error.what.empty()) error.what += " ";
        error.what += against.front().words;
        for (const FaultMeaning& fault : against) error.facts.push_back({fault.name, fault.action});
        error.next_step =
            "Nothing was booked. Taste it again first, or book it as it is with --acknowledge \"why\". If the fault "
            "was named in error, correct or void that tasting.";
        m_objection = std::move(error);
        return {};
    }
    for (const FaultMeaning& fault : against) {
        Entry entry = new_entry(by);
        entry.body = Acknowledge{"fault." + fault.id, subject, why};
        append(std::move(entry));
    }
    return {};
}

Result<void> Drafter::check_gas(const PackageRun& act, const std::string& by) {
    const Entry& packaged = m_drafts.back();
    const Entry next = new_entry(by);
    // The run as it was filled: a correction may stand long before today.
    Place just_after = packaged.place;
    just_after.path += "/";
    TRY(const auto standing, standing_or_say(course(), Scope{std::nullopt, just_after, std::nullopt}));
    const Cellar& cellar = standing->cellar;
    const engine::StateBook& states = standing->states;
    const int run = cellar.run_of(packaged.key);
    engine::package::GasQuestion question = gas_question_of(cellar, states, m_in.tables, {-1, run});
    GasRequest figures;
    figures.container = act.container;
    figures.store = act.store;
    figures.given_away = act.given_away;
    figures.limit = act.limit;
    TRY_VOID(state_figures(question, figures, m_in.tables, m_in.facts.gallons));
    TRY(const engine::package::GasCheck check, engine::package::gas_check(question, m_in.tables));
    TRY(GasCheckView view, full_gas_view(check, question, m_in.tables, cellar.runs[at_index(run)].as.run));
    m_gas_checks.push_back(std::move(view));
    // The verdict is kept with what it rests on: what was known when the bottles were filled.
    Entry kept = next;
    kept.body = verdict_snapshot(check, packaged.key, act.limit);
    if (check.verdict == engine::package::Verdict::ready) {
        append(std::move(kept));
        return {};
    }
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
    append(std::move(kept));
    Entry entry = new_entry(by);
    entry.body = Acknowledge{std::string("gas.") + engine::package::word(check.verdict), packaged.key, act.acknowledge};
    append(std::move(entry));
    return {};
}

}  // namespace undercroft::app
