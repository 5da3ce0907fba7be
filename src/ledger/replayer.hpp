// One replay at work: takes a cellar on, entry by entry. Private to the files replay*.cpp.
//
// Holds: what every body does to vessels, runs and flows. replay.cpp has what is common to them and the bodies that
// move liquid, replay_bottles.cpp those about runs, replay_care.cpp stock-takes and what ends or proves a culture.
#pragma once

#include <string>
#include <vector>

#include "base/index.hpp"
#include "ledger/replay.hpp"

namespace undercroft::ledger {

using Step = tl::expected<void, ReplayFault>;

#define STEP(expression)                                                       \
    do {                                                                       \
        if (Step step_result = (expression); !step_result) return step_result; \
    } while (false)

template <class T>
[[nodiscard]] int last_of(const std::vector<T>& list) {
    return static_cast<int>(list.size()) - 1;
}

class Replayer {
public:
    explicit Replayer(Cellar& cellar) : m_cellar(cellar) {}

    Step take(const Entry& entry);

private:
    // --- helpers -----------------------------------------------------------------------------
    [[nodiscard]] Step fault(FaultKind kind, std::string what, Volume wanted = {}, Volume held = {}, int count = 0,
                             int held_count = 0) const;

    // First of the chain that the entry at hand belongs to.
    [[nodiscard]] int own_first() const { return m_cellar.chains->first_of(m_entry->key); }
    [[nodiscard]] EntryKey own_key() const { return m_cellar.chains->entry(own_first()).key; }
    [[nodiscard]] Step not_found(const EntryKey& key) const;

    VesselState& vessel(int index) { return m_cellar.vessels[at(index)]; }
    RunState& run_at(int index) { return m_cellar.runs[at(index)]; }

    // The vessel an entry names: there, joined and not retired.
    Step find_vessel(const EntryKey& key, int& index);

    Step find_run(const EntryKey& key, int& index);

    Step find_subject(const EntryKey& key, int& vessel_index, int& run_index);

    void touch_vessel(int index);
    void touch_run(int index);

    void leave_residue_if_empty(VesselState& state);

    Step take_out(int from, Volume amount, FlowKind kind, LossCause cause = LossCause::unknown);

    // --- gear --------------------------------------------------------------------------------
    void touch(int index, const GearNames& names);
    void touch_bottles(int index, const GearNames& names);

    // Pours `coming` (volume `amount`) into a vessel; `flow` says where it came from.
    Step pour(int into, const Liquid& coming, Volume amount, Flow flow);

    void blend_into(Liquid& there, const Liquid& coming, Volume amount);

    [[nodiscard]] Volume solids_in(const VesselState& state) const;

    int new_lot(LotState lot);

    void bring_cultures(int into, const std::vector<Culture>& cultures, Liquid& liquid);

    // Before a filling "to full": what had evaporated unseen, or what was found too much.
    Step settle_before(int into, const FullSettlement& settlement);

    // Liquid that turned out to be there, as the vessel's own beer.
    Step find_more(int into, Volume amount);

    // --- entries -----------------------------------------------------------------------------
    Step apply(const VesselJoins& body);
    Step apply(const VesselLeaves& body);
    Step apply(const LotEnters& body);
    Step apply(const Move& body);
    Step apply(const Loss& body);
    Step apply(const Addition& body);
    Step apply(const Lift& body);
    Step apply(const Pitch& body);
    Step apply(const Reading& body) { return look_at(body.subject, body.sample, body.gear); }
    Step apply(const Tasting& body) { return look_at(body.subject, body.sample, body.gear); }

    Step look_at(const EntryKey& subject, Volume sample, const GearNames& gear);

    Step apply(const Settle& body);

    Step settle_vessel(int index, const Settle& body);

    // What is poured is written down within a twentieth (common practice, no source).
    static Volume most_ever_in(const VesselState& state);

    Step count_run(int index, const Settle& body);

    Step apply(const Calibrate&);
    Step apply(const LoggerFile& body) { return mention(body.subject); }

    Step apply(const Package& body);
    Step apply(const Take& body);
    Step apply(const Care& body);
    Step apply(const Treat& body);

    static Fate fate_of(const Treat& body, const Culture& culture);

    Step apply(const Confirm& body);
    Step apply(const Note& body) { return mention(body.subject); }
    Step apply(const Snapshot& body) { return mention(body.subject); }
    Step apply(const Acknowledge& body) { return mention(body.subject); }
    Step apply(const Interval& body) { return mention(body.subject); }
    Step apply(const Target& body) { return mention(body.subject); }
    Step apply(const Decide& body) { return mention(body.subject); }

    Step mention(const EntryKey& subject);

    Step apply(const Void&) { return {}; }     // never live
    Step apply(const Unknown&) { return {}; }  // the book is read-only; it answers as far as it knows

    Cellar& m_cellar;
    const Entry* m_entry = nullptr;
    int m_index = 0;
};

}  // namespace undercroft::ledger
