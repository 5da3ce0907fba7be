// Learning from before and after: closed forms of the conjugate regression, and recovery of synthetic keepers.
#include "engine/finish/learning.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace undercroft::engine::finish {
namespace {

const tables::Tables& learning_tables() {
    static const tables::Tables k_tables = tables::load().value();
    return k_tables;
}

Observed vanilla(double before, double after, double grams, double days, double sd = 0.5) {
    Observed it;
    it.technique = "spice_vanilla";
    it.attribute = "vanilla";
    it.dose = {grams, days};
    it.before = {before, sd};
    it.after = {after, sd};
    return it;
}

Learned only(const std::vector<Observed>& observed) {
    const auto learned = learned_from(learning_tables(), observed);
    EXPECT_EQ(learned.size(), 1U);
    return learned.at(0);
}

TEST(Learning, OfOneTastingIsTheClosedForm) {
    // Prior 4 ± 1.9: variance 3.61, half of it the keeper's. At the middle dose after very long the factor is 1.
    const Learned it = only({vanilla(0.0, 2.0, 0.8, 1000.0)});
    const double keeper = 3.61 / 2.0;
    const double noise = 0.5 * 0.5 + 0.5 * 0.5 + 3.61 / 2.0;
    const double expected = (2.0 / noise + 4.0 / keeper) / (1.0 / noise + 1.0 / keeper);
    EXPECT_NEAR(it.posterior.mean, expected, 1e-9);
    EXPECT_NEAR(it.posterior.sd, std::sqrt(1.0 / (1.0 / noise + 1.0 / keeper)), 1e-9);
    EXPECT_NEAR(it.data.mean, 2.0, 1e-9);
    EXPECT_NEAR(it.next.sd, std::hypot(it.posterior.sd, std::sqrt(3.61 / 2.0)), 1e-9);
}

TEST(Learning, AHalfDoseTeachesHalfAsMuchOfTheWhole) {
    const tables::Effect& row =
        *std::find_if(learning_tables().effects.begin(), learning_tables().effects.end(),
                      [](const auto& one) { return one.technique == "spice_vanilla" && one.attribute == "vanilla"; });
    const double factor = dose_factor(row, 0.4) * (1.0 - std::pow(10.0, -7.0 / 14.0));
    const Learned it = only({vanilla(0.0, 4.0 * factor, 0.4, 7.0)});
    EXPECT_NEAR(it.posterior.mean, 4.0, 1e-9) << "what came is what was expected";
    EXPECT_NEAR(it.data.mean, 4.0, 1e-9);
}

TEST(Learning, DoesNotMindTheOrderAndManyTastingsOutweighTheTable) {
    std::vector<Observed> observed;
    for (int i = 0; i < 60; ++i) observed.push_back(vanilla(0.5, 2.5 + 0.01 * (i % 7), 0.8, 1000.0));
    const Learned once = only(observed);
    std::reverse(observed.begin(), observed.end());
    const Learned again = only(observed);
    EXPECT_EQ(once.posterior.mean, again.posterior.mean);
    EXPECT_NEAR(once.posterior.mean, 2.03, 0.1);
    EXPECT_LT(once.posterior.sd, 0.25);
    EXPECT_GT(once.next.sd, 1.3) << "the next lot still differs";
}

TEST(Learning, TellsOfAForecastThatIsWrongTheSameWay) {
    std::vector<Observed> observed;
    for (int i = 0; i < 2; ++i) {
        observed.push_back(vanilla(0.0, 0.5, 0.8, 14.0));
        observed.back().forecast = Figure{3.6, 1.0};
    }
    EXPECT_FALSE(only(observed).wrong) << "twice is no habit";
    observed.push_back(observed.back());
    EXPECT_TRUE(only(observed).wrong);
    EXPECT_NE(only(observed).words.find("do not go by the table"), std::string::npos);
}

TEST(Learning, ReplacesTheTablesFigureAndNothingElse) {
    const auto learned = learned_from(learning_tables(), {vanilla(0.0, 1.0, 0.8, 1000.0)});
    const auto effects = effects_with(learning_tables().effects, learned);
    ASSERT_EQ(effects.size(), learning_tables().effects.size());
    int changed = 0;
    for (std::size_t i = 0; i < effects.size(); ++i)
        if (effects[i].mean_total != learning_tables().effects[i].mean_total) {
            ++changed;
            EXPECT_EQ(effects[i].attribute, "vanilla");
            EXPECT_NEAR(effects[i].mean_total, learned[0].next.mean, 1e-12);
        }
    EXPECT_EQ(changed, 1);
}

TEST(Learning, OfAnAttributeWithoutARowBeginsWithNothing) {
    Observed it = vanilla(2.0, 4.0, 0.8, 14.0);
    it.attribute = "solvent";
    const Learned learned = only({it});
    EXPECT_EQ(learned.prior.mean, 0.0);
    EXPECT_GT(learned.posterior.mean, 0.0);
    EXPECT_EQ(effects_with(learning_tables().effects, {learned}).size(), learning_tables().effects.size() + 1);
}

// Keepers whose own effect is drawn from the table, lots that differ, tasters with noise: the 90 % interval of the next
// portion must hold nine of ten.
TEST(Learning, CoversSyntheticKeepersAtItsStatedRate) {
    std::mt19937_64 random(20'261'127);
    std::normal_distribution<double> normal;
    int inside = 0;
    int inside_own = 0;
    constexpr int k_keepers = 2'000;
    const double half = std::sqrt(3.61 / 2.0);
    for (int keeper = 0; keeper < k_keepers; ++keeper) {
        const double own = 4.0 + half * normal(random);
        std::vector<Observed> observed;
        for (int portion = 0; portion < 4; ++portion) {
            const double lot = own + half * normal(random);
            const double before = 1.0 + 0.5 * normal(random);
            observed.push_back(vanilla(before, 1.0 + lot + 0.5 * normal(random), 0.8, 1000.0));
        }
        const Learned it = only(observed);
        constexpr double k_ninety = 1.6449;
        if (std::abs(own - it.posterior.mean) <= k_ninety * it.posterior.sd) ++inside_own;
        const double next = own + half * normal(random);
        if (std::abs(next - it.next.mean) <= k_ninety * it.next.sd) ++inside;
    }
    const double rate = double(inside) / k_keepers;
    const double rate_own = double(inside_own) / k_keepers;
    RecordProperty("next_portion_inside_90", std::to_string(rate));
    RecordProperty("own_effect_inside_90", std::to_string(rate_own));
    EXPECT_NEAR(rate, 0.9, 0.02) << rate;
    EXPECT_NEAR(rate_own, 0.9, 0.02) << rate_own;
}

}  // namespace
}  // namespace undercroft::engine::finish
