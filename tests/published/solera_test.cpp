// A solera worked out without a book, against exact fractions, closed forms, stirred tanks and counted drops of beer.
//
// Sources: Baker, Amerine & Roessler 1952, Hilgardia 21(14):383-409, doi 10.3733/hilg.v21n14p383 (abstract; the tables
// were not seen) for the quantities; Levenspiel, Chemical Reaction Engineering, 3rd ed., chapters 11 and 14 for tanks
// in series (from memory of the formulas). Every number is derived and worked out again here.
#include "engine/age/solera.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "engine/age/solera_formulas.hpp"
#include "tests/published/many_stages.hpp"
#include "tests/support/fraction.hpp"

namespace undercroft::testing {
namespace {

using namespace engine;

SoleraPlan chain_of(std::vector<double> litres, double pull, double interval = 1.0) {
    SoleraPlan plan;
    for (const double volume : litres) plan.stages.push_back(Volume::from_litres(volume));
    plan.pull = Volume::from_litres(pull);
    plan.interval_years = interval;
    return plan;
}

// Means of every stage before the n-th pull, in exact fractions, from volumes.
std::vector<Fraction> exact_means(const std::vector<int>& litres, int pull, Fraction evaporation, Fraction start,
                                  Fraction age_in, int n) {
    std::vector<Fraction> means(litres.size(), start);
    for (int turn = 1;; ++turn) {
        for (Fraction& mean : means) mean = mean + Fraction{1};
        if (turn == n) return means;
        Fraction leaves{pull};
        for (std::size_t i = means.size(); i-- > 0;) {
            const Fraction full{litres[i]};
            const Fraction coming = leaves + evaporation * full;
            means[i] = ((full - coming) * means[i] + coming * (i == 0 ? age_in : means[i - 1])) / full;
            leaves = coming;
        }
    }
}

constexpr double k_doubles = 1e-11;  // ages of tens of years, sums of some hundred products

TEST(HalfAVesselEveryTwoYears, IsDrawnAtTheExactAges) {
    const auto turns = turns_of(chain_of({60}, 30, 2.0), 6);
    const double before[] = {2, 3, 3.5, 3.75, 3.875, 3.9375};
    const double after[] = {1, 1.5, 1.75};
    for (std::size_t i = 0; i < 6; ++i) EXPECT_NEAR(turns[i].mean_years, before[i], k_doubles);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(turns[i].after_refill_years, after[i], k_doubles);
    const SteadySolera steady = steady_state(chain_of({60}, 30, 2.0));
    EXPECT_DOUBLE_EQ(steady.mean_years, 4.0);
    EXPECT_DOUBLE_EQ(steady.after_refill_years, 2.0);
    EXPECT_DOUBLE_EQ(steady.time_average_years, 3.0);
}

TEST(OneVessel, HasTheSharesSpreadsAndCountsOfTheTable) {
    struct Row {
        int one_in, below_5, below_1, effective;
        double sd;
        double shares[6];
    };
    const Row rows[] = {{2, 5, 7, 3, 1.41421, {.5, .25, .125, .0625, .03125, .015625}},
                        {3, 8, 12, 5, 2.44949, {.33333, .22222, .14815, .09877, .06584, .04390}},
                        {4, 11, 17, 7, 3.46410, {.25, .1875, .140625, .10547, .07910, .05933}},
                        {5, 14, 21, 9, 4.47214, {.2, .16, .128, .1024, .08192, .06554}},
                        {10, 29, 44, 19, 9.48683, {.1, .09, .081, .0729, .06561, .05905}}};
    for (const Row& row : rows) {
        const double f = 1.0 / row.one_in;
        EXPECT_EQ(pulls_until_original_below(f, 0.05), row.below_5);
        EXPECT_EQ(pulls_until_original_below(f, 0.01), row.below_1);
        EXPECT_NEAR(effective_vintages(f), row.effective, 1e-12);
        const SoleraPlan plan = chain_of({60}, 60.0 / row.one_in);
        EXPECT_NEAR(steady_state(plan).sd_years, row.sd, 5.1e-6) << "printed to five places";
        // Far on, the recursion has the same shares, spread and effective number.
        const auto turns = turns_of(plan, 400);
        const SoleraTurn& last = turns.back();
        Fraction exact{1, row.one_in};
        for (std::size_t k = 0; k < 6; ++k) {
            EXPECT_NEAR(last.fills[k].share, exact.value(), 1e-6) << "pulls are whole microlitres";
            EXPECT_NEAR(share_made_ago(f, static_cast<int>(k) + 1), exact.value(), 1e-14);
            EXPECT_NEAR(exact.value(), row.shares[k], 5.1e-6) << "printed to five places or fewer";
            exact = exact * (Fraction{1} - Fraction{1, row.one_in});
        }
        EXPECT_NEAR(last.sd_years, row.sd, 1e-4);
        EXPECT_NEAR(last.effective_fills, row.effective, 1e-4);
        // Counted on the recursion: the first turn after which the vessel holds less.
        for (const auto& [p, counted] : {std::pair{0.05, row.below_5}, std::pair{0.01, row.below_1}}) {
            const auto first = std::find_if(turns.begin(), turns.end(),
                                            [p = p](const SoleraTurn& t) { return t.original_share_left < p; });
            EXPECT_EQ(first->turn, counted);
        }
    }
    EXPECT_EQ(pulls_until_original_below(0.5, 0.25), 3) << "equal is not below";
}

TEST(TheNthDraw, OfOneVesselTendsToItsLimitGeometrically) {
    for (const double f : {0.5, 0.25}) {
        const auto ages = mean_ages_of(chain_of({80}, 80 * f), 12);
        for (int n = 1; n <= 12; ++n) {
            const double limit = 1.0 / f;
            EXPECT_NEAR(ages[static_cast<std::size_t>(n - 1)], limit + std::pow(1.0 - f, n - 1) * (1.0 - limit),
                        k_doubles);
            EXPECT_NEAR(turns_of(chain_of({80}, 80 * f), n).back().original_share, original_share_in_draw(f, n), 1e-12);
        }
    }
}

TEST(ThreeBarrels, StandAtTheExactFractionsOfTheTable) {
    struct Row {
        int one_in, n;
        Fraction years;
    };
    const Row rows[] = {{3, 1, {1}},        {3, 2, {2}},       {3, 3, {3}},         {3, 4, {107, 27}},
                        {3, 5, {131, 27}},  {3, 6, {457, 81}}, {3, 8, {1675, 243}}, {2, 4, {31, 8}},
                        {2, 5, {73, 16}},   {2, 6, {81, 16}},  {4, 4, {255, 64}},   {4, 5, {1263, 256}},
                        {4, 6, {2985, 512}}};
    for (const Row& row : rows) {
        const SoleraPlan plan = chain_of({60, 60, 60}, 60.0 / row.one_in);
        EXPECT_EQ(exact_means({60, 60, 60}, 60 / row.one_in, {0}, {0}, {0}, row.n)[2], row.years);
        EXPECT_NEAR(turns_of(plan, row.n).back().mean_years, row.years.value(), k_doubles);
        EXPECT_NEAR(mean_ages_of(plan, row.n).back(), row.years.value(), k_doubles);
        EXPECT_NEAR(nth_draw_intervals(3, 1.0 / row.one_in, row.n), row.years.value(), k_doubles);
    }
    const std::vector<double> tenth = turns_of(chain_of({60, 60, 60}, 20), 10).back().stage_years;
    EXPECT_NEAR(tenth[0], 2.94798, 5.1e-6);
    EXPECT_NEAR(tenth[1], 5.63583, 5.1e-6);
    EXPECT_NEAR(tenth[2], 7.73840, 5.1e-6);
}

TEST(TheTableOfManyStages, ComesOutOfTheRecursionAndOfTheClosedForm) {
    for (const ManyStages& row : k_many_stages) {
        const double f = 1.0 / row.one_in;
        const SoleraPlan plan = chain_of(std::vector<double>(static_cast<std::size_t>(row.stages), 40.0), 40.0 * f);
        const auto ages = mean_ages_of(plan, 50);
        for (int i = 0; i < 5; ++i) {
            const double age = ages[static_cast<std::size_t>(k_many_stages_years[i] - 1)];
            EXPECT_NEAR(age, row.after[i], 5.1e-4) << "printed to three places";
            EXPECT_NEAR(age, nth_draw_intervals(row.stages, f, k_many_stages_years[i]), k_doubles);
        }
        EXPECT_NEAR(steady_state(plan).mean_years, row.limit, 1e-12);
        EXPECT_NEAR(settled_ages(plan)->mean_years, row.limit, 1e-9) << "solved from the map of one turn";
    }
}

TEST(ASettledChain, HasAgesOfTheNegativeBinomial) {
    for (const int stages : {1, 2, 3, 5}) {
        const double f = 0.25;
        const SoleraPlan plan = chain_of(std::vector<double>(static_cast<std::size_t>(stages), 40.0), 10.0);
        const SoleraTurn settled = turns_of(plan, 400).back();
        double variance = 0.0;
        for (const FillShare& fill : settled.fills) {
            if (fill.turn == 0) continue;
            const int k = 400 - fill.turn;
            // C(k-1, N-1) f^N (1-f)^(k-N), by its logarithm.
            const double pmf = k < stages
                                   ? 0.0
                                   : std::exp(std::lgamma(k) - std::lgamma(stages) - std::lgamma(k - stages + 1) +
                                              stages * std::log(f) + (k - stages) * std::log1p(-f));
            EXPECT_NEAR(fill.share, pmf, 1e-12) << stages << " " << k;
            EXPECT_NEAR(share_of_age(stages, f, k), pmf, 1e-12);
            variance += fill.share * (k - stages / f) * (k - stages / f);
        }
        EXPECT_NEAR(variance, stages * (1 - f) / (f * f), 1e-6);
        EXPECT_NEAR(steady_state(plan).sd_years, std::sqrt(stages * (1 - f) / (f * f)), 1e-12);
        EXPECT_NEAR(steady_state(plan).youngest_years, stages, 1e-12);
    }
}

TEST(ATurnWithoutAPull, IsToldAsItStoodBeforeItWasToppedUp) {
    // By hand: the first turn left out and 2 % evaporated, then topped up: what is told is all one turn old.
    SoleraPlan plan = chain_of({50}, 10);
    plan.first_pulls = {Volume{}};
    plan.evaporation = 0.02;
    const auto turns = turns_of(plan, 2);
    ASSERT_EQ(turns[0].fills.size(), 1U);
    EXPECT_NEAR(turns[0].mean_years, plan.interval_years, k_doubles);
    EXPECT_NEAR(turns[0].mean_years, turns[0].stage_years[0], k_doubles);
    EXPECT_NEAR(turns[0].sd_years, 0.0, k_doubles);
    // Then 2 % is one turn old and 98 % two.
    EXPECT_NEAR(turns[1].mean_years, (0.02 * 1 + 0.98 * 2) * plan.interval_years, k_doubles);
    EXPECT_NEAR(turns[1].sd_years, std::sqrt(0.02 * 0.98) * plan.interval_years, k_doubles);
}

TEST(UnequalVesselsAndEvaporation, AreCarriedAsVolumes) {
    // The same sums in exact fractions, as far as 128 bits reach.
    const SoleraPlan unequal = chain_of({100, 60, 40}, 20);
    for (int n = 1; n <= 8; ++n) {
        const auto exact = exact_means({100, 60, 40}, 20, {0}, {0}, {0}, n);
        const SoleraTurn turn = turns_of(unequal, n).back();
        for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(turn.stage_years[i], exact[i].value(), k_doubles);
    }
    SoleraPlan drying = unequal;
    drying.evaporation = 0.05;
    drying.start_age_years = 4.0;
    drying.age_in_years = 0.25;
    for (int n = 1; n <= 5; ++n) {
        const auto exact = exact_means({100, 60, 40}, 20, {1, 20}, {4}, {1, 4}, n);
        const SoleraTurn turn = turns_of(drying, n).back();
        for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(turn.stage_years[i], exact[i].value(), k_doubles);
        EXPECT_NEAR(turn.refilled.in_litres(), 20 + 0.05 * 200, 1e-6);
    }
    EXPECT_NEAR(steady_state(unequal).mean_years, 10.0, 1e-12);  // (100 + 60 + 40)/20
    const double limit = 0.25 + 40.0 / 22.0 + 60.0 / 25.0 + 100.0 / 30.0;
    EXPECT_NEAR(steady_state(drying).mean_years, limit, 1e-12);
    EXPECT_NEAR(settled_ages(drying)->mean_years, limit, 1e-9);
    EXPECT_NEAR(mean_ages_of(drying, 500).back(), limit, 1e-9);
}

TEST(ASolute, GathersWhereTheSolventGoes) {
    const double e = 0.05;
    const double f = 0.25;
    double before = 1.0;
    for (int n = 0; n < 500; ++n) {
        before /= 1.0 - e;                       // what evaporates leaves it behind
        const double held = 1.0 - e - f;         // of the volume, after the pull
        before = held * before + (e + f) * 1.0;  // topped up with concentration 1
    }
    // After topping up; before the next pull it is that over (1 - e).
    EXPECT_NEAR(concentration_factor(e, f) * (1.0 - e), before, 1e-12);
    EXPECT_NEAR(concentration_factor(e, f), 1.20, 1e-12);
    EXPECT_NEAR(concentration_factor(e, f) * (1.0 - e), 1.14, 1e-12);
}

TEST(TimeToSettle, IsCountedAndNotARule) {
    struct Row {
        int stages, one_in, turns;
    };
    // Counted a second time here on the plain list of means.
    for (const Row& row :
         {Row{1, 2, 7}, Row{4, 2, 14}, Row{4, 4, 32}, Row{4, 10, 83}, Row{8, 4, 50}, Row{8, 10, 130}}) {
        const SoleraPlan plan =
            chain_of(std::vector<double>(static_cast<std::size_t>(row.stages), 40.0), 40.0 / row.one_in);
        const double limit = static_cast<double>(row.stages) * row.one_in;
        const auto ages = mean_ages_of(plan, 400);
        int last_outside = 0;
        for (int n = 1; n <= 400; ++n)
            if (std::fabs(ages[static_cast<std::size_t>(n - 1)] - limit) > 0.01 * limit) last_outside = n;
        EXPECT_EQ(turns_to_settle(plan, 0.01), last_outside + 1);
        EXPECT_EQ(last_outside + 1, row.turns) << row.stages << " " << row.one_in;
    }
    // Begun with beer older than the limit, it comes down to it.
    SoleraPlan old = chain_of({40}, 20);
    old.start_age_years = 10.0;
    EXPECT_EQ(turns_to_settle(old, 0.01), 10);  // 9 x 2^-(n-1) <= 0.02 years
}

TEST(ManySmallPulls, ComeToStirredTanksInSeries) {
    // F(theta) = 1 - exp(-N theta) sum_{i<N} (N theta)^i / i!, theta in mean ages.
    const auto tanks = [](int n, double theta) {
        double term = 1.0;
        double sum = 0.0;
        for (int i = 0; i < n; ++i) {
            sum += term;
            term *= n * theta / (i + 1);
        }
        return 1.0 - std::exp(-n * theta) * sum;
    };
    const std::pair<int, double> printed[] = {{1, 0.632121}, {2, 0.593994}, {3, 0.576810}, {4, 0.566530},
                                              {5, 0.559507}, {6, 0.554320}, {8, 0.547039}};
    for (const auto& [n, at_one] : printed) EXPECT_NEAR(tanks(n, 1.0), at_one, 5.1e-7);
    for (const int n : {1, 2, 4}) {
        // 4 mL of each litre at a time: the steps are as fine as that, and so is the agreement.
        const double f = 0.004;
        const int turns = static_cast<int>(3.0 * n / f);
        const SoleraTurn last =
            turns_of(chain_of(std::vector<double>(static_cast<std::size_t>(n), 100.0), 100.0 * f, f), turns).back();
        for (const double theta : {0.25, 0.5, 1.0, 1.5, 2.0})
            EXPECT_NEAR(1.0 - last.share_older_than(theta * n), tanks(n, theta), 2.0 * f) << n << " " << theta;
    }
    // Washout of one tank: the first fill is down to 5 % and 1 % at 2.9957 and 4.6052 mean ages.
    EXPECT_NEAR(pulls_until_original_below(0.0001, 0.05) * 0.0001, 2.9957, 5e-4);
    EXPECT_NEAR(pulls_until_original_below(0.0001, 0.01) * 0.0001, 4.6052, 5e-4);
    // But half a vessel every two years is neither a tank of 2.8854 years nor of 2 or 4.
    EXPECT_NEAR(-2.0 / std::log(0.5), 2.8854, 5e-5);
}

// Drops of beer moved by lot, fixed seed: what a mean over fractions cannot get wrong in the same way.
TEST(DropsDrawnByLot, AreAsOldAsTheRecursionSays) {
    std::uint64_t state = 20260314;
    const auto random = [&state](std::size_t below) {
        state += 0x9E3779B97F4A7C15ULL;
        std::uint64_t z = state;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        return static_cast<std::size_t>((z ^ (z >> 31U)) % below);
    };
    const std::size_t sizes[] = {20'000, 12'000, 8'000};
    constexpr std::size_t k_pull = 4'000;
    std::vector<std::vector<int>> stages;  // turn each drop came in
    for (const std::size_t size : sizes) stages.emplace_back(size, 0);
    const auto turns = turns_of(chain_of({200, 120, 80}, 40), 12);
    for (int n = 1; n <= 12; ++n) {
        std::vector<int> coming;
        double sum = 0.0;
        double squares = 0.0;
        for (std::size_t i = stages.size(); i-- > 0;) {
            // k_pull different drops, to the end of the list.
            auto& stage = stages[i];
            for (std::size_t k = 0; k < k_pull; ++k)
                std::swap(stage[random(stage.size() - k)], stage[stage.size() - 1 - k]);
            std::vector<int> drawn(stage.end() - k_pull, stage.end());
            stage.resize(stage.size() - k_pull);
            if (i + 1 == stages.size()) {
                for (const int turn : drawn) {
                    sum += n - turn;
                    squares += (n - turn) * (n - turn);
                }
            } else {
                stages[i + 1].insert(stages[i + 1].end(), drawn.begin(), drawn.end());
            }
        }
        stages[0].insert(stages[0].end(), k_pull, n);
        const double mean = sum / k_pull;
        const double variance = squares / k_pull - mean * mean;
        // Four standard errors of a sample; the vessel itself is a sample too, whence the two.
        const double error = 4.0 * std::sqrt(2.0 * (variance + 1e-9) / k_pull);
        const SoleraTurn& turn = turns[static_cast<std::size_t>(n - 1)];
        EXPECT_NEAR(mean, turn.mean_years, error) << n;
        EXPECT_NEAR(std::sqrt(variance), turn.sd_years, 0.05 * turn.sd_years + 0.02) << n;
    }
}

TEST(ImperfectMixing, ChangesWhoIsInThePullButNotItsSettledMean) {
    // The mean stay is volume over flow, however beer moves inside (as for any closed vessel in steady flow:
    // Danckwerts 1953, Chem. Eng. Sci. 2:1-13, from memory).
    for (const double mixing : {0.9, 0.5, 0.1})
        for (const DrawnFrom drawn : {DrawnFrom::below, DrawnFrom::above}) {
            SoleraPlan plan = chain_of({60, 40}, 15);
            plan.mixing = mixing;
            plan.drawn = drawn;
            const auto limit = settled_ages(plan);
            ASSERT_TRUE(limit);
            EXPECT_NEAR(limit->mean_years, 100.0 / 15.0, 1e-9) << mixing;
            const SoleraTurn last = turns_of(plan, 1500).back();
            EXPECT_NEAR(last.mean_years, limit->mean_years, 1e-6);
            const double mixed_sd = steady_state(plan).sd_years;
            if (drawn == DrawnFrom::below)
                EXPECT_LT(last.sd_years, mixed_sd) << "less of it slips through young";
            else
                EXPECT_GT(last.sd_years, mixed_sd) << "much slips through, some stays for long";
            const auto settled = turns_to_settle(plan, 0.01, 5000);
            ASSERT_TRUE(settled);
            const auto ages = mean_ages_of(plan, *settled + 500);
            for (std::size_t i = static_cast<std::size_t>(*settled) - 1; i < ages.size(); ++i)
                EXPECT_NEAR(ages[i], limit->mean_years, 0.01 * limit->mean_years);
            EXPECT_GT(std::fabs(ages[static_cast<std::size_t>(*settled) - 2] - limit->mean_years),
                      0.01 * limit->mean_years)
                << "it is the first such turn";
        }
}

TEST(UnmixedHalves, AreAQueueOrADeadEnd) {
    // Half of the vessel at a time from below: every drop waits two turns, no more and no less.
    SoleraPlan queue = chain_of({60}, 30);
    queue.mixing = 0.0;
    const SoleraTurn last = turns_of(queue, 10).back();
    ASSERT_EQ(last.fills.size(), 1U);
    EXPECT_NEAR(last.mean_years, 2.0, 1e-12);
    EXPECT_NEAR(last.sd_years, 0.0, 1e-12);
    // From above: what went in last comes out, and the lower half stays for ever.
    SoleraPlan dead = queue;
    dead.drawn = DrawnFrom::above;
    EXPECT_NEAR(turns_of(dead, 10).back().mean_years, 1.0, 1e-12);
    EXPECT_NEAR(turns_of(dead, 10).back().stage_years[0], (1.0 + 10.0) / 2.0, 1e-12);
    EXPECT_FALSE(settled_ages(dead));
    EXPECT_FALSE(turns_to_settle(dead, 0.01));
    // Wholly mixed, it is the plain solera, wherever it is drawn from.
    SoleraPlan mixed = dead;
    mixed.mixing = 1.0;
    EXPECT_NEAR(turns_of(mixed, 5).back().mean_years, turns_of(chain_of({60}, 30), 5).back().mean_years, 1e-12);
}

TEST(ASolera, ThatCannotBeCarriedOutSaysWhy) {
    EXPECT_EQ(chain_of({60}, 60).trouble(), nullptr);
    EXPECT_NE(chain_of({60}, 61).trouble(), nullptr);
    EXPECT_NE(chain_of({20, 60}, 30).trouble(), nullptr) << "the first stage is smaller than the flow";
    EXPECT_NE(chain_of({}, 1).trouble(), nullptr);
    EXPECT_NE(chain_of({60}, 20, 0.0).trouble(), nullptr);
    SoleraPlan drying = chain_of({60}, 55);
    drying.evaporation = 0.1;
    EXPECT_NE(drying.trouble(), nullptr);
    SoleraPlan small_first = chain_of({60}, 20);
    small_first.first_pulls = {Volume{}, Volume::from_litres(5)};
    EXPECT_EQ(small_first.trouble(), nullptr);
    EXPECT_EQ(turns_of(small_first, 3)[0].refilled, Volume{});
    EXPECT_EQ(turns_of(small_first, 3)[2].pulled, Volume::from_litres(20));
}

}  // namespace
}  // namespace undercroft::testing
