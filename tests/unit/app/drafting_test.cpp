// From words to entries: amounts, shares, rest, to full, names, times.
#include <gtest/gtest.h>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class AKeeper : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        book.must({vessel("The Amber", "60 L", "2 L"), vessel("Jar 23", "25 L"), vessel("Jar 24", "25 L")},
                  "2026-01-02");
        book.must({lot("The Amber", "First wort", "54 L")}, "2026-01-03");
    }
    static RegisterVessel vessel(const std::string& name, const std::string& capacity, const std::string& ullage = "") {
        RegisterVessel act;
        act.name = name;
        act.capacity = capacity;
        act.ullage = ullage;
        return act;
    }
    static EnterLot lot(const std::string& into, const std::string& name, const std::string& volume) {
        EnterLot act;
        act.vessel = into;
        act.name = name;
        act.volume = volume;
        act.original_gravity = "1.050";
        act.gravity = "1.008";
        return act;
    }
    static MoveLiquid move(const std::string& from, std::vector<MoveLiquid::To> to) {
        MoveLiquid act;
        act.from = from;
        act.to = std::move(to);
        return act;
    }
    static AddAddition fruit(const std::string& into, const std::string& amount) {
        AddAddition act;
        act.vessel = into;
        act.item = "sour_cherry_fresh";
        act.amount = amount;
        return act;
    }
    static TakeReading gravity(const std::string& of, const std::string& text) {
        TakeReading act;
        act.subject = of;
        act.gravity = text;
        return act;
    }
    template <class Body>
    Body last_of_kind() {
        const auto entries = book.journal().entries();
        for (auto entry = entries->rbegin(); entry != entries->rend(); ++entry)
            if (const auto* body = std::get_if<Body>(&entry->body)) return *body;
        ADD_FAILURE() << "no such entry";
        return {};
    }
    std::int64_t newest() { return *book.journal().last_sequence(); }
};

TEST_F(AKeeper, PullsAThirdOfWhatIsThere) {
    book.must({move("The Amber", {{"Jar 23", "a third"}})});
    EXPECT_EQ(book.held("Jar 23"), Volume::from_litres(18));
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(36));
}

TEST_F(AKeeper, PullsThreeThirdsOfAnOddVolumeWithoutRunningShort) {
    book.must({move("The Amber", {{"Jar 23", "20 L"}})});
    book.must({vessel("A", "9 L"), vessel("B", "9 L"), vessel("C", "9 L")});
    book.must({move("Jar 23", {{"A", "a third"}, {"B", "a third"}, {"C", "a third"}})});
    EXPECT_EQ(book.held("A").ul(), 6'666'666);
    EXPECT_EQ(book.held("Jar 23").ul(), 2);
}

TEST_F(AKeeper, PullsAShareThatIsAWholeAmountExactly) {
    // 0.29 x 50 L is 14.499999999999998 L in doubles.
    book.must({LoseLiquid{"The Amber", "4 L", "dump"}, move("The Amber", {{"Jar 23", "29 %"}})});
    EXPECT_EQ(book.held("Jar 23").ul(), 14'500'000);
}

TEST_F(AKeeper, WritesHalfAGallonWhereTheBookKnowsWhichGallon) {
    ledger::BookFacts facts = invented_facts();
    facts.gallons = Gallons::us;
    ledger::MemoryJournal journal{facts};
    TestBook american{journal};
    american.must({vessel("A", "5 gal"), vessel("B", "5 gal"), lot("A", "Beer", "4 gal")});
    american.must({move("A", {{"B", "1/2 gal"}})});
    EXPECT_EQ(american.held("B").ul(), 1'892'706);  // 3.785411784 / 2 L, to the microlitre
    const auto refused = book.book({move("The Amber", {{"Jar 23", "1/2 gal"}})});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::bad_input);
}

TEST_F(AKeeper, SplitsAPullAndLetsTheRestGoWhereItMay) {
    book.must({LoseLiquid{"The Amber", "20 L", "served"}, vessel("Big", "60 L")});
    book.must({move("The Amber", {{"Jar 23", "10 L"}, {"Big", "rest"}})});
    EXPECT_EQ(book.held("The Amber"), Volume{});
    EXPECT_EQ(book.held("Big"), Volume::from_litres(24));
}

TEST_F(AKeeper, LeavesTheHoldUpOfLooseFruitBehindWhenAllIsRackedOffIt) {
    book.must({move("The Amber", {{"Jar 23", "18 L"}}), fruit("Jar 23", "3 kg")});
    const Volume on_fruit = book.held("Jar 23");
    EXPECT_GT(on_fruit, Volume::from_litres(18));
    for (const char* all : {"", "all", "the rest", "everything"}) {
        const auto view = book.preview({move("Jar 23", {{"Jar 24", all}})});
        ASSERT_TRUE(view) << all;
        ASSERT_EQ(view->remarks.size(), 1U) << all;
        EXPECT_NE(view->remarks[0].find("held up in the fruit of Jar 23"), std::string::npos);
    }
    book.must({move("Jar 23", {{"Jar 24", "all"}})});
    // A tenth of the fruit's mass by default.
    EXPECT_EQ(last_of_kind<ledger::Move>().loss, Volume::from_litres(0.3));
    EXPECT_EQ(book.held("Jar 24"), on_fruit - Volume::from_litres(0.3));
    EXPECT_EQ(book.held("Jar 23"), Volume{});
}

TEST_F(AKeeper, StatesALossOfHisOwnInstead) {
    book.must({move("The Amber", {{"Jar 23", "18 L"}}), fruit("Jar 23", "3 kg")});
    MoveLiquid rack = move("Jar 23", {{"Jar 24", "all"}});
    rack.loss = "1 L";
    book.must({rack});
    EXPECT_EQ(last_of_kind<ledger::Move>().loss, Volume::from_litres(1));
}

TEST_F(AKeeper, TopsUpToFullByTheBooksOwnGap) {
    EnterLot top_up = lot("The Amber", "Young beer", "");
    top_up.to_full = true;
    book.must({top_up});
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(58));
    const auto full = book.book({top_up});
    ASSERT_FALSE(full);
    EXPECT_EQ(full.error().kind, ErrorKind::impossible);
    EXPECT_EQ(full.error().what, "The Amber is full by the book.");
}

TEST_F(AKeeper, TopsUpToFullWithMoreThanTheGapAndTheRestHadEvaporated) {
    EnterLot top_up = lot("The Amber", "Young beer", "5.5 L");
    top_up.to_full = true;
    const SittingView view = book.must({top_up});
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(58));
    EXPECT_EQ(last_of_kind<ledger::LotEnters>().settlement.evaporation, Volume::from_litres(1.5));
    ASSERT_FALSE(view.remarks.empty());
    EXPECT_EQ(view.remarks[0], "1.5 L had evaporated from The Amber unseen: booked with this filling.");
    const auto cellar = book->cellar({});
    EXPECT_EQ(cellar->out, Volume::from_litres(1.5));
    EXPECT_EQ(cellar->in, cellar->out + cellar->on_hand);
}

TEST_F(AKeeper, TopsUpToFullWithLessThanTheGapAndTheDifferenceIsFound) {
    EnterLot top_up = lot("The Amber", "Young beer", "3 L");
    top_up.to_full = true;
    const SittingView view = book.must({top_up});
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(58));
    EXPECT_EQ(last_of_kind<ledger::LotEnters>().settlement.found, Volume::from_litres(1));
    ASSERT_FALSE(view.remarks.empty());
    EXPECT_NE(view.remarks[0].find("booked as found"), std::string::npos);
}

TEST_F(AKeeper, FillsToFullFromAnotherVesselBothWays) {
    book.must({move("The Amber", {{"Jar 23", "24 L"}})});
    MoveLiquid refill = move("Jar 23", {{"The Amber", ""}});
    refill.to_full = true;
    const auto short_of = book.book({refill});
    ASSERT_FALSE(short_of) << "28 L would fit, 24 are there";
    EXPECT_EQ(short_of.error().where, "Jar 23");
    refill.to[0].volume = "10 L";
    book.must({refill});
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(58));
    EXPECT_EQ(last_of_kind<ledger::Move>().settlement.found, Volume::from_litres(18));
    refill.to[0].volume = "2 L";
    book.must({refill});
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(58));
    EXPECT_EQ(last_of_kind<ledger::Move>().settlement.evaporation, Volume::from_litres(2));
}

TEST_F(AKeeper, NamesAVesselByTagByAWordAndInAnyCase) {
    RegisterVessel copper = vessel("Copper by the door", "20 L");
    copper.tag = "C7";
    book.must({copper, lot("c7", "Stout", "5 L"), lot("copper", "Stout", "1 L"), lot("DOOR", "Stout", "1 L")});
    EXPECT_EQ(book.held("copper by the DOOR"), Volume::from_litres(7));
    const auto either = book->show("Jar", {});
    ASSERT_FALSE(either);
    EXPECT_EQ(either.error().kind, ErrorKind::bad_input);
    EXPECT_NE(either.error().what.find("\"Jar 23\", \"Jar 24\""), std::string::npos);
}

TEST_F(AKeeper, WhoGivesADayWithoutATimeMeansNoonAndTodayMeansNow) {
    const SittingView past = book.must({gravity("The Amber", "1.008")}, "2026-03-01");
    EXPECT_EQ(past.when, "2026-03-01 12:00");
    const SittingView today = book.must({gravity("The Amber", "1.008")}, "2026-03-14");
    EXPECT_EQ(today.when, "2026-03-14 10:00");
    const SittingView said = book.must({gravity("The Amber", "1.008")}, "today");
    EXPECT_EQ(said.when, "2026-03-14 10:00");
    const SittingView timed = book.must({gravity("The Amber", "1.008")}, "2026-03-01 18:30");
    EXPECT_EQ(timed.when, "2026-03-01 18:30");
    const SittingView silent = book.must({gravity("The Amber", "1.008")});
    EXPECT_EQ(silent.when, "2026-03-14 10:00");
}

TEST_F(AKeeper, WhoBooksTwoSittingsOfOneInstantSeesThemInThatOrder) {
    book.must({lot("Jar 23", "First", "5 L")});
    book.must({LoseLiquid{"Jar 23", "all", "dump"}});
    book.must({lot("Jar 23", "Second", "7 L")});
    EXPECT_EQ(book.held("Jar 23"), Volume::from_litres(7));
}

TEST_F(AKeeper, PlacesAForgottenReadingAfterTheEntryItFollowed) {
    SittingRequest request;
    request.acts = {gravity("The Amber", "1.0120")};
    request.after = "#4";  // the first wort
    const auto view = book->book(request);
    ASSERT_TRUE(view);
    EXPECT_EQ(view->when, "2026-01-03 12:00");
    const auto entries = book.journal().entries();
    EXPECT_EQ(entries->back().place.path, (*entries)[3].place.path + "/" + entries->back().key.text());
    request.when = "2026-02-01";
    EXPECT_FALSE(book->preview(request)) << "when, or after which: not both";
}

TEST_F(AKeeper, IsKnownAgainByName) {
    TasteIt taste;
    taste.subject = "The Amber";
    taste.taster = "Ada";
    taste.words = "green apple";
    SittingRequest request;
    request.acts = {taste};
    request.by = "Ada";
    ASSERT_TRUE(book->book(request));
    request.acts = {gravity("The Amber", "1.008")};
    ASSERT_TRUE(book->book(request));
    request.by = "Bo";
    ASSERT_TRUE(book->book(request));
    const auto persons = book.journal().persons();
    ASSERT_EQ(persons->size(), 2U);
    EXPECT_EQ((*persons)[0].name, "Ada");
    const auto entries = book.journal().entries();
    EXPECT_EQ((*entries)[4].by, (*persons)[0].commitment);
    EXPECT_EQ((*entries)[5].by, (*persons)[0].commitment);
    EXPECT_EQ((*entries)[6].by, (*persons)[1].commitment);
    for (const ledger::Entry& entry : *entries) EXPECT_EQ(entry.by.find("Ada"), std::string::npos);
    EXPECT_EQ(book->entries({.most = 1})->entries[0].by, "Bo");
}

TEST_F(AKeeper, SeesEarlierActsOfTheSameSitting) {
    book.must({vessel("Jug", "10 L"), lot("Jug", "Wort", "9 L"), move("Jug", {{"Jar 23", "a third"}}),
               LoseLiquid{"Jug", "all", "dump"}, CleanVessel{"Jug", ""}});
    EXPECT_EQ(book.held("Jug"), Volume{});
    EXPECT_EQ(book.held("Jar 23"), Volume::from_litres(3));
}

TEST_F(AKeeper, LooksBackToADayAndToWhatWasKnownOnIt) {
    book.must({move("The Amber", {{"Jar 23", "20 L"}})}, "2026-02-01");  // recorded today
    EXPECT_EQ(book->show("The Amber", {"2026-01-15", ""})->vessel->volume, Volume::from_litres(54));
    EXPECT_EQ(book->show("The Amber", {"2026-02-01", ""})->vessel->volume, Volume::from_litres(34));
    book.set_clock("2026-03-20T10:00:00.000Z");
    EXPECT_FALSE(book->show("The Amber", {"", "2026-03-13"})) << "nothing was recorded by then";
    EXPECT_EQ(book->show("The Amber", {"", "2026-03-14"})->vessel->volume, Volume::from_litres(34));
    const auto future = book->show("The Amber", {"2026-03-21", ""});
    ASSERT_FALSE(future);
    EXPECT_EQ(future.error().kind, ErrorKind::bad_input);
}

TEST_F(AKeeper, SendsASittingTwiceAndItIsBookedOnceEvenAfterItWasCorrected) {
    SittingRequest request;
    request.acts = {gravity("The Amber", "1.0080")};
    request.key = book->preview(request)->key;
    const auto first = book->book(request);
    ASSERT_TRUE(first);
    const std::int64_t number = newest();
    Correct correct;
    correct.entry = "#" + std::to_string(number);
    correct.reason = "misread";
    correct.instead = std::make_shared<const Act>(gravity("The Amber", "1.0060"));
    book.must({correct});
    const auto again = book->book(request);
    ASSERT_TRUE(again) << again.error().what;
    EXPECT_TRUE(again->already);
    EXPECT_EQ(newest(), number + 1);
    request.acts = {gravity("The Amber", "1.0090")};
    const auto other = book->book(request);
    ASSERT_FALSE(other);
    EXPECT_EQ(other.error().kind, ErrorKind::stale);
}

}  // namespace
}  // namespace undercroft::testing
