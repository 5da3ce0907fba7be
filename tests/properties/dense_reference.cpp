#include "tests/properties/dense_reference.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace undercroft::testing {
namespace {

using namespace ledger;

class Dense {
public:
    explicit Dense(const std::vector<Entry>& entries) {
        std::map<std::string, const Entry*> by_key;
        std::set<std::string> replaced;
        for (const Entry& entry : entries) {
            by_key[entry.key.text()] = &entry;
            if (entry.supersedes) replaced.insert(entry.supersedes->text());
        }
        for (const Entry& entry : entries) {
            const Entry* first = &entry;
            while (first->supersedes) first = by_key.at(first->supersedes->text());
            m_first[entry.key.text()] = first->key.text();
            if (!replaced.contains(entry.key.text())) m_order.push_back(&entry);
        }
        std::sort(m_order.begin(), m_order.end(), [](const Entry* a, const Entry* b) {
            return std::pair{a->place.at.ms, a->place.path} < std::pair{b->place.at.ms, b->place.path};
        });
    }

    DenseCellar run() {
        for (const Entry* entry : m_order) {
            m_own = m_first.at(entry->key.text());
            std::visit([this](const auto& body) { happen(body); }, entry->body);
        }
        return std::move(m_cellar);
    }

private:
    DenseHolder& holder(const EntryKey& key) { return m_cellar.holders[m_first.at(key.text())]; }

    static void take(DenseHolder& from, std::int64_t ul) {
        for (auto& [name, part] : from.parts)
            part *= static_cast<long double>(from.ul - ul) / static_cast<long double>(from.ul);
        from.ul -= ul;
    }
    static void empty_leaves_residue(DenseHolder& holder) {
        if (holder.ul != 0) return;
        holder.parts.clear();
        for (auto& [group, amount] : holder.allergens) amount.reset();
    }
    // `coming` as it was when the act began.
    static void pour(DenseHolder& there, const DenseHolder& coming, std::int64_t ul) {
        if (ul == 0) return;
        const auto share = static_cast<long double>(ul) / static_cast<long double>(coming.ul);
        for (const auto& [name, part] : coming.parts) there.parts[name] += part * share;
        const auto present = static_cast<long double>(there.ul);
        const auto poured = static_cast<long double>(ul);
        std::set<std::string> groups;
        for (const auto& one : there.allergens) groups.insert(one.first);
        for (const auto& one : coming.allergens) groups.insert(one.first);
        const auto amount_in = [](const DenseHolder& one, const std::string& group) -> std::optional<long double> {
            const auto found = one.allergens.find(group);
            return found == one.allergens.end() ? 0.0L : found->second;
        };
        for (const std::string& group : groups) {
            const auto before = amount_in(there, group);
            const auto added = amount_in(coming, group);
            there.allergens[group] = before && added
                                         ? std::optional{(*before * present + *added * poured) / (present + poured)}
                                         : std::nullopt;
        }
        there.ul += ul;
    }
    void bring(DenseHolder& there, const std::string& what, std::int64_t ul, const std::vector<Allergen>& allergens) {
        DenseHolder fresh;
        fresh.ul = ul;
        fresh.parts[m_own + "/" + what] = static_cast<long double>(ul);
        for (const Allergen& one : allergens)
            fresh.allergens[one.group] =
                one.mg_per_litre ? std::optional<long double>{one.mg_per_litre->value()} : std::nullopt;
        pour(there, fresh, ul);
        m_cellar.in += ul;
    }
    // Air takes the water.
    static void dry(DenseHolder& from, std::int64_t ul) {
        if (ul == 0 || ul >= from.ul) return;
        for (auto& [group, amount] : from.allergens)
            if (amount) *amount = *amount * static_cast<long double>(from.ul) / static_cast<long double>(from.ul - ul);
    }
    // Put into it without liquid.
    static void put_in(DenseHolder& there, const std::vector<Allergen>& allergens) {
        for (const Allergen& one : allergens) {
            const auto [spot, is_new] = there.allergens.try_emplace(one.group, 0.0L);
            spot->second = spot->second && one.mg_per_litre && there.ul > 0
                               ? std::optional<long double>{*spot->second + one.mg_per_litre->value()}
                               : std::nullopt;
        }
    }
    void lose(DenseHolder& from, std::int64_t ul) {
        if (ul == 0) return;
        take(from, ul);
        m_cellar.out += ul;
    }
    void settle(DenseHolder& there, const FullSettlement& settlement) {
        dry(there, settlement.evaporation.ul());
        lose(there, settlement.evaporation.ul());
        if (settlement.evaporation > Volume{}) empty_leaves_residue(there);
        if (settlement.found == Volume{}) return;
        const auto allergens = there.allergens;
        bring(there, "found", settlement.found.ul(), {});
        there.allergens = allergens;  // found liquid is as the vessel's own
    }

    void happen(const VesselJoins&) { m_cellar.holders[m_own]; }
    void happen(const LotEnters& body) {
        DenseHolder& there = holder(body.vessel);
        settle(there, body.settlement);
        bring(there, "lot", body.volume.ul(), body.allergens);
    }
    void happen(const Move& body) {
        DenseHolder& from = holder(body.from);
        const DenseHolder leaving = from;
        for (const Destination& to : body.to) {
            settle(holder(to.vessel), body.settlement);
            take(from, to.volume.ul());
            pour(holder(to.vessel), leaving, to.volume.ul());
        }
        lose(from, body.loss.ul());
        empty_leaves_residue(from);
    }
    void happen(const Loss& body) {
        if (body.cause == LossCause::evaporation) dry(holder(body.vessel), body.volume.ul());
        lose(holder(body.vessel), body.volume.ul());
        empty_leaves_residue(holder(body.vessel));
    }
    void happen(const Addition& body) {
        DenseHolder& there = holder(body.vessel);
        if (body.brings > Volume{}) {
            bring(there, "addition", body.brings.ul(), body.allergens);
        } else {
            put_in(there, body.allergens);
        }
    }
    void happen(const Treat& body) { put_in(holder(body.subject), body.allergens); }
    void happen(const Reading& body) { sample(body.subject, body.sample); }
    void happen(const Tasting& body) { sample(body.subject, body.sample); }
    void sample(const EntryKey& subject, Volume volume) {
        DenseHolder& there = holder(subject);
        if (there.is_run || volume == Volume{}) return;
        lose(there, volume.ul());
        empty_leaves_residue(there);
    }
    void happen(const Package& body) {
        DenseHolder& from = holder(body.from);
        const DenseHolder leaving = from;
        const std::int64_t beer = body.fill.ul() * body.count - body.priming_volume.ul();
        DenseHolder& run = m_cellar.holders[m_own];
        run.is_run = true;
        run.fill = body.fill.ul();
        take(from, beer);
        pour(run, leaving, beer);
        if (body.priming_volume > Volume{}) bring(run, "priming", body.priming_volume.ul(), {});
        lose(from, body.loss.ul());
        empty_leaves_residue(from);
    }
    void happen(const Take& body) {
        DenseHolder& run = holder(body.run);
        const DenseHolder as_packaged = run;
        const std::int64_t ul = run.fill * body.count;
        const auto parts = run.parts;
        take(run, ul);
        if (run.ul == 0) run.parts = parts;  // an empty run still tells what was in it
        if (body.cause == TakeCause::returned)
            pour(holder(body.vessel), as_packaged, ul);
        else
            m_cellar.out += ul;
    }
    void happen(const Settle& body) {
        DenseHolder& there = holder(body.subject);
        if (there.is_run) {
            const auto parts = there.parts;
            lose(there, there.fill * body.missing_count);
            if (there.ul == 0) there.parts = parts;
            if (body.surplus_count == 0) return;
            if (there.ul == 0) there.parts.clear();
            const auto allergens = there.allergens;
            bring(there, "found", there.fill * body.surplus_count, {});
            there.allergens = allergens;
            return;
        }
        // Only water leaves by evaporation; what is lost takes its allergens with it.
        if (body.cause != LossCause::evaporation && body.missing > Volume{}) {
            lose(there, body.missing.ul());
            empty_leaves_residue(there);
            return settle(there, {Volume{}, body.surplus});
        }
        settle(there, {body.missing, body.surplus});
    }
    void happen(const Care& body) {
        if (body.vessel.empty()) return;
        DenseHolder left;
        if (body.method == CareMethod::emptied || body.method == CareMethod::rinsed)
            for (const auto& [group, amount] : holder(body.vessel).allergens) left.allergens[group] = std::nullopt;
        holder(body.vessel) = left;
    }
    template <class Body>
    void happen(const Body&) {}

    std::map<std::string, std::string> m_first;
    std::vector<const Entry*> m_order;
    std::string m_own;
    DenseCellar m_cellar;
};

}  // namespace

DenseCellar dense_cellar_of(const std::vector<Entry>& entries) {
    return Dense{entries}.run();
}

std::vector<std::string> dense_lot_names(const Cellar& cellar) {
    std::vector<std::string> names;
    for (const LotState& lot : cellar.lots)
        names.push_back(lot.key.text() + (lot.priming ? "/priming" : lot.addition >= 0 ? "/addition" : "/lot"));
    for (const Flow& flow : cellar.flows)
        if (flow.kind == FlowKind::found) {
            const auto index = static_cast<std::size_t>(flow.lot);
            names[index] = cellar.lots[index].key.text() + "/found";
        }
    return names;
}

std::vector<std::string> dense_culture_names(const Cellar& cellar) {
    std::vector<std::string> names;
    std::map<std::string, int> seen;
    for (const CultureState& culture : cellar.cultures) {
        const std::string key = culture.key.text();
        names.push_back(key + "/" + std::to_string(seen[key]++));
    }
    return names;
}

}  // namespace undercroft::testing
