// How well a volume is known, what likely evaporated, and what calibrations and loggers say of a liquid.
#include "engine/state/stock.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "chem/extract.hpp"
#include "engine/state/gauging.hpp"
#include "engine/state/state.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;
using engine::Stock;

constexpr double k_stock_rounding = 1e-9;

class StockOf : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60, 2);
    EntryKey jar = book.vessel(on_day(0), "Jar 23", 60);

    void beer(Instant at, const EntryKey& into, double volume, const FullSettlement& settlement = {}) {
        LotEnters body;
        body.vessel = into;
        body.name = "Beer";
        body.volume = litres(volume);
        body.original_gravity = Decimal{1050, 3};
        body.gravity = Decimal{1010, 3};
        body.settlement = settlement;
        book.write(at, body);
    }
    EntryKey settle(Instant at, double held, double missing, double sd, LossCause cause = LossCause::evaporation) {
        Settle body;
        body.subject = amber;
        body.found = litres(held - missing);
        body.found_sd = litres(sd);
        body.missing = litres(missing);
        body.cause = cause;
        return book.write(at, body);
    }
    [[nodiscard]] engine::StateBook states() const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar) << (cellar ? "" : cellar.error().what);
        return engine::states_of(*cellar);
    }
    [[nodiscard]] Stock stock(std::size_t vessel) const { return states().stock.at(vessel); }
};

TEST_F(StockOf, AVesselIsKnownAsWellAsWhatWentInAndOut) {
    beer(on_day(1), amber, 50);
    EXPECT_NEAR(stock(0).sd_litres, 1.0, k_stock_rounding);
    book.loss(on_day(2), amber, 10);
    EXPECT_NEAR(stock(0).sd_litres, std::hypot(1.0, 0.2), k_stock_rounding);
}

TEST_F(StockOf, AStockTakeSetsTheSpreadAndMovesWidenItAgain) {
    beer(on_day(1), amber, 54);
    const EntryKey settled = settle(on_day(300), 54, 1.6, 0.6);
    EXPECT_NEAR(stock(0).sd_litres, 0.6, k_stock_rounding);
    ASSERT_TRUE(stock(0).last);
    EXPECT_EQ(stock(0).last->entry, settled);
    EXPECT_EQ(stock(0).last->found, litres(52.4));
    EXPECT_EQ(stock(0).last->booked, litres(52.4));
    book.move(on_day(301), amber, jar, 18);
    EXPECT_NEAR(stock(0).sd_litres, std::hypot(0.6, 0.36), k_stock_rounding);
    EXPECT_NEAR(stock(1).sd_litres, 0.36, k_stock_rounding);
}

TEST_F(StockOf, LiquidThatIsMovedWholeTakesItsSpreadAlong) {
    beer(on_day(1), amber, 54);
    settle(on_day(300), 54, 1.6, 0.6);
    book.move(on_day(301), amber, jar, 52.4);
    EXPECT_NEAR(stock(1).sd_litres, 0.6, k_stock_rounding);
    EXPECT_EQ(stock(0).sd_litres, 0.0);
    EXPECT_EQ(stock(0).reckoned, std::nullopt);
}

TEST_F(StockOf, ALateEntryBeforeAStockTakeShowsThatTheTwoNoLongerAgree) {
    beer(on_day(1), amber, 54);
    settle(on_day(300), 54, 1.6, 0.6);
    book.loss(on_day(200), amber, 2);
    EXPECT_EQ(stock(0).last->found, litres(52.4));
    EXPECT_EQ(stock(0).last->booked, litres(50.4));
}

TEST_F(StockOf, AFillingToFullThatCameOutOtherwiseIsAStockTakeToo) {
    beer(on_day(1), amber, 54);
    beer(on_day(300), amber, 6, {litres(2), {}});
    EXPECT_NEAR(stock(0).sd_litres, engine::k_full_sd * 58.0, k_stock_rounding);
    EXPECT_EQ(stock(0).reckoned, on_day(300));
}

TEST_F(StockOf, EvaporationIsLikelySinceItWasLastReckonedByTheMaterial) {
    beer(on_day(1), amber, 54);
    VesselJoins oak;
    oak.capacity = litres(225);
    oak.material = "oak";
    Stock there = stock(0);
    const Instant year_on{on_day(1).ms + std::llround(365.25 * 86'400'000.0)};
    const auto likely = engine::likely_evaporation(oak, there, year_on);
    ASSERT_TRUE(likely);
    EXPECT_NEAR(likely->litres, 0.04 * 54, 1e-6);
    EXPECT_NEAR(likely->low, 0.02 * 54, 1e-6);
    EXPECT_NEAR(likely->high, 0.08 * 54, 1e-6);
    EXPECT_EQ(likely->since, on_day(1));
    // Half as wide, an eighth of the volume, twice the surface to it.
    oak.capacity = litres(225.0 / 8.0);
    EXPECT_NEAR(engine::likely_evaporation(oak, there, year_on)->share_a_year, 0.08, 1e-12);
    // Walls that let less through: oak more than plastic, plastic more than steel (common practice, no source).
    double before = 1.0;
    for (const char* material : {"oak", "plastic", "steel"}) {
        oak.material = material;
        const double share = engine::likely_evaporation(oak, there, year_on)->share_a_year;
        EXPECT_LT(share, before);
        before = share;
    }
    oak.material = "goat skin";
    EXPECT_FALSE(engine::likely_evaporation(oak, there, year_on));
    // What is booked as evaporated is not told again.
    book.loss(on_day(100), amber, 1, LossCause::evaporation);
    EXPECT_EQ(stock(0).reckoned, on_day(100));
    settle(on_day(200), 53, 1, 0.5, LossCause::unknown);
    EXPECT_EQ(stock(0).reckoned, on_day(200));
}

TEST_F(StockOf, EvaporationAtAStockTakeConcentratesAndAnUnknownLossDoesNot) {
    beer(on_day(1), amber, 50);
    const double before = states().vessels[0].composition->real_extract_g_per_l;
    const EntryKey settled = settle(on_day(300), 50, 5, 0.6);
    EXPECT_NEAR(states().vessels[0].composition->real_extract_g_per_l, before * 50 / 45, 1e-9);
    Settle other = std::get<Settle>(book.entry(settled).body);
    other.cause = LossCause::unknown;
    book.correct(settled, other);
    EXPECT_NEAR(states().vessels[0].composition->real_extract_g_per_l, before, 1e-9);
}

class CalibratedReading : public StockOf {
protected:
    void read(int days, Quantity quantity, Decimal value, const std::string& unit, const std::string& instrument) {
        Reading body;
        body.subject = amber;
        body.values.push_back({quantity, value, unit});
        body.instrument = instrument;
        book.write(on_day(days), body);
    }
    EntryKey off_by(int days, Quantity quantity, Decimal offset, const std::string& unit) {
        return book.write(on_day(days), Calibrate{"meter", quantity, offset, unit});
    }
};

TEST_F(CalibratedReading, IsWhatTheInstrumentWouldHaveShownRight) {
    beer(on_day(1), amber, 54);
    read(20, Quantity::ph, Decimal{352, 2}, "pH", "meter");
    EXPECT_NEAR(states().vessels[0].ph->low, 3.52, k_stock_rounding);
    const EntryKey calibration = off_by(10, Quantity::ph, Decimal{-6, 2}, "pH");
    EXPECT_NEAR(states().vessels[0].ph->low, 3.46, k_stock_rounding);
    book.strike(calibration);
    EXPECT_NEAR(states().vessels[0].ph->low, 3.52, k_stock_rounding);
}

TEST_F(CalibratedReading, IsOnlyThatOfTheInstrumentItIsAboutAndOnlyFromThenOn) {
    beer(on_day(1), amber, 54);
    off_by(30, Quantity::ph, Decimal{-6, 2}, "pH");
    read(20, Quantity::ph, Decimal{352, 2}, "pH", "meter");
    EXPECT_NEAR(states().vessels[0].ph->low, 3.52, k_stock_rounding);
    read(40, Quantity::ph, Decimal{360, 2}, "pH", "strips");
    EXPECT_NEAR(states().vessels[0].ph->low, 3.60, k_stock_rounding);
    read(41, Quantity::ph, Decimal{360, 2}, "pH", "meter");
    EXPECT_NEAR(states().vessels[0].ph->low, 3.54, k_stock_rounding);
}

TEST_F(CalibratedReading, OfAGravityMovesGravityAlcoholAndTheWatch) {
    beer(on_day(1), amber, 54);
    off_by(2, Quantity::gravity, Decimal{-2, 3}, "SG");
    read(20, Quantity::gravity, Decimal{1008, 3}, "SG", "meter");
    const engine::LiquidState state = states().vessels[0];
    EXPECT_NEAR(state.gravity()->mean, 1.006, 1e-6);  // fermented_to reaches it within 1e-6
    EXPECT_NEAR(state.watch.at(0).gravity, 1.006, k_stock_rounding);
    EXPECT_NE(state.gravity_why.find("calibrated"), std::string::npos);
}

TEST(AnOffset, InOneUnitMovesAReadingInAnother) {
    const auto offset = [](Quantity quantity, Decimal value, const char* unit) {
        return Calibrate{"meter", quantity, value, unit};
    };
    const Calibrate celsius = offset(Quantity::temperature, Decimal{5, 1}, "C");
    EXPECT_NEAR(engine::calibrated({Quantity::temperature, Decimal{640, 1}, "F"}, &celsius), 64.9, k_stock_rounding);
    const Calibrate fahrenheit = offset(Quantity::temperature, Decimal{18, 1}, "F");
    EXPECT_NEAR(engine::calibrated({Quantity::temperature, Decimal{180, 1}, "C"}, &fahrenheit), 19.0, k_stock_rounding);
    const Calibrate sg = offset(Quantity::gravity, Decimal{2, 3}, "SG");
    const double plato = engine::calibrated({Quantity::gravity, Decimal{30, 1}, "P"}, &sg);
    EXPECT_NEAR(chem::gravity_of_plato(plato), chem::gravity_of_plato(3.0) + 0.002, 1e-9);
    const Calibrate extract = offset(Quantity::gravity, Decimal{5, 1}, "P");
    const double gravity = engine::calibrated({Quantity::gravity, Decimal{1012, 3}, "SG"}, &extract);
    EXPECT_NEAR(chem::plato_of_gravity(gravity), chem::plato_of_gravity(1.012) + 0.5, 1e-9);
    EXPECT_EQ(engine::calibrated({Quantity::ph, Decimal{352, 2}, "pH"}, nullptr), 3.52);
}

class ALogger : public StockOf {
protected:
    // Hung in the Amber from `from` to `until`, warmest in between.
    void logged(int from, int until, int first, int middle, int last, const std::string& instrument = "") {
        LoggerFile body;
        body.subject = amber;
        body.instrument = instrument;
        body.begun = on_day(from);
        const int seconds = (until - from) * 86'400;
        body.points = {{0, Decimal{first, 1}}, {seconds / 2, Decimal{middle, 1}}, {seconds, Decimal{last, 1}}};
        body.rows = 3;
        book.write(on_day(until), body);
    }
    [[nodiscard]] std::pair<double, double> range() const {
        const auto temperatures = states().vessels[0].temperatures_c;
        if (temperatures.empty()) return {0.0, 0.0};
        const auto [low, high] = std::minmax_element(temperatures.begin(), temperatures.end());
        return {*low, *high};
    }
};

TEST_F(ALogger, SaysHowColdAndWarmALiquidHasBeen) {
    beer(on_day(1), amber, 50);
    logged(10, 20, 180, 245, 160);
    EXPECT_EQ(range(), (std::pair{16.0, 24.5}));
}

TEST_F(ALogger, SaysNothingOfALiquidThatCameInLater) {
    beer(on_day(1), amber, 50);
    beer(on_day(16), amber, 4);  // the warm day was the 15th
    logged(10, 20, 180, 245, 160);
    EXPECT_EQ(range(), (std::pair{16.0, 16.0}));
}

TEST_F(ALogger, SaysNothingOfALiquidThatWasInAnotherVesselThen) {
    beer(on_day(1), jar, 50);
    book.move(on_day(16), jar, amber, 50);
    logged(10, 20, 180, 245, 160);
    EXPECT_EQ(range(), (std::pair{16.0, 16.0}));
}

TEST_F(ALogger, IsCalibratedLikeAThermometer) {
    beer(on_day(1), amber, 50);
    book.write(on_day(2), Calibrate{"back wall", Quantity::temperature, Decimal{-15, 1}, "C"});
    logged(10, 20, 180, 245, 160, "back wall");
    EXPECT_EQ(range(), (std::pair{14.5, 23.0}));
}

}  // namespace
}  // namespace undercroft::testing
