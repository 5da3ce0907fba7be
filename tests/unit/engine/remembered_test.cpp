#include "engine/age/remembered.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

namespace undercroft::engine {
namespace {

SoleraMemory memory_of(double founded_least, double founded_most, double share, double interval) {
    SoleraMemory memory;
    memory.founded = {founded_least, founded_most};
    memory.share = share;
    memory.interval_years = interval;
    return memory;
}

double sum_of(const std::vector<RememberedLot>& lots) {
    return std::accumulate(lots.begin(), lots.end(), 0.0,
                           [](double sum, const RememberedLot& lot) { return sum + lot.share; });
}

TEST(ARememberedSolera, IsMadeOfGeometricLotsThatGrowVaguerWithAge) {
    // Founded 6 years ago, a third every year, last refilled today.
    SoleraMemory memory = memory_of(6.0, 6.0, 1.0 / 3.0, 1.0);
    memory.last_refill = YearsAgo{0.0, 0.0};
    const auto past = remembered_solera(memory);
    ASSERT_TRUE(past);
    EXPECT_EQ(past->refills, 6);  // today, and 1 to 5 years ago
    EXPECT_EQ(past->least_refills, 6) << "5.2 intervals of 15 % more, and the last refill itself";
    EXPECT_EQ(past->most_refills, 8);
    EXPECT_NEAR(sum_of(past->lots), 1.0, 1e-12);
    ASSERT_EQ(past->lots.size(), 7U);
    for (std::size_t i = 0; i < 6; ++i) {
        const RememberedLot& lot = past->lots[i];
        EXPECT_NEAR(lot.share, std::pow(2.0 / 3.0, static_cast<double>(i)) / 3.0, 1e-12);
        EXPECT_NEAR(lot.brewed.least, 0.8 * static_cast<double>(i), 1e-12);
        EXPECT_NEAR(lot.brewed.most, std::min(6.0, 1.2 * static_cast<double>(i)), 1e-12);
        EXPECT_FALSE(lot.first_fill);
    }
    EXPECT_TRUE(past->lots.back().first_fill);
    EXPECT_NEAR(past->lots.back().share, std::pow(2.0 / 3.0, 6), 1e-12);
    EXPECT_NEAR(past->original_share, std::pow(2.0 / 3.0, 6), 1e-12);
    EXPECT_NEAR(past->lots.back().brewed.most, 6.0, 1e-12);
}

TEST(ARememberedSolera, HoldsManySmallOldRefillsAsOneLot) {
    const auto past = remembered_solera(memory_of(29.5, 30.5, 0.5, 0.5));
    ASSERT_TRUE(past);
    EXPECT_EQ(past->refills, 60);
    EXPECT_LT(past->lots.size(), 9U);
    EXPECT_NEAR(sum_of(past->lots), 1.0, 1e-12);
    EXPECT_TRUE(past->lots.back().first_fill);
    EXPECT_EQ(past->lots.back().to_refill, 60);
    EXPECT_NEAR(past->lots.back().brewed.most, 30.5, 1e-12);
    for (const RememberedLot& lot : past->lots) EXPECT_LE(lot.brewed.least, lot.brewed.most);
}

TEST(ARememberedSolera, OfWhichTheLastRefillIsNotKnownIsUncertainByAnInterval) {
    const auto past = remembered_solera(memory_of(10.0, 11.0, 0.25, 1.0));
    ASSERT_TRUE(past);
    EXPECT_EQ(past->lots[0].brewed.least, 0.0);
    EXPECT_EQ(past->lots[0].brewed.most, 1.0);
}

TEST(ARememberedSolera, YoungerThanItsIntervalIsStillItsFirstFill) {
    SoleraMemory memory = memory_of(0.2, 0.3, 0.3, 1.0);
    memory.last_refill = YearsAgo{0.3, 0.3};
    const auto past = remembered_solera(memory);
    ASSERT_TRUE(past);
    EXPECT_EQ(past->refills, 0);
    ASSERT_EQ(past->lots.size(), 1U);
    EXPECT_EQ(past->lots[0].share, 1.0);
}

TEST(Contradictions, AreAnsweredWithTheNumbers) {
    // Founded 2 years ago, 5 turns a year of a half, and still a third of the first fill.
    SoleraMemory memory = memory_of(2.0, 2.0, 0.5, 0.2);
    memory.last_refill = YearsAgo{0.0, 0.0};
    memory.original_share = 1.0 / 3.0;
    const auto past = remembered_solera(memory);
    ASSERT_FALSE(past);
    EXPECT_EQ(past.error().kind, ErrorKind::impossible);
    EXPECT_NE(past.error().what.find("10 refills of 50 % leave 0.1 % of the first fill, not 33 %"), std::string::npos)
        << past.error().what;
    bool says_share = false;
    for (const Fact& fact : past.error().facts)
        says_share = says_share || fact.value == "a share of 10.4 % a turn";  // 1 - (1/3)^(1/10)
    EXPECT_TRUE(says_share);
    memory.original_share = 0.001;
    const auto fits = remembered_solera(memory);
    ASSERT_TRUE(fits) << "as near as memory goes";
    EXPECT_NEAR(std::pow(1.0 - fits->share, 10), 0.001, 1e-12) << "and then the share is fitted to it";

    SoleraMemory refilled_before = memory_of(1.0, 2.0, 0.5, 0.5);
    refilled_before.last_refill = YearsAgo{3.0, 3.0};
    EXPECT_FALSE(remembered_solera(refilled_before));
    EXPECT_FALSE(remembered_solera(memory_of(5.0, 6.0, 1.0, 1.0)));
}

Volume sum_of(const std::vector<DatedVolume>& lots) {
    Volume sum;
    for (const DatedVolume& lot : lots) sum += lot.volume;
    return sum;
}

TEST(ALaterFind, TakesItsShareOfWhatWasThereAndLeavesTheRestInProportion) {
    const std::vector<DatedVolume> lots = {{{0.0, 1.0}, Volume::from_ul(10'000'000)},
                                           {{2.0, 4.0}, Volume::from_ul(7'000'001)},
                                           {{4.0, 6.0}, Volume::from_ul(5'000'000)},
                                           {{6.0, 9.0}, Volume::from_ul(7'000'000)}};
    // Seen 2.5 years ago: the first lot came later.
    const auto found = narrowed(lots, {{4.5, 5.5}, 2.5, 0.5});
    ASSERT_TRUE(found);
    EXPECT_EQ(found->found, 2U);
    EXPECT_EQ(found->lots[0].volume, lots[0].volume);
    EXPECT_NEAR(found->lots[2].volume.in_litres(), 19.000001 / 2.0, 1e-6);
    EXPECT_NEAR(found->lots[1].volume.in_litres(), 19.000001 / 4.0, 1e-6);
    EXPECT_EQ(found->lots[2].brewed.least, 4.5);
    EXPECT_EQ(found->lots[3].brewed.most, 9.0);
    EXPECT_EQ(sum_of(found->lots), sum_of(lots)) << "to the microlitre";
}

TEST(ALaterFind, ThatNoRememberedBeerCanBeIsRefused) {
    const std::vector<DatedVolume> lots = {{{0.0, 1.0}, Volume::from_ul(10'000'000)},
                                           {{2.0, 4.0}, Volume::from_ul(5'000'000)}};
    const auto older = narrowed(lots, {{8.0, 9.0}, 1.5, 0.5});
    ASSERT_FALSE(older);
    EXPECT_EQ(older.error().kind, ErrorKind::impossible);
    EXPECT_GE(older.error().facts.size(), 4U);
}

TEST(ALaterFind, PartsTheOnlyLotThereWas) {
    const std::vector<DatedVolume> lots = {{{0.0, 1.0}, Volume::from_ul(10'000'000)},
                                           {{2.0, 4.0}, Volume::from_ul(5'000'001)}};
    const auto half = narrowed(lots, {{2.5, 3.0}, 1.5, 0.5});
    ASSERT_TRUE(half && half->rest);
    EXPECT_EQ(half->lots[1].volume + half->rest->volume, lots[1].volume);
    EXPECT_EQ(half->lots[1].brewed.most, 3.0);
    EXPECT_EQ(half->rest->brewed.most, 4.0);
    EXPECT_FALSE(narrowed(lots, {{2.5, 3.0}, 1.5, 1.0})->rest) << "it was all of it";
}

TEST(SharesOfAVolume, SumToItToTheMicrolitre) {
    for (const std::int64_t ul : {1L, 7L, 29'000'000L, 58'123'457L}) {
        const auto parts = shared_out(Volume::from_ul(ul), {0.31, 0.214, 0.1476, 0.1018, 0.2266});
        Volume sum;
        for (const Volume part : parts) {
            EXPECT_GE(part, Volume{});
            sum += part;
        }
        EXPECT_EQ(sum, Volume::from_ul(ul));
    }
}

}  // namespace
}  // namespace undercroft::engine
