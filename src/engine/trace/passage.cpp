#include "engine/trace/passage.hpp"

#include <algorithm>
#include <cstddef>
#include <map>

#include "base/index.hpp"

namespace undercroft::engine {
namespace {

// What a vessel or run holds, and how much of that has been through the holding asked about.
struct Held {
    double litres = 0.0;
    double passed = 0.0;

    [[nodiscard]] double share() const { return litres > 0.0 ? passed / litres : 0.0; }
};

class Follower {
public:
    Follower(const ledger::Cellar& cellar, HolderRef of)
        : m_cellar(cellar),
          m_of(of),
          m_vessels(cellar.vessels.size()),
          m_runs(cellar.runs.size()),
          m_bottled(cellar.runs.size(), 0.0) {}

    Passage follow() {
        for (const ledger::Flow& flow : m_cellar.flows) take(flow);
        return told();
    }

private:
    [[nodiscard]] bool is_asked(HolderRef holder) const { return holder == m_of; }
    Held* held(HolderRef holder) {
        if (holder.vessel >= 0) return &m_vessels[at(holder.vessel)];
        return holder.run >= 0 ? &m_runs[at(holder.run)] : nullptr;
    }

    void take(const ledger::Flow& flow) {
        const HolderRef from{flow.from_vessel, flow.from_run};
        const HolderRef to{flow.to_vessel, flow.to_run};
        const double litres = flow.volume.in_litres();
        Held* const source = held(from);
        const double passed = source == nullptr ? 0.0 : is_asked(from) ? litres : litres * source->share();
        if (source != nullptr) {
            source->litres -= litres;
            source->passed -= passed;
            if (source->litres < 1e-9) *source = {};
        }
        Held* const target = held(to);
        if (target != nullptr) {
            target->litres += litres;
            target->passed += is_asked(to) ? litres : passed;
        }
        // New to the holding is what had not been there before.
        if (is_asked(to) && litres > passed) m_entered.emplace_back(&flow, litres - passed);
        // Bottles count as filled, not as drunk: they are asked about one run at a time.
        const bool of_a_run = m_of.run >= 0;
        if (flow.to_run >= 0 && !of_a_run) m_bottled[at(flow.to_run)] += passed;
        if (flow.from_run >= 0 && flow.to_vessel >= 0 && !of_a_run) m_bottled[at(flow.from_run)] -= passed;
        if (target == nullptr && passed > 0.0 && (flow.from_run < 0 || of_a_run)) m_out[cause_of(flow)] += passed;
    }

    [[nodiscard]] std::string cause_of(const ledger::Flow& flow) const {
        if (flow.from_run < 0) return ledger::word(flow.cause);
        const auto* taken = std::get_if<ledger::Take>(&m_cellar.entries[at(flow.entry)]->body);
        return taken == nullptr ? "bottles" : ledger::word(taken->cause);
    }

    [[nodiscard]] Passage told() const {
        Passage passage;
        std::vector<double> entered(m_cellar.lots.size(), 0.0);
        std::vector<ledger::NodeId> nodes;
        for (const auto& [flow, litres] : m_entered) nodes.push_back(flow->node);
        const std::size_t lots = m_cellar.lots.size();
        const std::vector<double> rows = m_cellar.graph.share_rows(nodes, lots);
        for (std::size_t i = 0; i < m_entered.size(); ++i)
            for (std::size_t lot = 0; lot < lots; ++lot) entered[lot] += rows[i * lots + lot] * m_entered[i].second;
        for (std::size_t lot = 0; lot < lots; ++lot)
            if (const Volume volume = Volume::from_litres(entered[lot]); volume > Volume{})
                passage.lots.push_back({static_cast<int>(lot), volume});
        const auto keep = [&](HolderRef holder, double litres, std::vector<PassedInto>& into) {
            if (const Volume volume = Volume::from_litres(litres); volume > Volume{} && !is_asked(holder))
                into.push_back({holder, volume});
        };
        for (std::size_t i = 0; i < m_vessels.size(); ++i)
            keep({static_cast<int>(i), -1}, m_vessels[i].passed, passage.vessels);
        for (std::size_t i = 0; i < m_runs.size(); ++i) keep({-1, static_cast<int>(i)}, m_bottled[i], passage.runs);
        passage.here =
            m_of.run >= 0 ? m_cellar.runs[at(m_of.run)].liquid.volume : m_cellar.vessels[at(m_of.vessel)].liquid.volume;
        for (const auto& [cause, litres] : m_out) passage.out.push_back({cause, Volume::from_litres(litres)});
        const auto by_volume = [](auto member) {
            return [member](const auto& a, const auto& b) { return a.*member > b.*member; };
        };
        std::stable_sort(passage.lots.begin(), passage.lots.end(), by_volume(&PassedLot::entered));
        std::stable_sort(passage.vessels.begin(), passage.vessels.end(), by_volume(&PassedInto::volume));
        std::stable_sort(passage.runs.begin(), passage.runs.end(), by_volume(&PassedInto::volume));
        std::stable_sort(passage.out.begin(), passage.out.end(), by_volume(&PassedOut::volume));
        return passage;
    }

    const ledger::Cellar& m_cellar;
    HolderRef m_of;
    std::vector<Held> m_vessels;
    std::vector<Held> m_runs;
    std::vector<double> m_bottled;
    std::vector<std::pair<const ledger::Flow*, double>> m_entered;
    std::map<std::string, double> m_out;
};

}  // namespace

Passage passage_of(const ledger::Cellar& cellar, HolderRef of) {
    return Follower(cellar, of).follow();
}

}  // namespace undercroft::engine
