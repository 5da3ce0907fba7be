// Blind sets: codes that tell nothing, and orders that are fair to every glass.
#include "engine/taste/blind.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <map>
#include <set>
#include <stdexcept>

namespace undercroft::engine::taste {
namespace {

TEST(ABlindSet, GivesEveryTasterEveryGlassOnceUnderCodesOfThreeDigits) {
    for (int glasses = 1; glasses <= k_most_glasses; ++glasses)
        for (std::uint64_t seed = 0; seed < 40; ++seed) {
            const BlindSet set = blind_set(glasses, 7, seed);
            EXPECT_EQ(std::set<std::string>(set.codes.begin(), set.codes.end()).size(), std::size_t(glasses));
            for (const std::string& code : set.codes) EXPECT_EQ(code.size(), 3U);
            ASSERT_EQ(set.orders.size(), 7U);
            for (std::vector<int> order : set.orders) {
                std::sort(order.begin(), order.end());
                for (int glass = 0; glass < glasses; ++glass) EXPECT_EQ(order[std::size_t(glass)], glass);
            }
        }
}

TEST(ABlindSet, IsTheSameForTheSameSeedAndAnotherForAnother) {
    EXPECT_EQ(blind_set(4, 3, 7).codes, blind_set(4, 3, 7).codes);
    EXPECT_EQ(blind_set(4, 3, 7).orders, blind_set(4, 3, 7).orders);
    EXPECT_NE(blind_set(4, 3, 7).codes, blind_set(4, 3, 8).codes);
}

// Over a whole square each glass stands in each place, and follows each other glass, equally often: Williams 1949.
TEST(ABlindSet, OfAWholeSquareIsBalancedForPlaceAndForWhatCameBefore) {
    for (int glasses = 2; glasses <= 9; ++glasses) {
        const int rows = glasses % 2 == 0 ? glasses : 2 * glasses;
        const BlindSet set = blind_set(glasses, rows, 20261127);
        std::map<std::pair<int, int>, int> at;
        std::map<std::pair<int, int>, int> after;
        for (const auto& order : set.orders)
            for (std::size_t place = 0; place < order.size(); ++place) {
                ++at[{order[place], int(place)}];
                if (place > 0) ++after[{order[place - 1], order[place]}];
            }
        EXPECT_EQ(at.size(), std::size_t(glasses * glasses));
        for (const auto& [which, count] : at) EXPECT_EQ(count, rows / glasses) << glasses;
        EXPECT_EQ(after.size(), std::size_t(glasses * (glasses - 1)));
        for (const auto& [pair, count] : after) EXPECT_EQ(count, rows / glasses) << glasses;
    }
}

// Neither the size of its code nor its place tells which glass it is: over many seeds all are as often there.
TEST(ABlindSet, TellsNeitherByCodeNorByPlaceWhichGlassItIs) {
    constexpr int k_glasses = 4;
    constexpr int k_sets = 4000;
    std::map<int, int> lowest_code;
    std::map<int, int> met_first;
    for (std::uint64_t seed = 0; seed < k_sets; ++seed) {
        const BlindSet set = blind_set(k_glasses, 1, seed);
        ++lowest_code[int(std::min_element(set.codes.begin(), set.codes.end()) - set.codes.begin())];
        ++met_first[set.orders[0][0]];
    }
    const double limit = boost::math::quantile(boost::math::chi_squared(k_glasses - 1), 0.999);
    for (const auto& counts : {lowest_code, met_first}) {
        double chi = 0.0;
        constexpr double k_expected = double(k_sets) / k_glasses;
        for (int glass = 0; glass < k_glasses; ++glass) {
            const auto found = counts.find(glass);
            const double off = (found == counts.end() ? 0.0 : found->second) - k_expected;
            chi += off * off / k_expected;
        }
        EXPECT_LT(chi, limit);
    }
}

TEST(ABlindSet, OfNothingIsABug) {
    EXPECT_THROW((void)blind_set(0, 3, 1), std::invalid_argument);
    EXPECT_THROW((void)blind_set(3, 0, 1), std::invalid_argument);
    EXPECT_THROW((void)blind_set(13, 3, 1), std::invalid_argument);
}

}  // namespace
}  // namespace undercroft::engine::taste
