// Mean ages of fractional blending against exact fractions.
//
// Sources: the quantities are those of Baker, Amerine & Roessler 1952, "Theory and application of fractional-blending
// systems", Hilgardia 21(14):383-409, doi 10.3733/hilg.v21n14p383, whose abstract says that a constant age is
// approached, and that age rises with more barrels, smaller and rarer draws; its printed tables were not seen. Every
// number below is derived: worked out in exact fractions by the little simulation here, and held against both the
// closed form and a replayed book. The exercise with three barrels and a third a year is from memory of Graham, Knuth
// & Patashnik, Concrete Mathematics; its answer is derived, not theirs.
// Convention: age from entry, measured before the draw; the bottom is drawn, refilled from the one above it, and the
// top with new beer.
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include "engine/age/age.hpp"
#include "tests/published/many_stages.hpp"
#include "tests/support/fraction.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

// Ages of all stages before the n-th draw, the last drawn from first to last: stage 0 gets the new beer.
std::vector<Fraction> exact_ages(int stages, Fraction share, Fraction period, int draws) {
    std::vector<Fraction> ages(static_cast<std::size_t>(stages), Fraction{0});
    for (int n = 1;; ++n) {
        for (Fraction& age : ages) age = age + period;
        if (n == draws) return ages;
        for (std::size_t i = ages.size(); i-- > 0;)
            ages[i] = (Fraction{1} - share) * ages[i] + share * (i == 0 ? Fraction{0} : ages[i - 1]);
    }
}

constexpr std::int64_t k_ms_per_year = 31'557'600'000;  // 365.25 days, exactly

Instant in_year(int year) {
    return Instant{on_day(0).ms + year * k_ms_per_year};
}

// A chain of vessels, all filled in year 0, drawn from `draws` times; "fill k" is the new beer of draw k.
struct Chain {
    WrittenBook book;
    std::vector<std::string> names;
    int period = 1;

    Chain(const std::vector<double>& volumes, double drawn, int period_years, int draws) : period(period_years) {
        std::vector<EntryKey> stages;
        for (std::size_t i = 0; i < volumes.size(); ++i) {
            names.push_back("Stage " + std::to_string(i + 1));
            stages.push_back(book.vessel(in_year(0), names.back(), volumes[i]));
            book.lot(in_year(0), stages.back(), "fill 0", volumes[i]);
        }
        for (int n = 1; n <= draws; ++n) {
            const Instant when = in_year(n * period);
            book.loss(when, stages.back(), drawn, LossCause::served);
            for (std::size_t i = stages.size(); i-- > 1;) book.move(when, stages[i - 1], stages[i], drawn);
            book.lot(when, stages.front(), "fill " + std::to_string(n), drawn);
        }
    }
    // Age of a stage before the draw after all those of the book, or right after the last refill.
    [[nodiscard]] engine::Age age_of(std::size_t stage, int year) const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        const auto age = engine::age_of(*cellar, vessel_named(*cellar, names[stage]).liquid, in_year(year), UtcZone{},
                                        engine::AgeFrom::entry);
        EXPECT_TRUE(age);
        return *age;
    }
};

// Pre-draw age of the last stage of a chain of equal vessels at its n-th draw.
engine::Age age_at_draw(int stages, int one_in, int period, int n) {
    const Chain chain(std::vector<double>(static_cast<std::size_t>(stages), 60.0), 60.0 / one_in, period, n - 1);
    return chain.age_of(static_cast<std::size_t>(stages - 1), n * period);
}

// Ages of up to 80 years are sums of some hundred products in doubles; the volumes are exact.
constexpr double k_book_tolerance = 1e-10;

TEST(HalfAVesselEveryTwoYears, AgesTowardsFourYearsBeforeTheDrawAndTwoAfterTheRefill) {
    const Fraction expected[] = {{2}, {3}, {7, 2}, {15, 4}, {31, 8}, {63, 16}};  // 2, 3, 3.5, 3.75, 3.875, 3.9375
    for (int n = 1; n <= 6; ++n) {
        const Fraction exact = exact_ages(1, {1, 2}, 2, n)[0];
        EXPECT_EQ(exact, expected[n - 1]);
        EXPECT_NEAR(age_at_draw(1, 2, 2, n).mean_years, exact.value(), k_book_tolerance) << n;
    }
    const double after_refill[] = {1, 1.5, 1.75};
    for (int n = 1; n <= 3; ++n)
        EXPECT_NEAR(Chain({60}, 30, 2, n).age_of(0, 2 * n).mean_years, after_refill[n - 1], k_book_tolerance);
    // T/f and T(1-f)/f.
    EXPECT_NEAR(age_at_draw(1, 2, 2, 45).mean_years, 4.0, k_book_tolerance);
    EXPECT_NEAR(Chain({60}, 30, 2, 45).age_of(0, 90).mean_years, 2.0, k_book_tolerance);
    // Averaged over a period: T/f - T/2.
    const Chain settled({60}, 30, 2, 45);
    EXPECT_NEAR((settled.age_of(0, 90).mean_years + settled.age_of(0, 92).mean_years) / 2.0, 3.0, k_book_tolerance);
}

TEST(TheNthDraw, FollowsTheClosedForm) {
    for (const int one_in : {2, 3, 4, 5, 10}) {
        const double share = 1.0 / one_in;
        for (const int n : {1, 2, 5, 12, 30}) {
            const double settled = 3.0 / share;
            const double closed = settled + std::pow(1.0 - share, n - 1) * (3.0 - settled);
            EXPECT_NEAR(age_at_draw(1, one_in, 3, n).mean_years, closed, k_book_tolerance) << one_in << " " << n;
        }
    }
}

TEST(VintageShares, AreGeometricBeforeTheDraw) {
    struct Row {
        int one_in;
        double shares[6];
    };
    const Row rows[] = {{2, {.5, .25, .125, .0625, .03125, .015625}},
                        {3, {.33333, .22222, .14815, .09877, .06584, .04390}},
                        {4, {.25, .1875, .140625, .10547, .07910, .05933}},
                        {5, {.2, .16, .128, .1024, .08192, .06554}},
                        {10, {.1, .09, .081, .0729, .06561, .05905}}};
    constexpr int k_draws = 20;
    for (const Row& row : rows) {
        const engine::Age age = age_at_draw(1, row.one_in, 1, k_draws + 1);
        const double share = 1.0 / row.one_in;
        for (int k = 1; k <= 6; ++k) {
            double found = -1.0;
            for (const engine::VintagePart& part : age.parts)
                if (part.name == "fill " + std::to_string(k_draws + 1 - k)) found = part.share;
            EXPECT_NEAR(found, share * std::pow(1.0 - share, k - 1), 1e-12) << row.one_in << " " << k;
            EXPECT_NEAR(found, row.shares[k - 1], 6e-6) << "printed to five places";
        }
    }
}

TEST(TheFirstFill, IsBelowFiveAndOnePercentAfterSoManyPulls) {
    struct Row {
        int one_in, below_five, below_one;
    };
    for (const Row& row : {Row{2, 5, 7}, Row{3, 8, 12}, Row{4, 11, 17}, Row{5, 14, 21}, Row{10, 29, 44}}) {
        const auto first_below = [&row](double limit) {
            for (int n = 1;; ++n) {
                const Chain chain({60}, 60.0 / row.one_in, 1, n);
                const auto cellar = chain.book.cellar();
                if (share_of(*cellar, cellar->vessels[0].liquid, "fill 0") < limit) return n;
            }
        };
        EXPECT_EQ(first_below(0.05), row.below_five) << row.one_in;
        EXPECT_EQ(first_below(0.01), row.below_one) << row.one_in;
    }
}

TEST(ASettledVessel, HasItsSpreadAndItsEffectiveNumberOfVintages) {
    struct Row {
        int one_in;
        double vintages, spread;
    };
    for (const Row& row :
         {Row{2, 3, 1.41421}, Row{3, 5, 2.44949}, Row{4, 7, 3.46410}, Row{5, 9, 4.47214}, Row{10, 19, 9.48683}}) {
        const double share = 1.0 / row.one_in;
        // 0.9^350 is 1e-16: nothing is left of the first fill.
        const engine::Age age = age_at_draw(1, row.one_in, 1, 350);
        EXPECT_NEAR(age.effective_vintages, (2.0 - share) / share, 1e-9);
        EXPECT_NEAR(age.effective_vintages, row.vintages, 1e-9);
        EXPECT_NEAR(age.sd_years, std::sqrt(1.0 - share) / share, 1e-9);
        EXPECT_NEAR(age.sd_years, row.spread, 5e-6) << "printed to five places";
        EXPECT_NEAR(age.mean_years, 1.0 / share, 1e-9);
        // "In a half-pulled vessel 75 % is aged two periods or less."
        if (row.one_in == 2) {
            EXPECT_NEAR(engine::share_older_than(age, 2.5), 0.25, 1e-9);
        }
        EXPECT_NEAR(age.youngest_years, 1.0, 1e-9) << "a period, when nothing younger was poured in";
    }
}

TEST(ThreeBarrels, OfAThirdAHalfAndAQuarterAYearStandAtTheseFractions) {
    struct Row {
        int n;
        Fraction third, half, quarter;
    };
    const Row rows[] = {{1, 1, 1, 1},
                        {2, 2, 2, 2},
                        {3, 3, 3, 3},
                        {4, {107, 27}, {31, 8}, {255, 64}},
                        {5, {131, 27}, {73, 16}, {1263, 256}},
                        {6, {457, 81}, {81, 16}, {2985, 512}}};
    for (const Row& row : rows) {
        EXPECT_EQ(exact_ages(3, {1, 3}, 1, row.n)[2], row.third) << row.n;
        EXPECT_EQ(exact_ages(3, {1, 2}, 1, row.n)[2], row.half) << row.n;
        EXPECT_EQ(exact_ages(3, {1, 4}, 1, row.n)[2], row.quarter) << row.n;
        EXPECT_NEAR(age_at_draw(3, 3, 1, row.n).mean_years, row.third.value(), k_book_tolerance) << row.n;
        EXPECT_NEAR(age_at_draw(3, 2, 1, row.n).mean_years, row.half.value(), k_book_tolerance) << row.n;
        EXPECT_NEAR(age_at_draw(3, 4, 1, row.n).mean_years, row.quarter.value(), k_book_tolerance) << row.n;
    }
    EXPECT_EQ(exact_ages(3, {1, 3}, 1, 8)[2], (Fraction{1675, 243}));

    struct Later {
        int n, one_in;
        double years;
    };
    for (const Later& later : {Later{8, 3, 6.893004}, Later{8, 2, 5.632813}, Later{8, 4, 7.417053},
                               Later{10, 3, 7.738404}, Later{10, 2, 5.867188}, Later{10, 4, 8.696274},
                               Later{20, 3, 8.936396}, Later{20, 2, 5.999556}, Later{20, 4, 11.525023}}) {
        const double exact = exact_ages(3, {1, later.one_in}, 1, later.n)[2].value();
        EXPECT_NEAR(exact, later.years, 5.1e-7) << later.n << " " << later.one_in << ": printed to six places";
        EXPECT_NEAR(age_at_draw(3, later.one_in, 1, later.n).mean_years, exact, k_book_tolerance);
    }
    // The limit is N T/f.
    EXPECT_NEAR(age_at_draw(3, 3, 1, 120).mean_years, 9.0, 1e-9);
    EXPECT_NEAR(age_at_draw(3, 2, 1, 120).mean_years, 6.0, 1e-9);
    EXPECT_NEAR(age_at_draw(3, 4, 1, 150).mean_years, 12.0, 1e-9);
}

TEST(ThreeBarrels, OfAThirdAYearStandAtTheirOwnAgesInTheTenthYear) {
    const Chain chain({60, 60, 60}, 20, 1, 9);
    const std::vector<Fraction> exact = exact_ages(3, {1, 3}, 1, 10);
    const double printed[] = {2.94798, 5.63583, 7.73840};
    for (std::size_t stage = 0; stage < 3; ++stage) {
        EXPECT_NEAR(chain.age_of(stage, 10).mean_years, exact[stage].value(), k_book_tolerance);
        EXPECT_NEAR(exact[stage].value(), printed[stage], 6e-6);
    }
}

TEST(ManyStages, ShowTheirCalendarAgeForYears) {
    // P(Bin(k, f) < N): fewer than N draws of k reached this part of the beer.
    const auto fewer = [](int k, double f, int stages) {
        double sum = 0.0;
        double term = std::pow(1.0 - f, k);
        for (int j = 0; j < stages && j <= k; ++j) {
            sum += term;
            term *= (k - j) * f / ((j + 1) * (1.0 - f));
        }
        return sum;
    };
    for (const ManyStages& row : k_many_stages) {
        const double f = 1.0 / row.one_in;
        for (int i = 0; i < 5; ++i) {
            double closed = 0.0;
            for (int k = 0; k < k_many_stages_years[i]; ++k) closed += fewer(k, f, row.stages);
            EXPECT_NEAR(closed, row.after[i], 6e-4) << "printed to three places";
            EXPECT_LT(closed, row.limit);
            EXPECT_NEAR(age_at_draw(row.stages, row.one_in, 1, k_many_stages_years[i]).mean_years, closed, 1e-9)
                << row.stages << " " << row.one_in << " " << k_many_stages_years[i];
        }
    }
}

TEST(UnequalStages, SettleAtTheSumOfTheirVolumesOverThePull) {
    // T sum(V)/v = (100 + 60 + 40)/20.
    const Chain chain({100, 60, 40}, 20, 1, 250);
    EXPECT_NEAR(chain.age_of(2, 251).mean_years, 10.0, 1e-9);
    EXPECT_NEAR(chain.age_of(1, 251).mean_years, 8.0, 1e-9);
    EXPECT_NEAR(chain.age_of(0, 251).mean_years, 5.0, 1e-9);
}

TEST(ABlend, OfThreeQuartersAtSixteenMonthsAndAQuarterAtFortyEightAveragesTwentyFour) {
    // common practice, no source: the sum is 0.75 x 16 + 0.25 x 48.
    WrittenBook book;
    const EntryKey vessel = book.vessel(in_year(0), "Blend", 100);
    const auto lot = [&](const char* name, double volume, int months) {
        LotEnters body;
        body.vessel = vessel;
        body.name = name;
        body.volume = litres(volume);
        const auto days = static_cast<int>(std::lround(months * 365.25 / 12.0));
        body.brewed_from = body.brewed_to = add_days(day_of(in_year(0), UtcZone{}), -days);
        book.write(in_year(0), body);
    };
    lot("young", 75, 16);
    lot("old", 25, 48);
    const auto cellar = book.cellar();
    const auto age =
        engine::age_of(*cellar, cellar->vessels[0].liquid, in_year(0), UtcZone{}, engine::AgeFrom::brew_day);
    ASSERT_TRUE(age);
    EXPECT_NEAR(age->mean_years * 12.0, 24.0, 0.02);  // brew days are whole days: half of one is 0.016 months
    EXPECT_NEAR(age->youngest_years * 12.0, 16.0, 0.02);
}

}  // namespace
}  // namespace undercroft::testing
