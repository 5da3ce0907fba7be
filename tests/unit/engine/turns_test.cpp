#include "engine/age/turns.hpp"

#include <gtest/gtest.h>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

class TurnsOfAVessel : public ::testing::Test {
protected:
    WrittenBook book;
    EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    EntryKey jar = book.vessel(on_day(0), "Jar", 60);

    void refill(int day, double volume) {
        LotEnters body;
        body.vessel = amber;
        body.name = "Wort of day " + std::to_string(day);
        body.volume = litres(volume);
        body.reason = Reason::refill;
        book.write(on_day(day), body);
    }
    [[nodiscard]] std::vector<engine::BookedTurn> turns() const {
        const auto cellar = book.cellar();
        EXPECT_TRUE(cellar);
        return engine::turns_of_vessel(*cellar, 0);
    }
};

TEST_F(TurnsOfAVessel, AreNoneForTheFirstFillAndForWhatIsOnlyLost) {
    book.lot(on_day(0), amber, "Founding wort", 60);
    book.loss(on_day(10), amber, 1, LossCause::evaporation);
    book.loss(on_day(11), amber, 0.1, LossCause::sample);
    EXPECT_TRUE(turns().empty());
}

TEST_F(TurnsOfAVessel, JoinSeveralPullsAndSeveralRefillsOfOneGap) {
    book.lot(on_day(0), amber, "Founding wort", 60);
    book.move(on_day(100), amber, jar, 10);
    book.loss(on_day(101), amber, 10, LossCause::served);
    refill(102, 15);
    refill(103, 5);
    const auto list = turns();
    ASSERT_EQ(list.size(), 1U);
    EXPECT_EQ(list[0].pulled, on_day(100));
    EXPECT_EQ(list[0].refilled, on_day(103));
    EXPECT_EQ(list[0].pulled_volume, litres(20));
    EXPECT_EQ(list[0].refilled_volume, litres(20));
    EXPECT_EQ(list[0].held, litres(60));
}

TEST_F(TurnsOfAVessel, MayWaitForTheirRefill) {
    book.lot(on_day(0), amber, "Founding wort", 60);
    book.move(on_day(100), amber, jar, 10);
    const auto list = turns();
    ASSERT_EQ(list.size(), 1U);
    EXPECT_LT(list[0].refill_entry, 0);
    EXPECT_FALSE(engine::usual_turn(list));
}

TEST_F(TurnsOfAVessel, TellWhatItIsUsedToByTheirMiddle) {
    book.lot(on_day(0), amber, "Founding wort", 60);
    const int days[] = {100, 300, 510, 700};  // 200, 210 and 190 days apart
    const double pulls[] = {20, 15, 18, 30};
    for (int i = 0; i < 4; ++i) {
        book.loss(on_day(days[i]), amber, pulls[i], LossCause::served);
        refill(days[i], pulls[i]);
    }
    const auto usual = engine::usual_turn(turns());
    ASSERT_TRUE(usual);
    EXPECT_DOUBLE_EQ(usual->interval_years, 200 / 365.25);
    EXPECT_DOUBLE_EQ(usual->share, 20.0 / 60.0);  // of 15, 18, 20 and 30 L the upper middle
    EXPECT_EQ(usual->counted, 4);
}

}  // namespace
}  // namespace undercroft::testing
