#include "ledger/mix_graph.hpp"

#include <algorithm>
#include <array>
#include <cassert>

namespace undercroft::ledger {
namespace {

std::size_t at(NodeId node) {
    return static_cast<std::size_t>(node);
}

// So many nodes are followed back in one sweep: two cache lines of shares a node.
constexpr std::size_t k_abreast = 16;
// Of a node that nothing asks for.
constexpr std::int32_t k_unused = -1;

}  // namespace

NodeId MixGraph::leaf(int lot) {
    m_nodes.push_back(Node{k_no_node, lot, 1.0});
    return static_cast<NodeId>(m_nodes.size() - 1);
}

NodeId MixGraph::mix(NodeId there, Volume present, NodeId coming, Volume poured) {
    if (poured == Volume{} || coming == there) return there;
    if (present == Volume{} || there == k_no_node) return coming;
    assert(poured > Volume{} && present > Volume{});
    const auto in = static_cast<double>(poured.ul());
    m_nodes.push_back(Node{there, coming, in / static_cast<double>((poured + present).ul())});
    return static_cast<NodeId>(m_nodes.size() - 1);
}

std::vector<double> MixGraph::shares(NodeId node, std::size_t lots) const {
    if (node == k_no_node) return {};
    std::vector<double> result(lots, 0.0);
    std::vector<double> part(at(node) + 1, 0.0);
    part[at(node)] = 1.0;
    for (std::size_t i = at(node) + 1; i-- > 0;) {
        if (part[i] == 0.0) continue;
        const Node& mixed = m_nodes[i];
        if (mixed.there == k_no_node) {
            result[at(mixed.coming)] += part[i];
        } else {
            part[at(mixed.coming)] += part[i] * mixed.weight;
            part[at(mixed.there)] += part[i] * (1.0 - mixed.weight);
        }
    }
    return result;
}

std::vector<double> MixGraph::sweep(std::span<const double> value_of_lot) const {
    std::vector<double> value(m_nodes.size());
    for (std::size_t i = 0; i < m_nodes.size(); ++i) {
        const Node& mixed = m_nodes[i];
        value[i] = mixed.there == k_no_node
                       ? value_of_lot[at(mixed.coming)]
                       : value[at(mixed.there)] + (value[at(mixed.coming)] - value[at(mixed.there)]) * mixed.weight;
    }
    return value;
}

// For every node the last node made of it, m_nodes.size() for one that is asked for itself.
std::vector<std::int32_t> MixGraph::last_uses(std::span<const NodeId> nodes) const {
    std::vector<std::int32_t> last_use(m_nodes.size(), k_unused);
    for (const NodeId node : nodes)
        if (node != k_no_node) last_use[at(node)] = static_cast<std::int32_t>(m_nodes.size());
    for (std::size_t i = m_nodes.size(); i-- > 0;) {
        if (last_use[i] == k_unused || m_nodes[i].there == k_no_node) continue;
        for (const NodeId part : {m_nodes[i].there, m_nodes[i].coming})
            last_use[at(part)] = std::max(last_use[at(part)], static_cast<std::int32_t>(i));
    }
    return last_use;
}

void MixGraph::sweep_back(std::span<const NodeId> nodes, std::size_t lots, double* rows) const {
    using Parts = std::array<double, k_abreast>;
    std::vector<Parts> parts(m_nodes.size());
    for (std::size_t first = 0; first < nodes.size(); first += k_abreast) {
        const auto abreast = nodes.subspan(first, std::min(k_abreast, nodes.size() - first));
        std::fill(parts.begin(), parts.end(), Parts{});
        NodeId highest = k_no_node;
        for (std::size_t k = 0; k < abreast.size(); ++k) {
            if (abreast[k] == k_no_node) continue;
            parts[at(abreast[k])][k] = 1.0;
            highest = std::max(highest, abreast[k]);
        }
        for (std::size_t i = at(highest + 1); i-- > 0;) {
            const Parts& part = parts[i];
            if (std::all_of(part.begin(), part.end(), [](double share) { return share == 0.0; })) continue;
            const Node& mixed = m_nodes[i];
            if (mixed.there == k_no_node) {
                for (std::size_t k = 0; k < abreast.size(); ++k) rows[(first + k) * lots + at(mixed.coming)] = part[k];
                continue;
            }
            Parts& there = parts[at(mixed.there)];
            Parts& coming = parts[at(mixed.coming)];
            for (std::size_t k = 0; k < k_abreast; ++k) {
                coming[k] += part[k] * mixed.weight;
                there[k] += part[k] * (1.0 - mixed.weight);
            }
        }
    }
}

void MixGraph::fill_rows(std::span<const NodeId> nodes, std::size_t lots, std::vector<std::int32_t> last_use,
                         double* rows) const {
    std::vector<std::vector<double>> row_of(m_nodes.size());
    std::vector<std::vector<double>> spare;
    for (std::size_t i = 0; i < m_nodes.size(); ++i) {
        const Node& mixed = m_nodes[i];
        if (last_use[i] == k_unused) continue;
        const auto is_last = [&](NodeId part) { return last_use[at(part)] == static_cast<std::int32_t>(i); };
        std::vector<double>& row = row_of[i];
        if (mixed.there != k_no_node && is_last(mixed.there)) {
            row = std::move(row_of[at(mixed.there)]);
        } else {
            if (!spare.empty()) {
                row = std::move(spare.back());
                spare.pop_back();
            }
            if (mixed.there == k_no_node)
                row.assign(lots, 0.0);
            else
                row = row_of[at(mixed.there)];
        }
        if (mixed.there == k_no_node) {
            row[at(mixed.coming)] = 1.0;
            continue;
        }
        const std::vector<double>& coming = row_of[at(mixed.coming)];
        for (std::size_t lot = 0; lot < lots; ++lot) row[lot] += (coming[lot] - row[lot]) * mixed.weight;
        if (is_last(mixed.coming)) spare.push_back(std::move(row_of[at(mixed.coming)]));
    }
    for (std::size_t k = 0; k < nodes.size(); ++k)
        if (nodes[k] != k_no_node)
            std::copy(row_of[at(nodes[k])].begin(), row_of[at(nodes[k])].end(),
                      rows + static_cast<std::ptrdiff_t>(k * lots));
}

std::vector<double> MixGraph::share_rows(std::span<const NodeId> nodes, std::size_t lots) const {
    std::vector<double> rows(nodes.size() * lots, 0.0);
    // Whichever moves fewer numbers: `lots` for every node forwards, or the nodes asked for for every node backwards.
    // A row in use forwards is mostly that of a vessel, so memory stays near that of the answer.
    const std::size_t swept = (nodes.size() + k_abreast - 1) / k_abreast * k_abreast;
    if (lots < swept)
        fill_rows(nodes, lots, last_uses(nodes), rows.data());
    else
        sweep_back(nodes, lots, rows.data());
    return rows;
}

}  // namespace undercroft::ledger
