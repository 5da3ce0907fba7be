// Whether an amount is noticed: flavour units, the band of tasters, and what adds to what.
#include "engine/taste/noticing.hpp"

#include <gtest/gtest.h>

#include "tables/threshold.hpp"

namespace undercroft::engine::taste {
namespace {

TEST(Noticing, HalfOfTheTastersNoticeWhatIsAtTheThresholdAndOneInTenAtItsFourAndAHalfth) {
    EXPECT_NEAR(noticed({{100.0, 100.0, 100.0}}).share, 0.5, 1e-12);
    EXPECT_NEAR(noticed({{100.0 * k_taster_factor, 100.0, 100.0}}).share, 0.9, 1e-9);
    EXPECT_NEAR(noticed({{100.0 / k_taster_factor, 100.0, 100.0}}).share, 0.1, 1e-9);
    EXPECT_EQ(noticed({}).share, 0.0);
    EXPECT_EQ(noticed({{0.0, 90.0, 200.0}}).share, 0.0);
}

// The least sensitive tenth needs 20 times what the most sensitive tenth needs (Meilgaard 1982, abstract).
TEST(Noticing, TheBandOfTastersSpansAFactorOfTwenty) {
    const Noticed it = noticed({{50.0, 10.0, 40.0}});
    EXPECT_NEAR(it.units_high / it.units_low, 20.0, 1e-9);
    EXPECT_NEAR(it.units, 50.0 / 20.0, 1e-12) << "the middle of 10 and 40 is 20";
}

TEST(Noticing, AceticAcidAt0Point7IsSmeltByNineOfTenAndAt0Point02ByFew) {
    const tables::Threshold& acetic = *tables::find_threshold(tables::shipped_thresholds(), "acetic acid").value();
    const Noticed strong = noticed({{700.0, acetic.low, acetic.high}});
    EXPECT_EQ(weight_of(strong.units), Weight::main);
    EXPECT_GT(strong.share, 0.9);
    EXPECT_LT(noticed({{20.0, acetic.low, acetic.high}}).share, 0.1);
}

TEST(Noticing, LikeAddsToLike) {
    // Each at half its threshold; together at one (Clapperton & Brown 1978: fatty acids add up).
    const Noticed together = noticed({{2.25, 4.5, 4.5}, {0.75, 1.5, 1.5}});
    EXPECT_NEAR(together.units, 1.0, 1e-12);
    EXPECT_GT(together.share, noticed({{2.25, 4.5, 4.5}}).share);
}

TEST(Thresholds, AreFoundByAnyOfTheirWordsAndSayTheirSource) {
    for (const tables::Threshold& row : tables::shipped_thresholds()) {
        EXPECT_FALSE(row.source.empty()) << row.id;
        EXPECT_LE(row.low, row.high) << row.id;
        EXPECT_EQ(*tables::find_threshold(tables::shipped_thresholds(), row.name), &row);
        for (const std::string& word : row.also)
            EXPECT_EQ(*tables::find_threshold(tables::shipped_thresholds(), word), &row) << word;
    }
    const auto unknown = tables::find_threshold(tables::shipped_thresholds(), "acetic acd");
    ASSERT_FALSE(unknown);
    EXPECT_NE(unknown.error().next_step.find("acetic acid"), std::string::npos) << unknown.error().next_step;
}

}  // namespace
}  // namespace undercroft::engine::taste
