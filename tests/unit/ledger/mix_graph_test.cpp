#include "ledger/mix_graph.hpp"

#include <gtest/gtest.h>

#include <numeric>

namespace undercroft::ledger {
namespace {

const Volume k_three = Volume::from_ul(3);
const Volume k_one = Volume::from_ul(1);

TEST(MixGraph, GivesTheSharesOfAMixByVolume) {
    MixGraph graph;
    const NodeId old_beer = graph.leaf(0);
    const NodeId young = graph.leaf(1);
    const NodeId both = graph.mix(old_beer, k_three, young, k_one);
    EXPECT_EQ(graph.shares(both, 2), (std::vector<double>{0.75, 0.25}));
    EXPECT_EQ(graph.shares(old_beer, 2), (std::vector<double>{1.0, 0.0}));
}

TEST(MixGraph, AddsNothingForPouringOntoNothingOrOfItself) {
    MixGraph graph;
    const NodeId beer = graph.leaf(0);
    EXPECT_EQ(graph.mix(k_no_node, Volume{}, beer, k_one), beer);
    EXPECT_EQ(graph.mix(beer, k_one, beer, k_one), beer);
    EXPECT_EQ(graph.mix(beer, k_one, k_no_node, Volume{}), beer);
    EXPECT_EQ(graph.size(), 1U);
    EXPECT_TRUE(graph.shares(k_no_node, 1).empty());
}

TEST(MixGraph, CountsASourceThatComesByTwoWaysOnce) {
    MixGraph graph;
    const NodeId a = graph.leaf(0);
    const NodeId b = graph.leaf(1);
    const NodeId left = graph.mix(a, k_one, b, k_one);     // 1/2, 1/2
    const NodeId right = graph.mix(a, k_three, b, k_one);  // 3/4, 1/4
    const NodeId both = graph.mix(left, k_one, right, k_one);
    EXPECT_EQ(graph.shares(both, 2), (std::vector<double>{0.625, 0.375}));
}

TEST(MixGraph, SweepsAPropertyForwardToWhatTheSharesGive) {
    MixGraph graph;
    NodeId there = graph.leaf(0);
    for (int lot = 1; lot < 30; ++lot) there = graph.mix(there, k_three, graph.leaf(lot), k_one);
    std::vector<double> value(30);
    std::iota(value.begin(), value.end(), 1.0);
    const std::vector<double> shares = graph.shares(there, 30);
    const double by_shares = std::inner_product(shares.begin(), shares.end(), value.begin(), 0.0);
    // 30 steps of doubles, values up to 30.
    EXPECT_NEAR(graph.sweep(value).back(), by_shares, 1e-12);
    EXPECT_NEAR(std::accumulate(shares.begin(), shares.end(), 0.0), 1.0, 1e-14);
    EXPECT_DOUBLE_EQ(shares[29], 0.25);
}

}  // namespace
}  // namespace undercroft::ledger
