// How much a technique moves: dose and time forms against their closed forms (data/effects.csv), and chemistry or the
// whole, never both.
#include "engine/finish/effect.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace undercroft::engine::finish {
namespace {

const tables::Tables& effect_tables() {
    static const tables::Tables k_tables = tables::load().value();
    return k_tables;
}

const tables::Technique& technique_named(const std::string& id, tables::FruitWay way = tables::FruitWay::none) {
    for (const auto& one : effect_tables().techniques)
        if (one.id == id && one.way == way) return one;
    throw std::logic_error("no " + id);
}

tables::Effect effect_row(tables::DoseForm dose, tables::TimeForm time) {
    tables::Effect it;
    it.dose_mid = 4.0;
    it.half_dose = 3.0;
    it.dose_form = dose;
    it.time_form = time;
    it.t90_days = 10.0;
    it.mean_total = 2.0;
    it.sd_total = 1.0;
    it.mean_beyond = 2.0;
    it.sd_beyond = 1.0;
    return it;
}

TEST(AnEffect, IsTheTablesAtTheMiddleDoseWhateverItsForm) {
    for (const tables::Effect& one : effect_tables().effects)
        if (one.dose_form != tables::DoseForm::none) {
            EXPECT_NEAR(dose_factor(one, one.dose_mid), 1.0, 1e-12) << one.technique;
        }
}

TEST(AnEffect, GrowsWithTheDoseOrFlattens) {
    const auto linear = effect_row(tables::DoseForm::linear, tables::TimeForm::immediate);
    EXPECT_DOUBLE_EQ(dose_factor(linear, 8.0), 2.0);
    const auto flat = effect_row(tables::DoseForm::saturating, tables::TimeForm::immediate);
    EXPECT_NEAR(dose_factor(flat, 3.0), 0.5 / (4.0 / 7.0), 1e-12) << "half of all there is at the half dose";
    EXPECT_LT(dose_factor(flat, 1e6), 7.0 / 4.0 + 1e-6);
    EXPECT_DOUBLE_EQ(dose_factor(flat, 0.0), 0.0);
}

TEST(AnEffect, ComesNineTenthsByItsDays) {
    const auto slow = effect_row(tables::DoseForm::linear, tables::TimeForm::first_order);
    const tables::Technique& spice = technique_named("spice_vanilla");
    EXPECT_NEAR(time_factor(slow, spice, 10.0), 0.9, 1e-12);
    EXPECT_NEAR(time_factor(slow, spice, 20.0), 0.99, 1e-12);
    EXPECT_DOUBLE_EQ(time_factor(slow, spice, 0.0), 0.0);
}

TEST(AnEffect, OfAgeIsWholeAtSixMonths) {
    const tables::Technique& age = technique_named("age_on");
    for (const tables::Effect& one : effect_tables().effects)
        if (one.technique == "age_on" && one.time_form == tables::TimeForm::first_order) {
            EXPECT_NEAR(time_factor(one, age, days_of(age, 6.0)), 1.0, 1e-12) << one.attribute;
        }
}

TEST(AnEffect, ThatDependsOnTheBeerTurnsWhereItsLineCrossesNothing) {
    auto row = effect_row(tables::DoseForm::linear, tables::TimeForm::immediate);
    row.depends_on = "titratable_acidity";
    row.depends_ref = 5.0;
    row.depends_slope = -0.5;
    const tables::Technique& any = technique_named("spice_vanilla");
    EXPECT_NEAR(change_of(row, any, {4.0, 1.0}, {{"titratable_acidity", 9.0}}, nullptr).mean, 0.0, 1e-12);
    EXPECT_LT(change_of(row, any, {4.0, 1.0}, {{"titratable_acidity", 10.0}}, nullptr).mean, 0.0);
    EXPECT_NEAR(change_of(row, any, {4.0, 1.0}, {}, nullptr).mean, 2.0, 1e-12) << "an unknown beer is the average one";
}

TEST(AnEffect, TakesChemistryOrTheWholeAndNeverBoth) {
    auto row = effect_row(tables::DoseForm::linear, tables::TimeForm::immediate);
    const tables::Technique& any = technique_named("spice_vanilla");
    const ByChemistry chemistry{3.0, 0.2};
    EXPECT_NEAR(change_of(row, any, {4.0, 1.0}, {}, &chemistry).mean, 2.0, 1e-12)
        << "a row whose means agree says that chemistry explains nothing of it";
    row.mean_beyond = -0.5;
    EXPECT_NEAR(change_of(row, any, {4.0, 1.0}, {}, &chemistry).mean, 3.0 - 0.5, 1e-12);
    EXPECT_NEAR(change_of(row, any, {4.0, 1.0}, {}, &chemistry).sd, std::hypot(1.0, 0.2), 1e-12);
}

TEST(Effects, WithoutARowAreNothingWithTheNoiseOfTasting) {
    const auto changes = changes_of(effect_tables().effects, technique_named("spice_chilli"), {0.3, 3.0}, true, {},
                                    {{"warmth", {0.5, 0.0}}});
    EXPECT_EQ(changes.count("body"), 0U);
    ASSERT_EQ(changes.count("warmth"), 1U) << "what chemistry says of an attribute without a row counts";
    EXPECT_NEAR(changes.at("warmth").mean, 0.5, 1e-12);
}

}  // namespace
}  // namespace undercroft::engine::finish
