#include "engine/age/profile.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace undercroft::engine {
namespace {

Age of_parts(std::vector<VintagePart> parts) {
    Age age;
    age.parts = std::move(parts);
    return age;
}

// A thousand drops of the beer, each as old as its part: percentiles the plain way.
double by_drops(const Age& age, int percent, double end) {
    std::vector<double> drops;
    for (const VintagePart& part : age.parts)
        drops.insert(drops.end(), static_cast<std::size_t>(part.share * 1000.0 + 0.5),
                     part.age_years + end * part.age_spread_years);
    std::sort(drops.begin(), drops.end());
    return drops[static_cast<std::size_t>(percent) * drops.size() / 100 - 1];
}

TEST(APercentile, IsTheAgeThatSoMuchOfTheBeerDoesNotExceed) {
    const Age age = of_parts({{0, "old", 0.400, 4.0, 0.5, true},
                              {1, "young", 0.333, 0.3, 0.0, false},
                              {2, "middle", 0.267, 1.4, 0.0, false}});
    const AgeProfile profile = profile_of(age, {});
    ASSERT_EQ(profile.percentiles.size(), 5U);
    for (const AgePercentile& row : profile.percentiles) {
        EXPECT_EQ(row.years.young, by_drops(age, row.percent, -1.0)) << row.percent;
        EXPECT_EQ(row.years.middle, by_drops(age, row.percent, 0.0)) << row.percent;
        EXPECT_EQ(row.years.old, by_drops(age, row.percent, 1.0)) << row.percent;
    }
}

TEST(APercentile, OfAQuarterOfFourEqualPartsIsTheYoungest) {
    const Age age = of_parts({{0, "a", 0.25, 1.0, 0.0, false},
                              {1, "b", 0.25, 2.0, 0.0, false},
                              {2, "c", 0.25, 3.0, 0.0, false},
                              {3, "d", 0.25, 4.0, 0.0, false}});
    const AgeProfile profile = profile_of(age, {2.0});
    EXPECT_EQ(profile.percentiles[1].years.middle, 1.0);
    EXPECT_EQ(profile.percentiles[2].years.middle, 2.0);
    EXPECT_EQ(profile.percentiles[3].years.middle, 3.0);
    EXPECT_EQ(profile.percentiles[4].years.middle, 4.0);
    EXPECT_EQ(profile.older[0].share.middle, 0.75);
}

TEST(TheShareOlderThanAnAge, LiesBetweenWhatAssumedLotsWouldGiveAtEitherEndOfTheirRange) {
    const Age age = of_parts({{0, "remembered", 0.6, 3.0, 1.0, true}, {1, "known", 0.4, 3.5, 0.0, false}});
    const AgeProfile profile = profile_of(age, {3.2, 2.0, 4.1});
    EXPECT_DOUBLE_EQ(profile.older[0].share.young, 0.4);
    EXPECT_DOUBLE_EQ(profile.older[0].share.middle, 0.4);
    EXPECT_DOUBLE_EQ(profile.older[0].share.old, 1.0);
    EXPECT_DOUBLE_EQ(profile.older[1].share.young, 1.0) << "at the very edge it counts";
    EXPECT_DOUBLE_EQ(profile.older[2].share.old, 0.0);
}

TEST(ARange, ThatWouldReachBelowNothingStopsThere) {
    const AgeProfile profile = profile_of(of_parts({{0, "remembered", 1.0, 0.5, 0.9, true}}), {});
    EXPECT_EQ(profile.percentiles[0].years.young, 0.0);
    EXPECT_DOUBLE_EQ(profile.percentiles[0].years.old, 1.4);
}

}  // namespace
}  // namespace undercroft::engine
