#include "ledger/mix_graph.hpp"

#include <cassert>

namespace undercroft::ledger {
namespace {

std::size_t at(NodeId node) {
    return static_cast<std::size_t>(node);
}

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

}  // namespace undercroft::ledger
