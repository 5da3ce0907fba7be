// What was liked feeds back: the surface found again, the glasses proposed, and what is refused.
#include "engine/blend/liking.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

namespace undercroft::engine::blend {
namespace {

using Shares = std::vector<double>;

// A surface of Scheffé's form: best between the first two stocks, the third spoils it.
double liked_of(const Shares& x) {
    return 5.0 * x[0] + 6.0 * x[1] + 3.0 * x[2] + 9.0 * x[0] * x[1] - 2.0 * x[1] * x[2] + 1.0 * x[0] * x[2];
}

// The simplex-lattice design {3, 2} and its centre (Scheffé 1958, from memory).
std::vector<Shares> design() {
    return {{1, 0, 0},
            {0, 1, 0},
            {0, 0, 1},
            {0.5, 0.5, 0},
            {0.5, 0, 0.5},
            {0, 0.5, 0.5},
            {1.0 / 3.0, 1.0 / 3.0, 1.0 - 2.0 / 3.0}};
}

LikingWish tasted(const std::vector<Shares>& glasses, const std::function<double(const Shares&)>& liked) {
    LikingWish wish;
    wish.stocks = glasses.front().size();
    for (const Shares& shares : glasses) wish.trials.push_back({shares, liked(shares)});
    return wish;
}

TEST(Liking, AKnownQuadraticSurfaceIsFoundAgain) {
    LikingWish wish = tasted(design(), liked_of);
    for (int again = 0; again < 11; ++again)
        for (const Shares& shares : design()) wish.trials.push_back({shares, liked_of(shares)});
    const LikingAnswer answer = next_glasses(wish).value();
    for (const Shares& x : std::vector<Shares>{{0.4, 0.6, 0.0}, {0.2, 0.5, 0.3}, {0.7, 0.1, 0.2}}) {
        const Liked found = answer.surface.at(x);
        EXPECT_NEAR(found.mean, liked_of(x), 0.1);  // what the prior still pulls after twelve glasses of each
        EXPECT_LT(found.sd, 0.2);
    }
    // Along the edge 5a + 6b + 9ab with a + b = 1 the top lies at b = 5/9, by hand.
    EXPECT_EQ(wish.trials[answer.best.trial].shares, (Shares{0.5, 0.5, 0}));
    // A tenth of a glass away, at b = 0.6, it is liked a hundredth more; three tenths away nothing is.
    EXPECT_LT(answer.best.chance, 0.5);
    EXPECT_TRUE(answer.enough);
    wish.apart = 0.3;
    EXPECT_GT(next_glasses(wish).value().best.chance, 0.9);
}

TEST(Liking, TheNextGlassesClimbToTheTopAndThenStop) {
    LikingWish wish = tasted({{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, liked_of);
    int rounds = 0;
    for (LikingAnswer answer = next_glasses(wish).value(); !answer.enough; answer = next_glasses(wish).value()) {
        ASSERT_LT(++rounds, 20) << "it never says enough";
        for (const NextGlass& glass : answer.next) wish.trials.push_back({glass.shares, liked_of(glass.shares)});
    }
    EXPECT_GT(rounds, 0);
    const Shares& best = wish.trials[next_glasses(wish)->best.trial].shares;
    EXPECT_GT(liked_of(best), liked_of({4.0 / 9.0, 5.0 / 9.0, 0.0}) - 0.25);
}

TEST(Liking, IsTheClosedFormByHand) {
    // One glass of the first of two stocks alone: prior 5 ± 3, glass 8 ± 0.7, so the mean is
    // (5/9 + 8/0.49) / (1/9 + 1/0.49) and the variance 1 / (1/9 + 1/0.49). Of the other stock nothing is known.
    const LikingAnswer answer = next_glasses(tasted({{1, 0}}, [](const Shares&) { return 8.0; })).value();
    const double precision = 1.0 / 9.0 + 1.0 / 0.49;
    const Liked first = answer.surface.at({1, 0});
    EXPECT_NEAR(first.mean, (5.0 / 9.0 + 8.0 / 0.49) / precision, 1e-9);
    EXPECT_NEAR(first.sd, std::sqrt(1.0 / precision), 1e-9);
    const Liked other = answer.surface.at({0, 1});
    EXPECT_NEAR(other.mean, 5.0, 1e-9);
    EXPECT_NEAR(other.sd, 3.0, 1e-9);
    const Liked half = answer.surface.at({0.5, 0.5});
    EXPECT_NEAR(half.mean, 0.5 * first.mean + 2.5, 1e-9);
    EXPECT_NEAR(half.sd, std::sqrt(0.25 / precision + 0.25 * 9.0 + 36.0 / 16.0), 1e-9);
}

TEST(Liking, TheGainIsThatOfTheTextbook) {
    // Expected improvement at a mean that equals the best is sd / sqrt(2 pi): the glass alone is of itself worth that.
    const LikingWish wish = tasted({{1, 0}}, [](const Shares&) { return 5.0; });
    const LikingAnswer answer = next_glasses(wish).value();
    // Every blend is expected at 5: the greatest gain is the greatest spread, along the edge.
    double widest = 0.0;
    for (int step = 0; step <= 20; ++step)
        widest = std::max(widest, answer.surface.at({step / 20.0, 1.0 - step / 20.0}).sd);
    EXPECT_NEAR(answer.gain, widest / std::sqrt(2.0 * std::acos(-1.0)), 1e-9);
    EXPECT_FALSE(answer.enough);
}

TEST(Liking, OneGlassAloneHasAWideSpreadAndIsNoRefusal) {
    const LikingAnswer answer = next_glasses(tasted({{0.4, 0.3, 0.3}}, liked_of)).value();
    EXPECT_GT(answer.surface.at({0, 0, 1}).sd, 2.0);
    EXPECT_LT(answer.surface.at({0.4, 0.3, 0.3}).sd, 0.75);
    EXPECT_EQ(answer.next.size(), 3U);
    EXPECT_FALSE(answer.enough);
}

TEST(Liking, TheOrderOfTheGlassesDoesNotMatterToTheLastBit) {
    LikingWish wish = tasted(design(), liked_of);
    wish.trials.push_back({{0.5, 0.5, 0}, 7.1});
    wish.trials.push_back({{0.2, 0.5, 0.3}, 6.3});
    const LikingAnswer first = next_glasses(wish).value();
    std::mt19937_64 bits(7);
    for (int round = 0; round < 10; ++round) {
        LikingWish other = wish;
        for (std::size_t i = other.trials.size(); i > 1; --i) std::swap(other.trials[i - 1], other.trials[bits() % i]);
        const LikingAnswer again = next_glasses(other).value();
        EXPECT_EQ(again.best.chance, first.best.chance);
        EXPECT_EQ(again.best.liked.mean, first.best.liked.mean);
        EXPECT_EQ(other.trials[again.best.trial].shares, wish.trials[first.best.trial].shares);
        ASSERT_EQ(again.next.size(), first.next.size());
        for (std::size_t n = 0; n < first.next.size(); ++n) {
            EXPECT_EQ(again.next[n].shares, first.next[n].shares);
            EXPECT_EQ(again.next[n].gain, first.next[n].gain);
        }
    }
}

TEST(Liking, AStockThatWasNeverTriedIsStillExplored) {
    const auto middling = [](const Shares&) { return 5.5; };
    LikingWish wish = tasted({{1, 0, 0}, {0, 1, 0}, {0.5, 0.5, 0}, {0.3, 0.7, 0}, {0.7, 0.3, 0}}, middling);
    const LikingAnswer answer = next_glasses(wish).value();
    EXPECT_TRUE(std::all_of(answer.next.begin(), answer.next.end(),
                            [](const NextGlass& glass) { return glass.shares[2] > 0.2; }));
    EXPECT_FALSE(answer.enough) << "two stocks are known, the third is not";
}

TEST(Liking, TheNextGlassesKeepTheirDistanceTheirStepAndTheirBounds) {
    LikingWish wish = tasted(design(), liked_of);
    wish.least = {0.1, 0.0, 0.0};
    wish.most = {0.6, 0.7, 0.25};
    wish.next = 4;
    wish.apart = 0.2;
    wish.step = 0.05;
    const LikingAnswer answer = next_glasses(wish).value();
    ASSERT_EQ(answer.next.size(), 4U);
    for (std::size_t a = 0; a < answer.next.size(); ++a) {
        const Shares& x = answer.next[a].shares;
        EXPECT_NEAR(x[0] + x[1] + x[2], 1.0, 1e-12);
        for (std::size_t i = 0; i < 3; ++i) {
            EXPECT_GE(x[i], wish.least[i] - 1e-9);
            EXPECT_LE(x[i], wish.most[i] + 1e-9);
            EXPECT_NEAR(x[i] * 20.0, std::round(x[i] * 20.0), 1e-9);
        }
        for (std::size_t b = 0; b < a; ++b) {
            double apart = 0.0;
            for (std::size_t i = 0; i < 3; ++i) apart += 0.5 * std::abs(x[i] - answer.next[b].shares[i]);
            EXPECT_GE(apart, 0.2 - 1e-9);
        }
    }
    EXPECT_TRUE(answer.best.possible);
    EXPECT_EQ(wish.trials[answer.best.trial].shares, (Shares{0.5, 0.5, 0}));
    wish.most = {0.45, 1.0, 1.0};
    EXPECT_NE(wish.trials[next_glasses(wish)->best.trial].shares, (Shares{0.5, 0.5, 0}))
        << "what cannot be poured is evidence, no candidate";
    wish.most = {0.15, 0.15, 0.75};
    wish.least = {0.1, 0.1, 0.7};
    EXPECT_LT(next_glasses(wish)->next.size(), 4U) << "no room for more so far apart";
    EXPECT_FALSE(next_glasses(wish)->best.possible);
}

TEST(Liking, RepeatsTellTheNoise) {
    LikingWish wish = tasted({{0.5, 0.5}, {0.5, 0.5}, {1, 0}}, [](const Shares&) { return 6.0; });
    // Two likings of one blend that agree, and a stated 0.7 that counts as four: sqrt(4 * 0.49 / 5).
    EXPECT_NEAR(next_glasses(wish)->surface.noise(), std::sqrt(4.0 * 0.49 / 5.0), 1e-12);
    EXPECT_EQ(next_glasses(wish)->surface.repeats(), 1);
    wish.trials[0].liking = 3.0;
    wish.trials[1].liking = 9.0;
    EXPECT_NEAR(next_glasses(wish)->surface.noise(), std::sqrt((4.0 * 0.49 + 18.0) / 5.0), 1e-12);
    EXPECT_GT(next_glasses(wish)->surface.at({0.5, 0.5}).sd, 1.0);
}

TEST(Liking, WhatCannotBeIsRefusedWithItsField) {
    const LikingWish good = tasted(design(), liked_of);
    const auto refused_at = [&good](const std::function<void(LikingWish&)>& spoil) {
        LikingWish wish = good;
        spoil(wish);
        const auto answer = next_glasses(wish);
        return answer ? std::string("taken") : answer.error().where;
    };
    EXPECT_EQ(refused_at([](LikingWish&) {}), "taken");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.trials[0].liking = 10.1; }), "liked");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.trials[0].liking = -0.1; }), "liked");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.trials[0].liking = std::nan(""); }), "liked");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.trials[0].shares = {0.5, 0.4, 0.0}; }), "liked");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.trials[0].shares = {1.5, -0.5, 0.0}; }), "liked");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.trials[0].shares = {0.5, 0.5}; }), "liked");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.trials.clear(); }), "liked");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.stocks = 1; }), "stocks");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.stocks = 9; }), "stocks");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.doubt = 0.0; }), "doubt");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.most = {0.5, 0.5}; }), "most");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.least = {0.5, 0.5, -0.1}; }), "least");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.most = {0.3, 0.3, 0.3}; }), "bounds");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.step = 0.03; }), "step");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.next = 5; }), "next");
    EXPECT_EQ(refused_at([](LikingWish& w) { w.apart = 0.0; }), "apart");
}

TEST(Liking, EightStocksAreTakenInCoarserStepsAndAFineStepIsRefused) {
    LikingWish wish = tasted({{1, 0, 0, 0, 0, 0, 0, 0}}, [](const Shares&) { return 6.0; });
    const LikingAnswer answer = next_glasses(wish).value();
    EXPECT_DOUBLE_EQ(answer.step, 0.10);
    EXPECT_EQ(answer.grid, 19448U);  // 17 over 7
    wish.step = 0.05;
    ASSERT_FALSE(next_glasses(wish));
    EXPECT_EQ(next_glasses(wish).error().where, "step");
}

}  // namespace
}  // namespace undercroft::engine::blend
