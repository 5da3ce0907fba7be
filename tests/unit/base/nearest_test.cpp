// "Did you mean" offers what was probably meant, and nothing far-fetched.
#include "base/nearest.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace undercroft {
namespace {

const std::vector<std::string> k_vessels{"Oak 1", "Oak 2", "Blue drum", "Sour cherry jar", "sweet cherry jar"};

TEST(EditDistance, CountsInsertionsDeletionsReplacementsAndSwaps) {
    EXPECT_EQ(edit_distance("", ""), 0U);
    EXPECT_EQ(edit_distance("oak", ""), 3U);
    EXPECT_EQ(edit_distance("", "oak"), 3U);
    // The textbook pair of Levenshtein's distance.
    EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);
    EXPECT_EQ(edit_distance("plum", "plmu"), 1U);
    EXPECT_EQ(edit_distance("Plum", "pLUM"), 0U);
}

TEST(EditDistance, IsTheSameBothWays) {
    EXPECT_EQ(edit_distance("raspberry", "strawberry"), edit_distance("strawberry", "raspberry"));
}

TEST(NearestNames, OffersTheNearestFirst) {
    EXPECT_EQ(nearest_names("oka 1", k_vessels, 1), (std::vector<std::string>{"Oak 1"}));
    EXPECT_EQ(nearest_names("oak", k_vessels, 3), (std::vector<std::string>{"Oak 1", "Oak 2"}));
}

TEST(NearestNames, ANameThatHoldsWhatWasTypedIsNear) {
    EXPECT_EQ(nearest_names("CHERRY", k_vessels, 3), (std::vector<std::string>{"Sour cherry jar", "sweet cherry jar"}));
}

TEST(NearestNames, OffersNothingFarFetchedAndNoNameTwice) {
    EXPECT_TRUE(nearest_names("zzzzzzzz", k_vessels, 3).empty());
    EXPECT_TRUE(nearest_names("", k_vessels, 3).empty());
    EXPECT_TRUE(nearest_names("oak", k_vessels, 0).empty());
    EXPECT_EQ(nearest_names("plun", {"plum", "plum"}, 3), (std::vector<std::string>{"plum"}));
}

}  // namespace
}  // namespace undercroft
