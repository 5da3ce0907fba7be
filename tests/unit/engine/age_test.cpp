#include "engine/age/age.hpp"

#include <gtest/gtest.h>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;
using engine::AgeFrom;

Day days_before(int days) {
    return add_days(day_of(on_day(0), UtcZone{}), -days);
}

class AgeOfAVessel : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 100);

    void lot(const char* name, double volume, std::optional<Day> from, std::optional<Day> to,
             LotKind kind = LotKind::beer, bool assumed = false, int day = 0) {
        LotEnters body;
        body.vessel = amber;
        body.name = name;
        body.volume = litres(volume);
        body.brewed_from = from;
        body.brewed_to = to;
        body.kind = kind;
        body.age_assumed = assumed;
        book.write(on_day(day), body);
    }
    [[nodiscard]] std::optional<engine::Age> age(AgeFrom from, int day) const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        return engine::age_of(*cellar, cellar->vessels[0].liquid, on_day(day), UtcZone{}, from);
    }
};

// Days over 365.25, in doubles.
constexpr double k_rounding = 1e-12;

TEST_F(AgeOfAVessel, IsNothingForAnEmptyOneAndForOneWithoutBeer) {
    EXPECT_FALSE(age(AgeFrom::brew_day, 10));
    lot("Water", 10, std::nullopt, std::nullopt, LotKind::water);
    EXPECT_FALSE(age(AgeFrom::brew_day, 10));
}

TEST_F(AgeOfAVessel, CountsFromTheBrewDayOrFromTheDayItEntered) {
    lot("Wort", 20, days_before(28), days_before(28));
    EXPECT_NEAR(age(AgeFrom::brew_day, 337)->mean_years, 365 / 365.25, k_rounding);
    EXPECT_NEAR(age(AgeFrom::entry, 337)->mean_years, 337 / 365.25, k_rounding);
    EXPECT_STREQ(engine::word(AgeFrom::entry), "entry");
}

TEST_F(AgeOfAVessel, OfARememberedRangeIsItsMiddleWithTheHalfOfItEitherWay) {
    lot("Found years ago", 20, days_before(1461), days_before(731), LotKind::beer, true);
    const auto found = age(AgeFrom::brew_day, 0);
    EXPECT_NEAR(found->mean_years, 1096 / 365.25, k_rounding);
    EXPECT_NEAR(found->low_years, 731 / 365.25, k_rounding);
    EXPECT_NEAR(found->high_years, 4.0, k_rounding);
    EXPECT_NEAR(found->parts[0].age_spread_years, 365 / 365.25, k_rounding);
    EXPECT_TRUE(found->assumed);
    // It was old when it entered, whatever the convention.
    EXPECT_NEAR(age(AgeFrom::entry, 0)->mean_years, 1096 / 365.25, k_rounding);
}

TEST_F(AgeOfAVessel, IsAssumedOnlyWhereTheAssumedPartWeighsIn) {
    lot("Remembered", 0.9, days_before(4000), days_before(3000), LotKind::beer, true);
    lot("Known", 99.1, days_before(10), days_before(10));
    EXPECT_FALSE(age(AgeFrom::brew_day, 0)->assumed) << "0.9 %";
    book.loss(on_day(1), amber, 50);
    lot("Remembered too", 0.5, days_before(4000), days_before(3000), LotKind::beer, true, 2);
    EXPECT_TRUE(age(AgeFrom::brew_day, 3)->assumed) << "0.45 L and 0.5 L of 50.5 L";
}

TEST_F(AgeOfAVessel, StatesVintagesAmongTheBeerAndTheRestApart) {
    lot("Old", 60, days_before(730), days_before(730));
    lot("Young", 20, days_before(73), days_before(73));
    lot("Cherry juice", 15, std::nullopt, std::nullopt, LotKind::fruit);
    lot("Water", 5, std::nullopt, std::nullopt, LotKind::water);
    const auto found = age(AgeFrom::brew_day, 0);
    ASSERT_EQ(found->parts.size(), 2U);
    EXPECT_EQ(found->parts[0].name, "Old");
    EXPECT_NEAR(found->parts[0].share, 0.75, k_rounding);
    EXPECT_NEAR(found->beer_share, 0.8, k_rounding);
    ASSERT_EQ(found->others.size(), 2U);
    EXPECT_EQ(found->others[0].name, "Cherry juice");
    EXPECT_NEAR(found->others[0].share, 0.15, k_rounding);
    EXPECT_NEAR(found->mean_years, (0.75 * 730 + 0.25 * 73) / 365.25, k_rounding);
    EXPECT_NEAR(found->effective_vintages, 1.0 / (0.75 * 0.75 + 0.25 * 0.25), k_rounding);
    EXPECT_NEAR(engine::share_older_than(*found, 1.0), 0.75, k_rounding);
    EXPECT_NEAR(engine::share_older_than(*found, 0.0), 1.0, k_rounding);
    EXPECT_NEAR(engine::share_older_than(*found, 2.0), 0.75, k_rounding) << "730 days: its second birthday";
    EXPECT_EQ(engine::share_older_than(*found, 3.0), 0.0);
}

TEST_F(AgeOfAVessel, TakesForItsYoungestPartNoneBelowOneInAThousand) {
    lot("Old", 99.95, days_before(730), days_before(730));
    lot("A splash", 0.05, days_before(1), days_before(1));
    EXPECT_EQ(age(AgeFrom::brew_day, 0)->youngest_name, "Old");
    book.loss(on_day(1), amber, 50);
    lot("Another splash", 0.1, days_before(3), days_before(3), LotKind::beer, false, 2);
    EXPECT_EQ(age(AgeFrom::brew_day, 3)->youngest_name, "Another splash");
    EXPECT_NEAR(age(AgeFrom::brew_day, 3)->youngest_share, 0.1 / 50.1, k_rounding);
}

TEST_F(AgeOfAVessel, TakesFoundLiquidForAsOldAsWhatTheVesselHeld) {
    lot("Old", 60, days_before(730), days_before(730));
    lot("Young", 20, days_before(73), days_before(73));
    const double before = age(AgeFrom::brew_day, 100)->mean_years;
    LotEnters top_up;
    top_up.vessel = amber;
    top_up.name = "Water";
    top_up.kind = LotKind::water;
    top_up.volume = litres(15);
    top_up.settlement.found = litres(5);
    book.write(on_day(50), top_up);
    const auto found = age(AgeFrom::brew_day, 100);
    EXPECT_NEAR(found->mean_years, before, k_rounding);
    EXPECT_NEAR(found->beer_share, 0.85, k_rounding);
    ASSERT_EQ(found->others.size(), 1U) << "the water";
}

TEST_F(AgeOfAVessel, IsThatOfTheBottlesWhenTheyWereFilled) {
    lot("Old", 60, days_before(730), days_before(730));
    Package run;
    run.from = amber;
    run.run = "AMB-20-1";
    run.count = 10;
    run.fill = litres(0.33);
    run.priming_sugar = Mass::from_grams(16);
    run.priming_volume = litres(0.01);
    book.write(on_day(0), run);
    const auto cellar = book.cellar();
    const auto bottled =
        engine::age_of(*cellar, cellar->runs[0].liquid, cellar->runs[0].packaged, UtcZone{}, AgeFrom::brew_day);
    ASSERT_TRUE(bottled);
    EXPECT_NEAR(bottled->mean_years, 730 / 365.25, k_rounding);
    ASSERT_EQ(bottled->others.size(), 1U);
    EXPECT_EQ(bottled->others[0].kind, LotKind::syrup);
}

}  // namespace
}  // namespace undercroft::testing
