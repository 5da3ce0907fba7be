#include "app/faults.hpp"

#include <algorithm>
#include <map>

#include "app/bodies.hpp"
#include "app/names.hpp"

namespace undercroft::app {
namespace {

namespace taste = engine::taste;
using taste::FaultAnswer;

struct Looked {
    std::vector<taste::FaultLook> looks;
    std::string origin;  // key of where it was named
};

class FaultsGone {
public:
    FaultsGone(const tables::Tables& tables, const Telling& telling, std::map<std::string, std::string> own)
        : m_tables(tables), m_telling(telling), m_own(std::move(own)) {}

    // The vessel ran empty before this came: only what sticks to a vessel is still there.
    void filled_anew(const std::string& key) {
        const auto here = m_of.find(key);
        if (here == m_of.end()) return;
        std::erase_if(here->second, [&](const auto& one) { return !row(one.first).blocks_refilling; });
    }

    void take(const ledger::Entry& entry) {
        const int day = day_number(entry.at());
        if (const auto* tasting = std::get_if<ledger::Tasting>(&entry.body)) {
            auto& here = m_of[tasting->subject.text()];
            std::set<std::string> named;
            for (const std::string& fault : tasting->faults) named.insert(m_tables.fault_id(fault));
            for (auto& [id, looked] : here)
                if (!named.contains(id)) looked.looks.push_back({day, false});
            for (const std::string& id : named) {
                Looked& looked = here[id];
                looked.looks.push_back({day, true});
                looked.origin = tasting->subject.text();
            }
            if (here.empty()) m_of.erase(tasting->subject.text());
        } else if (const auto* move = std::get_if<ledger::Move>(&entry.body)) {
            for (const ledger::Destination& to : move->to) carry(move->from.text(), to.vessel.text());
        } else if (const auto* package = std::get_if<ledger::Package>(&entry.body)) {
            carry(package->from.text(), entry.key.text());
        } else if (const auto* care = std::get_if<ledger::Care>(&entry.body)) {
            if (care->kill || !care->method) m_of.erase(care->vessel.text());
        }
    }

    [[nodiscard]] const std::map<std::string, Looked>& of(const std::string& key) const {
        static const std::map<std::string, Looked> k_none;
        const auto found = m_of.find(key);
        return found == m_of.end() ? k_none : found->second;
    }

    [[nodiscard]] tables::Fault row(const std::string& id) const {
        if (const auto known = m_tables.find_fault(id)) return **known;
        const auto own = m_own.find(id);
        return own_fault(id, own == m_own.end() ? std::string() : own->second);
    }

private:
    [[nodiscard]] int day_number(Instant at) const {
        return int(std::chrono::sys_days(day_of(at, m_telling.zone)).time_since_epoch().count());
    }

    void carry(const std::string& from, const std::string& to) {
        const auto source = m_of.find(from);
        if (source == m_of.end() || from == to) return;
        for (const auto& [id, looked] : source->second) {
            const auto standing = taste::standing_of(row(id), looked.looks);
            if (!standing || !standing->stands()) continue;
            Looked& there = m_of[to][id];
            const auto held = taste::standing_of(row(id), there.looks);
            // What stands there already and was named later is not shortened.
            if (held && held->stands() && held->last_named >= standing->last_named) continue;
            there = looked;
        }
    }

    const tables::Tables& m_tables;
    const Telling& m_telling;
    std::map<std::string, std::string> m_own;
    std::map<std::string, std::map<std::string, Looked>> m_of;  // by vessel or run, then by fault
};

std::string iso(int day) {
    return iso_text(Day(std::chrono::sys_days(std::chrono::days(day))));
}

std::string words_for(const FaultMeaning& it, const std::string& today) {
    const std::string last = " It was last named on " + it.last_named + (it.from.empty() ? "" : " in " + it.from) + ".";
    switch (it.answer) {
        case FaultAnswer::over:
            return {};
        case FaultAnswer::dump:
            return it.name + ": not safe. Do not taste it further and give it to nobody." + last;
        case FaultAnswer::treat:
            return it.name + ": time alone does not mend it." + last;
        case FaultAnswer::isolate:
        case FaultAnswer::wait:
            break;
    }
    std::string text = it.answer == FaultAnswer::isolate
                           ? it.name + ": keep it apart; nothing of it goes into other beer."
                           : it.name + ": wait.";
    text += last;
    if (it.next_clear.empty()) return text + " Time does not mend it.";
    text += today > it.likely_high
                ? " It was usually to be gone by " + it.likely_high + ": look for what keeps it going."
                : " It is usually gone between " + it.likely_low + " and " + it.likely_high + ".";
    text += it.clear == 0 ? " Two clear tastings at least four weeks apart end it."
                          : " One clear tasting is there; a second from " + it.next_clear + " on ends it.";
    return text;
}

}  // namespace

const char* word(FaultAnswer answer) {
    switch (answer) {
        case FaultAnswer::over:
            return "over";
        case FaultAnswer::wait:
            return "wait";
        case FaultAnswer::treat:
            return "treat";
        case FaultAnswer::isolate:
            return "isolate";
        case FaultAnswer::dump:
            return "dump";
    }
    return "";
}

tables::Fault own_fault(const std::string& name, const std::string& explanation) {
    tables::Fault it;
    it.id = it.name = name;
    it.smells_like = explanation;
    it.mends_with_time = true;
    it.mend_low_weeks = 4.0;
    it.mend_high_weeks = 52.0;
    it.blocks_packaging = true;
    it.action =
        "nobody else knows this fault: wait, taste again, and package only after two clear tastings a month apart";
    it.source = "this book";
    return it;
}

std::map<std::string, std::string> own_words(const ledger::Cellar& cellar) {
    std::map<std::string, std::string> all;
    for (const ledger::Entry* entry : cellar.entries)
        if (const auto* tasting = std::get_if<ledger::Tasting>(&entry->body))
            for (const auto& [name, explanation] : tasting->defines) all[name] = explanation;
    return all;
}

std::vector<FaultMeaning> faults_of(const ledger::Cellar& cellar, const tables::Tables& tables, const Telling& telling,
                                    const ledger::EntryKey& holder, Instant when) {
    FaultsGone gone(tables, telling, own_words(cellar));
    auto flow = cellar.flows.begin();
    for (std::size_t i = 0; i < cellar.entries.size() && cellar.entries[i]->at() <= when; ++i) {
        for (; flow != cellar.flows.end() && at_index(flow->entry) <= i; ++flow)
            if (flow->to_vessel >= 0 && flow->present == Volume{})
                gone.filled_anew(cellar.vessels[at_index(flow->to_vessel)].key.text());
        gone.take(*cellar.entries[i]);
    }
    const std::string today = telling.day_text(when);
    std::vector<FaultMeaning> all;
    for (const auto& [id, looked] : gone.of(holder.text())) {
        const tables::Fault row = gone.row(id);
        const auto standing = taste::standing_of(row, looked.looks);
        if (!standing || !standing->stands()) continue;
        FaultMeaning it;
        it.id = row.id;
        it.name = row.name;
        it.answer = standing->answer;
        it.first_named = iso(standing->first_named);
        it.last_named = iso(standing->last_named);
        it.clear = standing->clear;
        if (standing->next_clear) it.next_clear = iso(*standing->next_clear);
        if (standing->likely_low) it.likely_low = iso(*standing->likely_low);
        if (standing->likely_high) it.likely_high = iso(*standing->likely_high);
        if (looked.origin != holder.text()) {
            for (const auto& vessel : cellar.vessels)
                if (vessel.key.text() == looked.origin) it.from = vessel.as.name;
            for (const auto& run : cellar.runs)
                if (run.key.text() == looked.origin) it.from = run.as.run;
        }
        it.blocks_pull = row.blocks_pull;
        it.blocks_packaging = row.blocks_packaging;
        it.blocks_refilling = row.blocks_refilling;
        it.blocks_return_to_solera = row.blocks_return_to_solera;
        it.unsafe = row.unsafe;
        it.action = row.action;
        it.confirm_how = row.confirm_how;
        it.caution = row.caution;
        it.source = std::string(1, row.mark) + ": " + row.source;
        it.words = words_for(it, today);
        all.push_back(std::move(it));
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const FaultMeaning& a, const FaultMeaning& b) { return a.answer > b.answer; });
    return all;
}

}  // namespace undercroft::app
