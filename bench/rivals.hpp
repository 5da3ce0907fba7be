// Four ways to keep the make-up of every vessel while liquid moves. Each replays a list of movements and then gives
// the share of every lot in a vessel, as (lot, share) pairs in order of lots.
#pragma once

#include <algorithm>
#include <span>
#include <unordered_map>
#include <utility>
#include <vector>

#include "bench/movements.hpp"
#include "ledger/mix_graph.hpp"

namespace undercroft::bench {

using LotShare = std::pair<int, double>;
using LotShares = std::vector<LotShare>;

inline std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

// What all of them have in common: the volumes.
class Volumes {
public:
    explicit Volumes(int vessels) : m_volumes(at(vessels)) {}
    [[nodiscard]] Volume of(int vessel) const { return m_volumes[at(vessel)]; }
    // Books a movement; gives poured / (poured + present) of its target.
    double move(const Movement& movement) {
        if (movement.from >= 0) m_volumes[at(movement.from)] -= movement.volume;
        if (movement.to < 0) return 0.0;
        m_volumes[at(movement.to)] += movement.volume;
        return static_cast<double>(movement.volume.ul()) / static_cast<double>(m_volumes[at(movement.to)].ul());
    }

private:
    std::vector<Volume> m_volumes;
};

// A vessel is a list of shares, sorted by lot. A pull changes nothing in it.
class SortedVectors {
public:
    explicit SortedVectors(const Movements& book) : m_volumes(book.vessels), m_shares(at(book.vessels)) {}
    void replay(const Movements& book) {
        int lots = 0;
        for (const Movement& movement : book.list) {
            const double weight = m_volumes.move(movement);
            if (movement.kind == MovementKind::lot)
                pour(m_shares[at(movement.to)], LotShares{{lots++, 1.0}}, weight);
            else if (movement.kind == MovementKind::transfer)
                pour(m_shares[at(movement.to)], m_shares[at(movement.from)], weight);
        }
    }
    [[nodiscard]] const Volumes& volumes() const { return m_volumes; }
    [[nodiscard]] LotShares shares(int vessel) const { return m_shares[at(vessel)]; }
    [[nodiscard]] std::vector<LotShares> all_shares() const { return m_shares; }
    [[nodiscard]] std::size_t bytes() const {
        std::size_t sum = 0;
        for (const LotShares& shares : m_shares) sum += shares.capacity() * sizeof(LotShare);
        return sum;
    }

private:
    void pour(LotShares& there, const LotShares& coming, double weight) {
        if (weight >= 1.0) {
            there = coming;
            return;
        }
        m_merged.clear();
        auto a = there.begin();
        auto b = coming.begin();
        while (a != there.end() || b != coming.end()) {
            if (b == coming.end() || (a != there.end() && a->first < b->first)) {
                m_merged.emplace_back(a->first, a->second * (1.0 - weight));
                ++a;
            } else if (a == there.end() || b->first < a->first) {
                m_merged.emplace_back(b->first, b->second * weight);
                ++b;
            } else {
                m_merged.emplace_back(a->first, a->second + (b->second - a->second) * weight);
                ++a;
                ++b;
            }
        }
        there.swap(m_merged);
    }

    Volumes m_volumes;
    std::vector<LotShares> m_shares;
    LotShares m_merged;
};

// A vessel is a hash map of shares.
class HashMaps {
public:
    explicit HashMaps(const Movements& book) : m_volumes(book.vessels), m_shares(at(book.vessels)) {}
    void replay(const Movements& book) {
        int lots = 0;
        for (const Movement& movement : book.list) {
            const double weight = m_volumes.move(movement);
            if (movement.kind == MovementKind::lot)
                pour(m_shares[at(movement.to)], {{lots++, 1.0}}, weight);
            else if (movement.kind == MovementKind::transfer)
                pour(m_shares[at(movement.to)], m_shares[at(movement.from)], weight);
        }
    }
    [[nodiscard]] const Volumes& volumes() const { return m_volumes; }
    [[nodiscard]] LotShares shares(int vessel) const {
        LotShares list(m_shares[at(vessel)].begin(), m_shares[at(vessel)].end());
        std::sort(list.begin(), list.end());
        return list;
    }
    [[nodiscard]] std::size_t bytes() const {
        constexpr std::size_t k_node = 32;  // of libstdc++, as malloc gives it
        std::size_t sum = 0;
        for (const auto& map : m_shares) sum += map.bucket_count() * sizeof(void*) + map.size() * k_node;
        return sum;
    }

private:
    using Map = std::unordered_map<int, double>;
    static void pour(Map& there, const Map& coming, double weight) {
        if (weight >= 1.0) {
            there = coming;
            return;
        }
        for (auto& [lot, share] : there) share *= 1.0 - weight;
        for (const auto& [lot, share] : coming) there[lot] += share * weight;
    }

    Volumes m_volumes;
    std::vector<Map> m_shares;
};

// A vessel is a row of a table with a column for every lot.
class DenseRows {
public:
    explicit DenseRows(const Movements& book)
        : m_volumes(book.vessels), m_lots(at(book.lots)), m_rows(at(book.vessels) * at(book.lots)) {}
    void replay(const Movements& book) {
        std::size_t lots = 0;
        for (const Movement& movement : book.list) {
            const double weight = m_volumes.move(movement);
            if (movement.kind == MovementKind::removal) continue;
            double* there = row(movement.to);
            if (movement.kind == MovementKind::lot) {
                for (std::size_t lot = 0; lot < lots; ++lot) there[lot] *= 1.0 - weight;
                there[lots++] = weight;
            } else {
                const double* coming = row(movement.from);
                for (std::size_t lot = 0; lot < lots; ++lot) there[lot] += (coming[lot] - there[lot]) * weight;
            }
        }
    }
    [[nodiscard]] const Volumes& volumes() const { return m_volumes; }
    [[nodiscard]] LotShares shares(int vessel) const {
        LotShares list;
        const double* of_vessel = m_rows.data() + at(vessel) * m_lots;
        for (std::size_t lot = 0; lot < m_lots; ++lot)
            if (of_vessel[lot] != 0.0) list.emplace_back(static_cast<int>(lot), of_vessel[lot]);
        return list;
    }
    [[nodiscard]] std::vector<double> all_shares() const { return m_rows; }
    [[nodiscard]] std::size_t bytes() const { return m_rows.capacity() * sizeof(double); }

private:
    double* row(int vessel) { return m_rows.data() + at(vessel) * m_lots; }

    Volumes m_volumes;
    std::size_t m_lots;
    std::vector<double> m_rows;
};

// The mix graph on its own: a vessel is a node and a volume.
class BareGraph {
public:
    explicit BareGraph(const Movements& book)
        : m_vessels(at(book.vessels), {ledger::k_no_node, Volume{}}), m_lots(at(book.lots)) {}
    void replay(const Movements& book) {
        int lots = 0;
        for (const Movement& movement : book.list) {
            ledger::NodeId coming = ledger::k_no_node;
            if (movement.kind == MovementKind::lot) {
                coming = m_graph.leaf(lots++);
            } else {
                auto& [node, volume] = m_vessels[at(movement.from)];
                coming = node;
                volume -= movement.volume;
                if (volume == Volume{}) node = ledger::k_no_node;
            }
            if (movement.to < 0) continue;
            auto& [node, volume] = m_vessels[at(movement.to)];
            node = m_graph.mix(node, volume, coming, movement.volume);
            volume += movement.volume;
        }
    }
    [[nodiscard]] LotShares shares(int vessel) const {
        const std::vector<double> row = m_graph.shares(m_vessels[at(vessel)].first, m_lots);
        LotShares list;
        for (std::size_t lot = 0; lot < row.size(); ++lot)
            if (row[lot] != 0.0) list.emplace_back(static_cast<int>(lot), row[lot]);
        return list;
    }
    [[nodiscard]] std::vector<double> all_shares() const {
        std::vector<ledger::NodeId> nodes;
        for (const auto& [node, volume] : m_vessels) nodes.push_back(node);
        return m_graph.share_rows(nodes, m_lots);
    }
    [[nodiscard]] std::size_t bytes() const {
        constexpr std::size_t k_node = 16;
        return m_graph.size() * k_node + m_vessels.size() * sizeof(m_vessels.front());
    }

private:
    std::vector<std::pair<ledger::NodeId, Volume>> m_vessels;
    std::size_t m_lots;
    ledger::MixGraph m_graph;
};

}  // namespace undercroft::bench
