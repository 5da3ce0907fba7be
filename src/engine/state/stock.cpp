#include "engine/state/stock.hpp"

#include <algorithm>
#include <cmath>

#include "base/index.hpp"
#include "engine/state/gauging.hpp"

namespace undercroft::engine {
namespace {

void widen(Stock& stock, double sd_litres) {
    stock.sd_litres = std::hypot(stock.sd_litres, sd_litres);
}

// A filling "to full" that did not come out as the book had it says how much is there.
void filled_to_full(Stock& stock, const ledger::VesselState& vessel, const ledger::FullSettlement& settlement,
                    Instant when) {
    if (settlement == ledger::FullSettlement{}) return;
    stock.sd_litres = k_full_sd * vessel.full().in_litres();
    stock.reckoned = when;
}

}  // namespace

void follow(std::vector<Stock>& stock, const ledger::Cellar& cellar, const ledger::Flow& flow) {
    const Instant when = cellar.entries[at(flow.entry)]->at();
    double poured_sd = k_poured_sd * flow.volume.in_litres();
    if (flow.from_vessel >= 0) {
        Stock& from = stock[at(flow.from_vessel)];
        from.volume -= flow.volume;
        if (from.volume == Volume{}) {
            // All there was: known as well as it was known before.
            if (flow.kind == ledger::FlowKind::move) poured_sd = from.sd_litres;
            from.sd_litres = 0.0;
            from.reckoned.reset();
        } else {
            widen(from, poured_sd);
            if (flow.kind == ledger::FlowKind::loss && flow.cause == ledger::LossCause::evaporation)
                from.reckoned = when;
        }
    }
    if (flow.to_vessel >= 0) {
        Stock& to = stock[at(flow.to_vessel)];
        if (to.volume == Volume{}) to.reckoned = when;
        to.volume += flow.volume;
        widen(to, poured_sd);
    }
}

void follow(std::vector<Stock>& stock, const ledger::Cellar& cellar, const ledger::Entry& entry) {
    if (const auto* settle = std::get_if<ledger::Settle>(&entry.body)) {
        const int index = cellar.vessel_of(settle->subject);
        if (index < 0) return;
        Stock& there = stock[at(index)];
        there.sd_litres = there.volume == Volume{} ? 0.0 : settle->found_sd.in_litres();
        if (there.volume > Volume{}) there.reckoned = entry.at();
        there.last = StockTake{entry.at(), entry.key, settle->found_by, settle->found, settle->found_sd, there.volume};
    } else if (const auto* lot = std::get_if<ledger::LotEnters>(&entry.body)) {
        const int index = cellar.vessel_of(lot->vessel);
        if (index >= 0) filled_to_full(stock[at(index)], cellar.vessels[at(index)], lot->settlement, entry.at());
    } else if (const auto* move = std::get_if<ledger::Move>(&entry.body)) {
        const int index = move->to.empty() ? -1 : cellar.vessel_of(move->to.front().vessel);
        if (index >= 0) filled_to_full(stock[at(index)], cellar.vessels[at(index)], move->settlement, entry.at());
    }
}

std::optional<LikelyEvaporation> likely_evaporation(const ledger::VesselJoins& vessel, const Stock& stock,
                                                    Instant when) {
    if (stock.volume == Volume{} || !stock.reckoned || when <= *stock.reckoned) return std::nullopt;
    double share = 0.0;
    constexpr double k_barrel_litres = 225.0;
    if (vessel.material == "oak")
        share = 0.04 * std::cbrt(k_barrel_litres / vessel.capacity.in_litres());
    else if (vessel.material == "plastic")
        share = 0.01;
    else if (vessel.material == "steel" || vessel.material == "glass")
        share = 0.003;
    else
        return std::nullopt;
    LikelyEvaporation likely;
    likely.share_a_year = share;
    likely.since = *stock.reckoned;
    const double litres = stock.volume.in_litres();
    likely.litres = std::min(litres, litres * share * years_between(*stock.reckoned, when));
    likely.low = likely.litres / 2.0;
    likely.high = std::min(litres, likely.litres * 2.0);
    return likely;
}

}  // namespace undercroft::engine
