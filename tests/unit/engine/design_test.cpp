#include "engine/age/design.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "engine/age/age.hpp"
#include "engine/age/solera_formulas.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace engine;

DesignWish wish_of(double demand, double mean, double wait) {
    DesignWish wish;
    wish.demand_litres = demand;
    wish.mean_years = mean;
    wish.wait_years = wait;
    for (const Volume full : usual_vessels()) wish.vessels.push_back({full, 2.0 * full.in_litres()});
    wish.shares = usual_shares();
    wish.intervals = usual_intervals();
    return wish;
}

// Mean and share older, from the recursion over volumes, turn by turn: nothing of the designer's tables.
struct Worked {
    double mean = 0.0;
    double older = 0.0;
};
Worked worked_out(int stages, double share, double interval, double wait, double older_than) {
    const int pulls = static_cast<int>(std::floor(wait / interval + 1e-9));
    if (pulls == 0) return {};
    SoleraPlan plan;
    plan.stages.assign(static_cast<std::size_t>(stages), Volume::from_litres(1000));
    plan.pull = Volume::from_litres(1000 * share);
    plan.interval_years = interval;
    const SoleraTurn last = turns_of(plan, pulls).back();
    return {last.mean_years, last.share_older_than(older_than)};
}

TEST(TheDesigner, IsNeverWorseThanBruteForceOverItsGrid) {
    DesignWish wish = wish_of(60, 2.0, 5.0);
    wish.older = {{3.0, 0.1}};
    wish.vessels = {{litres(15), 30}, {litres(30), 40}, {litres(60), 70}, {litres(100), 160}};
    wish.shares = {0.05, 0.1, 0.25, 1.0 / 3.0, 0.5};
    wish.intervals = {0.25, 0.5, 1.0, 2.0};
    wish.most_stages = 5;
    const auto designs = designs_of(wish, 1000);
    ASSERT_FALSE(designs.empty());
    ASSERT_TRUE(designs.front().reached());
    double least = INFINITY;
    int met = 0;
    for (int stages = 1; stages <= wish.most_stages; ++stages)
        for (const double share : wish.shares)
            for (const double interval : wish.intervals) {
                const Worked worked = worked_out(stages, share, interval, wish.wait_years, 3.0);
                if (worked.mean < 2.0 || worked.older < 0.1) continue;
                for (const VesselOffer& offer : wish.vessels)
                    for (int abreast = 1; abreast <= wish.most_abreast; ++abreast) {
                        if (abreast * share * offer.full.in_litres() / interval < 60.0 - 1e-3) continue;
                        ++met;
                        const double work = (0.5 + 0.25 * stages * abreast) / interval;
                        least = std::min(least, offer.price * stages * abreast / 10.0 + work * wish.day_worth);
                    }
            }
    EXPECT_GT(met, 10) << "the wish leaves something to choose from";
    EXPECT_NEAR(designs.front().burden, least, 1e-9);
}

TEST(TheDesigner, SaysOfEachDesignWhatTheRecursionSays) {
    DesignWish wish = wish_of(40, 3.0, 6.0);
    wish.older = {{2.0, 0.5}};
    wish.mean_years = 2.5;
    const auto designs = designs_of(wish, 1000);
    ASSERT_GT(designs.size(), 20U);
    for (const Design& design : designs) {
        const Worked worked = worked_out(design.stages, design.share, design.interval_years, wish.wait_years, 2.0);
        EXPECT_NEAR(design.age_at_wait, worked.mean, 1e-4) << "pulls are whole microlitres";
        EXPECT_NEAR(design.older_at_wait[0], worked.older, 1e-5);
        EXPECT_NEAR(design.fit, std::min({1.0, worked.mean / 2.5, worked.older / 0.5}), 1e-4);
        EXPECT_GE(design.yearly_litres, 40.0 - 1e-3);
        EXPECT_NEAR(steady_state(plan_of(design, wish)).mean_years, design.settled_years, 1e-4);
    }
    EXPECT_TRUE(std::is_sorted(designs.begin(), designs.end(), [](const Design& a, const Design& b) {
        if (a.reached() != b.reached()) return a.reached();
        return a.reached() ? a.burden < b.burden : a.fit > b.fit + 0.01;
    }));
}

TEST(TheDesigner, GivesTheNearestWhereNoDesignIsOldEnoughInTime) {
    const DesignWish wish = wish_of(60, 5.0, 3.0);
    const auto designs = designs_of(wish, 5);
    ASSERT_FALSE(designs.empty());
    EXPECT_FALSE(designs.front().reached());
    double nearest = 0.0;
    for (int stages = 1; stages <= 8; ++stages)
        for (const double share : wish.shares)
            for (const double interval : wish.intervals)
                for (const VesselOffer& offer : wish.vessels)
                    if (wish.most_abreast * share * offer.full.in_litres() / interval >= 60.0)
                        nearest = std::max(
                            nearest,
                            nth_draw_intervals(stages, share, static_cast<int>(std::floor(3.0 / interval + 1e-9))) *
                                interval);
    EXPECT_GE(designs.front().age_at_wait, nearest - 0.01 * 5.0) << "to a percent of what is wished";
    EXPECT_LE(nearest, 3.0) << "nothing is older than the solera itself";
}

TEST(TheDesigner, FindsNothingWhereNoVesselYieldsTheDemand) {
    DesignWish wish = wish_of(100'000, 1.0, 5.0);
    EXPECT_TRUE(designs_of(wish, 5).empty());
    wish.demand_litres = 0.0;
    EXPECT_NE(trouble_of(wish), nullptr);
    wish = wish_of(60, 3.0, 5.0);
    EXPECT_EQ(trouble_of(wish), nullptr);
    wish.shares.push_back(0.61);
    EXPECT_NE(trouble_of(wish), nullptr) << "the hard stop";
}

TEST(TheFirstEightTurns, AreWhatTheSameMovesGiveInABook) {
    constexpr std::int64_t k_ms_per_year = 31'557'600'000;
    const DesignWish wish = wish_of(50, 2.5, 6.0);
    for (const Design& design : designs_of(wish, 4)) {
        const SoleraPlan plan = plan_of(design, wish);
        const auto turns = turns_of(plan, 8);
        WrittenBook book;
        std::vector<ledger::EntryKey> stages;
        for (const Volume full : plan.stages) {
            stages.push_back(book.vessel(on_day(0), "Stage " + std::to_string(stages.size() + 1), full.in_litres()));
            book.lot(on_day(0), stages.back(), "first fill", full.in_litres());
        }
        for (const SoleraTurn& turn : turns) {
            const Instant when{on_day(0).ms + std::llround(turn.years * static_cast<double>(k_ms_per_year))};
            const auto cellar = book.cellar();
            ASSERT_TRUE(cellar);
            const auto age = engine::age_of(*cellar, cellar->vessels.back().liquid, when, UtcZone{}, AgeFrom::entry);
            // Instants are whole milliseconds, and a year has 3e10 of them.
            EXPECT_NEAR(age->mean_years, turn.mean_years, 1e-9) << design.stages << " " << turn.turn;
            EXPECT_NEAR(age->sd_years, turn.sd_years, 1e-9);
            const double pull = design.pull.in_litres();
            book.loss(when, stages.back(), pull, ledger::LossCause::served);
            for (std::size_t i = stages.size(); i-- > 1;) book.move(when, stages[i - 1], stages[i], pull);
            book.lot(when, stages.front(), "fill " + std::to_string(turn.turn), pull);
        }
    }
}

TEST(StartingFaster, IsComparedOnTheSameRecursion) {
    const DesignWish wish = wish_of(50, 2.5, 6.0);
    const Design design = designs_of(wish, 1).front();
    const auto starts = starts_of(design, wish);
    ASSERT_EQ(starts.size(), 5U);
    const auto& plain = starts[0];
    ASSERT_TRUE(plain.turn_reached);
    const auto turns = turns_of(plain.plan, *plain.turn_reached);
    EXPECT_GE(turns.back().mean_years, 2.5 - 1e-9);
    ASSERT_GT(turns.size(), 1U);
    EXPECT_LT(turns[turns.size() - 2].mean_years, 2.5) << "the turn before was younger";
    EXPECT_NEAR(plain.mean_at_wait, design.age_at_wait, 1e-4);
    // Aged beer is there at once; the older it is, the sooner.
    EXPECT_EQ(starts[2].turn_reached, 1);
    EXPECT_LE(*starts[1].turn_reached, *plain.turn_reached);
    EXPECT_LT(starts[2].litres_before, plain.litres_before + 1e-9);
    // Holding back gives up beer first, and never makes the pulls younger.
    EXPECT_LE(starts[3].litres_before, plain.litres_before);
    EXPECT_GE(starts[3].mean_at_wait, plain.mean_at_wait - 1e-12);
    EXPECT_GE(starts[4].mean_at_wait, starts[3].mean_at_wait - 1e-12);
}

TEST(TheDesigner, KeepsToTheNumberOfStagesWished) {
    DesignWish wish = wish_of(60, 3.0, 8.0);
    wish.fewest_stages = 3;
    wish.most_stages = 4;
    const auto designs = designs_of(wish, 20);
    ASSERT_GT(designs.size(), 3U);
    for (const Design& design : designs) {
        EXPECT_GE(design.stages, 3);
        EXPECT_LE(design.stages, 4);
    }
    wish.fewest_stages = 5;
    EXPECT_NE(trouble_of(wish), nullptr) << "no number lies between five and four";
}

}  // namespace
}  // namespace undercroft::testing
