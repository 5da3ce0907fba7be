#include "chem/charge_balance.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

namespace undercroft::chem {
namespace {

constexpr Medium k_plain{14.0, 0.0};

TEST(ChargeBalance, OfNothingIsNeutralWater) {
    const ChargeBalance water({}, k_plain);
    EXPECT_NEAR(water.solve({}).value().ph, 7.0, 1e-12);
}

TEST(ChargeBalance, OfOneWeakAcidIsTheQuadraticOfTheTextbook) {
    const ChargeBalance acetic(std::array{Protolyte{1, {4.76}}}, Medium{30.0, 0.0});  // no water to speak of
    const double k = std::pow(10.0, -4.76);
    for (const double c : {1e-4, 1e-2, 0.1, 1.0}) {
        const double h = 0.5 * (-k + std::sqrt(k * k + 4.0 * k * c));
        EXPECT_NEAR(acetic.solve({std::array{c}}).value().ph, -std::log10(h), 1e-11) << c;
    }
}

TEST(ChargeBalance, ReachesBothEndsOfTheScale) {
    const ChargeBalance water({}, k_plain);
    EXPECT_NEAR(water.solve({{}, -0.5}).value().ph, -std::log10(0.5), 1e-11);
    EXPECT_NEAR(water.solve({{}, 0.5}).value().ph, 14.0 + std::log10(0.5), 1e-11);
    EXPECT_EQ(water.solve({{}, 5.0}).error().kind, ErrorKind::outside_model);
    EXPECT_EQ(water.solve({{}, -5.0}).error().kind, ErrorKind::outside_model);
}

TEST(ChargeBalance, RefusesWhatCannotBe) {
    const ChargeBalance acetic(std::array{Protolyte{1, {4.76}}}, k_plain);
    EXPECT_EQ(acetic.solve({std::array{-1e-9}}).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(acetic.solve({std::array{std::nan("")}}).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(acetic.solve({std::array{0.1}, INFINITY}).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(acetic.solve({std::array{0.1}, 0.0, -0.1}).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(acetic.at_ph({std::array{0.1}}, 14.5).error().kind, ErrorKind::bad_input);
}

TEST(ChargeBalance, SaysWhereTheActivityLawEnds) {
    const ChargeBalance water({}, water_at(Temperature::from_celsius(20.0)));
    EXPECT_TRUE(water.solve({{}, 0.001, 0.45}));
    const auto salty = water.solve({{}, 0.001, 0.55});
    ASSERT_FALSE(salty);
    EXPECT_EQ(salty.error().kind, ErrorKind::outside_model);
    EXPECT_EQ(salty.error().where, "ionic strength");
}

TEST(ChargeBalance, AnswersAreTheSameToTheBitOnEveryWidthAndForAnyLeftOver) {
    const std::array<Protolyte, 4> acids{Protolyte{3, {3.13, 4.76, 6.40}}, Protolyte{1, {3.86}},
                                         Protolyte{2, {1.8, 7.2}}, Protolyte{1, {4.2}, Protolyte::Basis::as_read}};
    for (const Medium& medium : {k_plain, water_at(Temperature::from_celsius(20.0))}) {
        const ChargeBalance balance(acids, medium);
        for (std::size_t count = 1; count <= 19; ++count) {
            std::array<std::vector<double>, 4> totals;
            std::vector<double> strong;
            std::vector<double> shift;
            for (std::size_t i = 0; i < count; ++i) {
                for (std::size_t p = 0; p < 4; ++p) totals[p].push_back(1e-3 * static_cast<double>(i * (p + 1)));
                strong.push_back(-0.002 + 0.003 * static_cast<double>(i));
                shift.push_back(0.01 * static_cast<double>(i));
            }
            AmountColumns columns;
            for (std::size_t p = 0; p < 4; ++p) columns.totals[p] = totals[p].data();
            columns.strong_ions = strong.data();
            columns.pk_shift = shift.data();
            columns.count = count;
            std::vector<double> one(count);
            EXPECT_EQ(balance.solve_many(columns, one.data(), Lanes::one), 0U);
            for (std::size_t i = 0; i < count; ++i) {
                const std::array here{totals[0][i], totals[1][i], totals[2][i], totals[3][i]};
                EXPECT_EQ(balance.ph({here, strong[i], 0.0, shift[i]}).value(), one[i]);
            }
            for (const Lanes lanes : {Lanes::two, Lanes::four, Lanes::eight, Lanes::automatic}) {
                if (!has_lanes(lanes)) continue;
                std::vector<double> wide(count);
                EXPECT_EQ(balance.solve_many(columns, wide.data(), lanes), 0U);
                EXPECT_EQ(wide, one) << count;
            }
        }
    }
}

TEST(ChargeBalance, AColumnLeftOutIsNoneOfThatAcid) {
    const ChargeBalance two(std::array{Protolyte{1, {4.76}}, Protolyte{2, {3.4, 5.1}}}, k_plain);
    const std::vector<double> acetic(5, 0.05);
    // One of them has no answer, so the sure way is asked too.
    const std::vector<double> strong{0.0, 0.01, 50.0, 0.02, 0.03};
    AmountColumns columns;
    columns.totals[0] = acetic.data();
    columns.strong_ions = strong.data();
    columns.count = 5;
    std::vector<double> ph(5);
    EXPECT_EQ(two.solve_many(columns, ph.data()), 1U);
    for (const std::size_t i : {0U, 1U, 3U, 4U})
        EXPECT_EQ(ph[i], two.ph({std::array{0.05, 0.0}, strong[i]}).value()) << i;
}

TEST(ChargeBalance, OneThatHasNoAnswerDoesNotDisturbItsNeighbours) {
    const ChargeBalance acetic(std::array{Protolyte{1, {4.76}}}, k_plain);
    std::vector<double> totals(16, 0.05);
    std::vector<double> strong(16, 0.02);
    totals[3] = -1.0;
    strong[9] = std::nan("");
    strong[12] = 50.0;
    AmountColumns columns;
    columns.totals[0] = totals.data();
    columns.strong_ions = strong.data();
    columns.count = 16;
    std::vector<double> ph(16);
    EXPECT_EQ(acetic.solve_many(columns, ph.data()), 3U);
    const double good = acetic.ph({std::array{0.05}, 0.02}).value();
    for (std::size_t i = 0; i < 16; ++i) {
        if (i == 3 || i == 9 || i == 12)
            EXPECT_TRUE(std::isnan(ph[i])) << i;
        else
            EXPECT_EQ(ph[i], good) << i;
    }
}

}  // namespace
}  // namespace undercroft::chem
