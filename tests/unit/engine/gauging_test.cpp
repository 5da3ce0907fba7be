// Volumes by dip and weight: against closed formulas, an integration done another way, and the rule of the trade.
#include "engine/state/gauging.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace undercroft::engine {
namespace {

using namespace ledger;

Length cm(double centimetres) {
    return Length::from_centimetres(centimetres);
}
Volume litres(double value) {
    return Volume::from_litres(value);
}

VesselJoins vessel(double capacity, Gauge gauge) {
    VesselJoins body;
    body.name = "The vessel";
    body.capacity = litres(capacity);
    body.gauge = std::move(gauge);
    return body;
}

double at_depth(const VesselJoins& vessel, double depth) {
    const auto found = litres_at_depth(vessel, cm(depth));
    EXPECT_TRUE(found) << (found ? "" : found.error().what);
    return found.value_or(-1.0);
}

// A cylinder on its side, by the closed formula of every handbook (Bronshtein, Semendyayev: Handbook of Mathematics,
// segment of a circle; from memory): A = R^2 acos((R - h) / R) - (R - h) sqrt(2 R h - h^2).
TEST(ALyingCylinder, HoldsASegmentOfACircle) {
    for (const double h : {0.5, 3.0, 20.0, 31.0, 40.0, 59.0}) {
        constexpr double k_r = 30.0;
        const double area = k_r * k_r * std::acos((k_r - h) / k_r) - (k_r - h) * std::sqrt(2.0 * k_r * h - h * h);
        // Both round nothing but doubles; no slice differs from the next.
        EXPECT_NEAR(lying_share(h, 60.0, 60.0), area / (std::numbers::pi * k_r * k_r), 1e-12) << h;
    }
}

// The same barrel cut the other way: boards of the width of the liquid at each height, by the midpoint rule.
double by_boards(double depth, double bilge, double head) {
    const double large = bilge / 2.0;
    const double narrows = large - head / 2.0;
    constexpr int k_boards = 2000;
    constexpr int k_along = 2000;
    const auto area_at = [&](double y) {  // of a level cut through the barrel, half of it
        double sum = 0.0;
        for (int i = 0; i < k_along; ++i) {
            const double x = (i + 0.5) / k_along;
            const double r = large - narrows * x * x;
            if (r > std::fabs(y)) sum += std::sqrt(r * r - y * y);
        }
        return sum / k_along;
    };
    double below = 0.0;
    double whole = 0.0;
    for (int k = 0; k < k_boards; ++k) {
        const double height = (k + 0.5) / k_boards * bilge;
        const double area = area_at(height - large);
        whole += area;
        if (height < depth) below += area;
    }
    return below / whole;
}

TEST(ALyingBarrel, HoldsWhatAnotherIntegrationSays) {
    for (const double depth : {6.9, 13.8, 34.5, 48.3, 62.1}) {
        // Depths that boards of 69/2000 cm end at; each rule is good to about 1e-5.
        EXPECT_NEAR(lying_share(depth, 69.0, 56.0), by_boards(depth, 69.0, 56.0), 5e-5) << depth;
    }
}

TEST(ALyingBarrel, IsHalfFullAtHalfItsHeightAndRisesAllTheWay) {
    EXPECT_NEAR(lying_share(34.5, 69.0, 56.0), 0.5, 1e-9);
    double before = 0.0;
    for (int mm = 1; mm <= 690; ++mm) {
        const double share = lying_share(mm / 10.0, 69.0, 56.0);
        EXPECT_GE(share, before) << mm;
        EXPECT_NEAR(share + lying_share(69.0 - mm / 10.0, 69.0, 56.0), 1.0, 1e-6) << mm;
        before = share;
    }
    EXPECT_NEAR(lying_share(69.0, 69.0, 56.0), 1.0, 1e-9);
    EXPECT_EQ(lying_share(0.0, 69.0, 56.0), 0.0);
}

// The whole of it: V = pi L (2 D^2 + D d + 3/4 d^2) / 15 for staves bent as a parabola (from memory, as in tables of
// solids). A sum of circles along the barrel gives the same.
TEST(ALyingBarrel, HasTheWholeThatItsFormulaSays) {
    constexpr double k_bilge = 69.0;
    constexpr double k_head = 56.0;
    constexpr int k_steps = 100'000;
    double sum = 0.0;
    for (int i = 0; i < k_steps; ++i) {
        const double x = (i + 0.5) / k_steps;
        const double r = k_bilge / 2.0 - (k_bilge - k_head) / 2.0 * x * x;
        sum += std::numbers::pi * r * r / k_steps;
    }
    const double formula =
        std::numbers::pi * (2.0 * k_bilge * k_bilge + k_bilge * k_head + 0.75 * k_head * k_head) / 15.0;
    EXPECT_NEAR(sum / formula, 1.0, 1e-9);
}

// Old gaugers' rule for a lying cask (Hutton, A Treatise on Mensuration, 1770; from memory): the segment of the
// bung circle, as if the cask were a cylinder of the bung's width. It is known to be rough: within a fiftieth of the
// whole for a barrel this slightly bellied.
TEST(ALyingBarrel, LiesNearTheGaugersRuleOfTheSegment) {
    for (const double share : {0.2, 0.35, 0.5, 0.65, 0.8})
        EXPECT_NEAR(lying_share(69.0 * share, 69.0, 60.0), lying_share(69.0 * share, 69.0, 69.0), 0.02) << share;
}

TEST(AnUprightVessel, HoldsInProportionToItsDepth) {
    const VesselJoins tank = vessel(60, {{}, VesselShape::upright, cm(50), {}, {}});
    EXPECT_NEAR(at_depth(tank, 0), 0.0, 1e-12);
    EXPECT_NEAR(at_depth(tank, 25), 30.0, 1e-9);
    EXPECT_NEAR(at_depth(tank, 50), 60.0, 1e-9);
    EXPECT_FALSE(litres_at_depth(tank, cm(50.1)));
    EXPECT_FALSE(litres_at_depth(tank, cm(-1)));
}

TEST(AVesselWithADipTable, HoldsItsMarksAndWhatLiesBetweenThem) {
    VesselJoins jar =
        vessel(25, {{}, VesselShape::table, {}, {}, {{cm(10), litres(8)}, {cm(20), litres(18)}, {cm(24), litres(21)}}});
    EXPECT_NEAR(at_depth(jar, 10), 8.0, 1e-12);
    EXPECT_NEAR(at_depth(jar, 15), 13.0, 1e-12);
    EXPECT_NEAR(at_depth(jar, 5), 4.0, 1e-12);  // from the bottom to the first mark
    EXPECT_NEAR(at_depth(jar, 24), 21.0, 1e-12);
    const auto beyond = litres_at_depth(jar, cm(25));
    ASSERT_FALSE(beyond);
    EXPECT_NE(beyond.error().what.find("last mark"), std::string::npos);
    jar.gauge.inner_height = cm(28);  // and from the last mark to the brim
    EXPECT_NEAR(at_depth(jar, 26), 23.0, 1e-12);
    EXPECT_NEAR(at_depth(jar, 28), 25.0, 1e-12);
}

TEST(AVesselWithoutAShape, IsNotDipped) {
    const auto found = litres_at_depth(vessel(25, {}), cm(10));
    ASSERT_FALSE(found);
    EXPECT_NE(found.error().next_step.find("--shape"), std::string::npos);
}

// Half a centimetre in a vessel of 1.2 L a centimetre is 0.6 L, and a hundredth of 30 L is 0.3 L: together 0.67.
TEST(ADip, IsAsGoodAsTheStickAndTheShape) {
    const VesselJoins tank = vessel(60, {{}, VesselShape::upright, cm(50), {}, {}});
    const auto half = gauged_by_dip(tank, cm(25), k_dip_sd);
    ASSERT_TRUE(half);
    EXPECT_NEAR(half->sd.in_litres(), std::hypot(0.6, 0.3), 1e-5);
    // A lying barrel is narrow at the top: the same stick says more there.
    const VesselJoins barrel = vessel(225, {{}, VesselShape::lying, cm(69), cm(56), {}});
    const auto of_stick = [&barrel](double depth) {
        const Gauged found = gauged_by_dip(barrel, cm(depth), k_dip_sd).value();
        const double of_shape = k_shape_sd * found.volume.in_litres();
        return std::sqrt(found.sd.in_litres() * found.sd.in_litres() - of_shape * of_shape);
    };
    EXPECT_LT(of_stick(68), 0.5 * of_stick(34.5));
    EXPECT_GT(gauged_by_dip(barrel, cm(69), k_dip_sd)->sd, Volume{});
}

// 10 kg of water at 20 C is 10 / 0.99820 = 10.018 L (0.9982 kg/L: CRC Handbook of Chemistry and Physics).
TEST(AWeight, IsAVolumeByItsDensity) {
    const Gauged water = gauged_by_weight(Mass::from_grams(10'000), Mass::from_grams(100), 1.0, 0.0);
    EXPECT_NEAR(water.volume.in_litres(), 10.018, 5e-4);  // printed to three decimals
    EXPECT_NEAR(water.sd.in_litres(), std::sqrt(2.0) * 0.1 / 0.99820, 1e-4);
    const Gauged wort = gauged_by_weight(Mass::from_grams(50'000), Mass::from_grams(100), 1.050, 0.001);
    EXPECT_NEAR(wort.volume.in_litres(), 50.0 / (1.050 * 0.99820), 1e-3);
    EXPECT_NEAR(wort.sd.in_litres(), std::hypot(std::sqrt(2.0) * 0.1 / 1.0481, 47.7 * 0.001 / 1.05), 1e-3);
}

}  // namespace
}  // namespace undercroft::engine
