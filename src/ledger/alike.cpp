#include "ledger/alike.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <unordered_map>

#include "base/index.hpp"

namespace undercroft::ledger {
namespace {

// A node by what it is made of.
struct MadeOf {
    int there = 0;
    int coming = 0;
    std::uint64_t weight = 0;
    friend bool operator==(const MadeOf&, const MadeOf&) = default;
};

struct HashOfMadeOf {
    std::size_t operator()(const MadeOf& node) const {
        std::uint64_t hash = node.weight ^ (static_cast<std::uint64_t>(static_cast<std::uint32_t>(node.there)) << 32) ^
                             static_cast<std::uint32_t>(node.coming);
        hash = (hash ^ (hash >> 31)) * 0x9E3779B97F4A7C15u;
        return static_cast<std::size_t>(hash ^ (hash >> 29));
    }
};

template <class T>
bool same_at(const std::vector<T>& list, int a, const std::vector<T>& others, int b) {
    if (a < 0 || b < 0) return a == b;
    return list[at(a)].key == others[at(b)].key;
}

// Whatever both have is called the same, in both.
template <class T>
bool same_names(const std::vector<T>& list, const std::vector<T>& others) {
    std::unordered_map<std::string, const T*> by_key;
    for (const T& one : list) by_key.emplace(one.key.text(), &one);
    return std::all_of(others.begin(), others.end(), [&by_key](const T& other) {
        const auto found = by_key.find(other.key.text());
        return found == by_key.end() || found->second->as == other.as;
    });
}

}  // namespace

Alike::Alike(const Cellar& one, const Cellar& other) : m_one(one), m_other(other) {
    m_names_kept = same_names(one.vessels, other.vessels) && same_names(one.additions, other.additions);
    if (m_names_kept) number_nodes();
}

bool Alike::same_lot(const LotState& a, const LotState& b) const {
    return a.key == b.key && a.name == b.name && a.kind == b.kind && a.entered == b.entered &&
           a.brewed_from == b.brewed_from && a.brewed_to == b.brewed_to && a.age_assumed == b.age_assumed &&
           a.priming == b.priming && same_node(a.like, b.like) && same_vessel_key(a.vessel, b.vessel) &&
           same_at(m_one.additions, a.addition, m_other.additions, b.addition);
}

bool Alike::same_node(NodeId a, NodeId b) const {
    if (a == k_no_node || b == k_no_node) return a == b;
    return m_number_in_one[at(a)] == m_number_in_other[at(b)];
}

bool Alike::same_vessel_key(int a, int b) const {
    return same_at(m_one.vessels, a, m_other.vessels, b);
}

void Alike::number_nodes() {
    const std::span<const MixGraph::Node> ones = m_one.graph.nodes();
    const std::span<const MixGraph::Node> others = m_other.graph.nodes();
    m_number_in_one.reserve(ones.size());
    m_number_in_other.reserve(others.size());
    // Up to where the two part, nodes have the numbers they have.
    std::size_t shared = 0;
    while (shared < ones.size() && shared < others.size()) {
        const MixGraph::Node& a = ones[shared];
        const MixGraph::Node& b = others[shared];
        const bool leaves = a.there == k_no_node && b.there == k_no_node;
        if (a.there != b.there || a.coming != b.coming ||
            std::bit_cast<std::uint64_t>(a.weight) != std::bit_cast<std::uint64_t>(b.weight))
            break;
        if (leaves && !same_lot(m_one.lots[at(a.coming)], m_other.lots[at(b.coming)])) break;
        m_number_in_one.push_back(static_cast<int>(shared));
        m_number_in_other.push_back(static_cast<int>(shared));
        ++shared;
    }
    std::unordered_map<MadeOf, int, HashOfMadeOf> mixes;
    std::unordered_map<std::string, std::vector<std::pair<int, int>>> leaves;  // by the lot's key: lot and number
    const auto mix_of = [](const MixGraph::Node& node, const std::vector<int>& numbers) {
        return MadeOf{numbers[at(node.there)], numbers[at(node.coming)], std::bit_cast<std::uint64_t>(node.weight)};
    };
    for (std::size_t i = shared; i < ones.size(); ++i) {
        const auto own = static_cast<int>(i);
        if (ones[i].there == k_no_node) {
            leaves[m_one.lots[at(ones[i].coming)].key.text()].emplace_back(ones[i].coming, own);
            m_number_in_one.push_back(own);
        } else {
            m_number_in_one.push_back(mixes.emplace(mix_of(ones[i], m_number_in_one), own).first->second);
        }
    }
    auto next = static_cast<int>(ones.size());
    for (std::size_t i = shared; i < others.size(); ++i) {
        int number = -1;
        if (others[i].there == k_no_node) {
            const LotState& lot = m_other.lots[at(others[i].coming)];
            if (const auto found = leaves.find(lot.key.text()); found != leaves.end())
                for (const auto& [of_one, its_number] : found->second)
                    if (same_lot(m_one.lots[at(of_one)], lot)) number = its_number;
            if (number < 0) number = next++;
        } else {
            const auto [spot, is_new] = mixes.emplace(mix_of(others[i], m_number_in_other), next);
            if (is_new) ++next;
            number = spot->second;
        }
        m_number_in_other.push_back(number);
    }
}

bool Alike::same_culture(int a, int b) const {
    const CultureState& one = m_one.cultures[at(a)];
    const CultureState& other = m_other.cultures[at(b)];
    return one.key == other.key && one.as == other.as && one.from == other.from && one.suspected == other.suspected &&
           same_vessel_key(one.vessel, other.vessel);
}

bool Alike::same_additions(const std::vector<int>& a, const std::vector<int>& b) const {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [this](int x, int y) { return same_at(m_one.additions, x, m_other.additions, y); });
}

bool Alike::same_liquid(const Liquid& a, const Liquid& b) const {
    const auto same_here = [this](const CultureHere& x, const CultureHere& y) {
        const bool same_gear = (x.gear < 0 || y.gear < 0)
                                   ? x.gear == y.gear
                                   : m_one.gear[at(x.gear)].name == m_other.gear[at(y.gear)].name;
        return same_culture(x.culture, y.culture) && x.certainty == y.certainty && x.since == y.since &&
               x.brought == y.brought && same_gear && same_vessel_key(x.gear_was_in, y.gear_was_in);
    };
    return a.volume == b.volume && same_node(a.node, b.node) && a.allergens == b.allergens &&
           std::equal(a.cultures.begin(), a.cultures.end(), b.cultures.begin(), b.cultures.end(), same_here) &&
           same_additions(a.additions, b.additions);
}

bool Alike::vessels(int of_one, int of_other) const {
    if (!m_names_kept) return false;
    const VesselState& a = m_one.vessels[at(of_one)];
    const VesselState& b = m_other.vessels[at(of_other)];
    return a.key == b.key && a.as == b.as && a.joined == b.joined && a.retired == b.retired &&
           a.filled_since == b.filled_since && a.came_in == b.came_in && same_node(a.held_last, b.held_last) &&
           same_additions(a.additions_inside, b.additions_inside) && same_liquid(a.liquid, b.liquid);
}

bool Alike::runs(int of_one, int of_other) const {
    if (!m_names_kept) return false;
    const RunState& a = m_one.runs[at(of_one)];
    const RunState& b = m_other.runs[at(of_other)];
    return a.key == b.key && a.as == b.as && a.packaged == b.packaged && a.left == b.left && a.taken == b.taken &&
           a.missing == b.missing && a.found == b.found && same_vessel_key(a.source, b.source) &&
           same_liquid(a.liquid, b.liquid);
}

}  // namespace undercroft::ledger
