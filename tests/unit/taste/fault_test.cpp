// Whether a fault still stands, and what it asks for.
#include "engine/taste/fault.hpp"

#include <gtest/gtest.h>

#include <random>
#include <vector>

#include "tests/support/reference_tables.hpp"

namespace undercroft::engine::taste {
namespace {

using undercroft::testing::reference_tables;

const tables::Fault& row(const char* id) {
    return **reference_tables().find_fault(id);
}

TEST(AFault, ThatNobodyNamedIsNone) {
    EXPECT_FALSE(standing_of(row("mousy"), {}));
    EXPECT_FALSE(standing_of(row("mousy"), {{10, false}, {60, false}}));
}

// Two rope-free looks a month apart, two clear tastings a month apart: common practice, no source.
TEST(AFault, ThatTimeMendsEndsWithTwoClearTastingsFourWeeksApart) {
    const tables::Fault& mousy = row("mousy");
    const auto open = standing_of(mousy, {{100, true}});
    ASSERT_TRUE(open);
    EXPECT_EQ(open->answer, FaultAnswer::wait);
    EXPECT_EQ(open->next_clear, 101);
    EXPECT_EQ(open->likely_low, 100 + 8 * 7);
    EXPECT_EQ(open->likely_high, 100 + 52 * 7);
    const auto once = standing_of(mousy, {{100, true}, {160, false}, {187, false}});
    EXPECT_EQ(once->clear, 1) << "27 days are too few";
    EXPECT_EQ(once->next_clear, 188);
    EXPECT_TRUE(once->stands());
    EXPECT_FALSE(standing_of(mousy, {{100, true}, {160, false}, {187, false}, {188, false}})->stands());
}

TEST(AFault, ThatComesBackBeginsTheWaitAnew) {
    const tables::Fault& mousy = row("mousy");
    const auto back = standing_of(mousy, {{100, true}, {160, false}, {170, true}, {180, false}});
    EXPECT_EQ(back->first_named, 100) << "it was never over";
    EXPECT_EQ(back->last_named, 170);
    EXPECT_EQ(back->clear, 1);
    const auto anew = standing_of(mousy, {{100, true}, {160, false}, {200, false}, {300, true}});
    EXPECT_EQ(anew->first_named, 300);
    EXPECT_TRUE(anew->stands());
}

TEST(AFault, ThatTimeDoesNotMendStandsHoweverOftenItTastesClear) {
    const std::vector<FaultLook> looks = {{1, true}, {100, false}, {200, false}, {300, false}};
    EXPECT_EQ(standing_of(row("vinegar_excess"), looks)->answer, FaultAnswer::treat);
    EXPECT_EQ(standing_of(row("musty_cork"), looks)->answer, FaultAnswer::isolate);
    EXPECT_EQ(standing_of(row("crushed_geranium"), looks)->answer, FaultAnswer::isolate);
    EXPECT_EQ(standing_of(row("mould_growth"), looks)->answer, FaultAnswer::dump);
    EXPECT_FALSE(standing_of(row("musty_cork"), looks)->likely_high);
}

TEST(AFault, IsNeverOverForAnUnsafeBeer) {
    for (const tables::Fault& fault : reference_tables().faults) {
        if (!fault.unsafe) continue;
        for (int tastings = 0; tastings < 40; ++tastings) {
            std::vector<FaultLook> looks = {{0, true}};
            for (int i = 1; i <= tastings; ++i) looks.push_back({30 * i, false});
            EXPECT_EQ(standing_of(fault, looks)->answer, FaultAnswer::dump) << fault.id;
        }
    }
}

// Naming it once more never ends it sooner.
TEST(AFault, NamedAgainNeverEndsSooner) {
    std::mt19937 random(20261127);
    const tables::Fault& ropy = row("ropy");
    for (int round = 0; round < 2000; ++round) {
        std::vector<FaultLook> looks = {{0, true}};
        for (int day = 1; day < 200; day += 1 + int(random() % 40)) looks.push_back({day, random() % 5 == 0});
        std::vector<FaultLook> again = looks;
        again[random() % again.size()].named = true;
        const auto before = standing_of(ropy, looks);
        const auto after = standing_of(ropy, again);
        if (after->first_named == before->first_named) {
            EXPECT_LE(after->clear, before->clear);
        }
        EXPECT_GE(after->last_named, before->last_named);
    }
}

}  // namespace
}  // namespace undercroft::engine::taste
