// What is refused, with which words, and that nothing of it is booked.
#include <gtest/gtest.h>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class Refusal : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        book.must({vessel("The Amber", "60 L"), vessel("Jar 23", "25 L")}, "2026-01-02");
        book.must({lot("The Amber", "First wort", "54 L")}, "2026-01-03");
    }
    static RegisterVessel vessel(const std::string& name, const std::string& capacity) {
        RegisterVessel act;
        act.name = name;
        act.capacity = capacity;
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
    static MoveLiquid move(const std::string& from, const std::string& to, const std::string& volume) {
        MoveLiquid act;
        act.from = from;
        act.to = {{to, volume}};
        return act;
    }
    // The refusal of these acts; nothing may have been booked.
    Error of(std::vector<Act> acts, const std::string& when = "") {
        const std::int64_t before = *book.journal().last_sequence();
        const auto shown = book.preview(acts, when);
        const auto booked = book.book(std::move(acts), when);
        EXPECT_EQ(*book.journal().last_sequence(), before) << "nothing is half-applied";
        if (shown || booked) {
            ADD_FAILURE() << "it was taken";
            return {};
        }
        EXPECT_EQ(shown.error(), booked.error()) << "the what-if refuses as the booking does";
        return booked.error();
    }
    static std::string fact(const Error& error, const std::string& label) {
        for (const Fact& one : error.facts)
            if (one.label == label) return one.value;
        return "no such fact";
    }
};

TEST_F(Refusal, OfAmountsBelowZeroAndOfNothing) {
    for (const char* amount : {"-3 L", "0 L"}) {
        const Error error = of({lot("Jar 23", "Wort", amount)});
        EXPECT_EQ(error.kind, ErrorKind::bad_input) << amount;
        EXPECT_EQ(error.where, "volume") << amount;
        EXPECT_NE(error.what.find(amount), std::string::npos);
    }
    EXPECT_EQ(of({move("The Amber", "Jar 23", "-3 L")}).kind, ErrorKind::bad_input);
    EXPECT_EQ(of({vessel("Flat", "0 L")}).where, "capacity");
}

TEST_F(Refusal, OfUnitsThatAreNotThoseOfTheField) {
    for (const char* amount : {"18 kg", "18", "18 C", "18 parsecs", "abc", "1,012 L"}) {
        const Error error = of({lot("Jar 23", "Wort", amount)});
        EXPECT_EQ(error.kind, ErrorKind::bad_input) << amount;
        EXPECT_EQ(error.where, "volume") << amount;
    }
}

TEST_F(Refusal, OfAVesselNobodyKnowsWithTheNearest) {
    const Error error = of({lot("The Ambre", "Wort", "3 L")});
    EXPECT_EQ(error.kind, ErrorKind::not_found);
    EXPECT_EQ(error.where, "into");
    EXPECT_EQ(error.what, "There is no vessel \"The Ambre\".");
    EXPECT_NE(error.next_step.find("The Amber"), std::string::npos);
}

TEST_F(Refusal, OfMoreThanAVesselTakes) {
    const Error error = of({lot("Jar 23", "Wort", "25.5 L")});
    EXPECT_EQ(error.kind, ErrorKind::impossible);
    EXPECT_EQ(error.where, "Jar 23");
    EXPECT_EQ(fact(error, "it would hold"), "25.5 L");
    EXPECT_EQ(fact(error, "over by"), "0.5 L");
}

TEST_F(Refusal, OfMoreThanAVesselHolds) {
    book.must({vessel("Big", "100 L")});
    const Error error = of({move("The Amber", "Big", "54.25 L")});
    EXPECT_EQ(error.kind, ErrorKind::impossible);
    EXPECT_EQ(error.where, "The Amber");
    EXPECT_EQ(fact(error, "The Amber holds"), "54 L");
    EXPECT_EQ(fact(error, "short by"), "0.25 L");
}

TEST_F(Refusal, OfADayThatHasNotCome) {
    const Error error = of({lot("Jar 23", "Wort", "3 L")}, "2026-03-15");
    EXPECT_EQ(error.kind, ErrorKind::bad_input);
    EXPECT_EQ(error.where, "when");
    EXPECT_NE(error.what.find("2026-03-15"), std::string::npos);
    EXPECT_NE(error.what.find("future"), std::string::npos);
}

TEST_F(Refusal, OfABrewDayAfterTheBeerCame) {
    EnterLot late = lot("Jar 23", "Wort", "3 L");
    late.brewed = "2026-02-20";
    const Error error = of({late}, "2026-02-01");
    EXPECT_EQ(error.where, "brewed");
    EXPECT_EQ(error.kind, ErrorKind::bad_input);
}

TEST_F(Refusal, OfAGravityThatCannotBe) {
    TakeReading reading;
    reading.subject = "The Amber";
    for (const char* text : {"1.900", "0.900", "1012", "3.4", "55 P", "-1.010"}) {
        reading.gravity = text;
        const Error error = of({reading});
        EXPECT_EQ(error.kind, ErrorKind::bad_input) << text;
        EXPECT_EQ(error.where, "gravity") << text;
        EXPECT_FALSE(error.what.empty());
    }
    EnterLot lot_above = lot("Jar 23", "Wort", "3 L");
    lot_above.gravity = "1.060";
    const Error error = of({lot_above});
    EXPECT_EQ(error.where, "gravity");
    EXPECT_NE(error.what.find("1.050"), std::string::npos);
}

TEST_F(Refusal, OfABrixReadingOfBeer) {
    TakeReading reading;
    reading.subject = "The Amber";
    reading.gravity = "5.2 Brix";
    EXPECT_EQ(of({reading}).kind, ErrorKind::outside_model);
}

TEST_F(Refusal, OfAReadingWithoutAnything) {
    TakeReading reading;
    reading.subject = "The Amber";
    EXPECT_EQ(of({reading}).where, "reading");
    reading.ph = "12";
    EXPECT_EQ(of({reading}).where, "ph");
}

TEST_F(Refusal, OfAnEmptySittingAndOfAKeyThatIsNone) {
    EXPECT_EQ(of({}).what, "There is nothing to book.");
    SittingRequest request;
    request.acts = {lot("Jar 23", "Wort", "3 L")};
    request.key = "my key";
    const auto view = book->book(request);
    ASSERT_FALSE(view);
    EXPECT_EQ(view.error().where, "key");
}

TEST_F(Refusal, OfASittingWholeWhenItsLastActCannotBe) {
    const Error error = of({lot("Jar 23", "Wort", "3 L"), move("Jar 23", "The Amber", "4 L")});
    EXPECT_EQ(fact(error, "Jar 23 holds"), "3 L");
    EXPECT_EQ(book.held("Jar 23"), Volume{});
}

TEST_F(Refusal, OfASecondVesselOfOneNameAndOfPouringIntoItself) {
    EXPECT_EQ(of({vessel("Jar 23", "5 L")}).what, "There is a \"Jar 23\" already.");
    EXPECT_NE(of({move("The Amber", "The Amber", "5 L")}).what.find("into itself"), std::string::npos);
    EXPECT_EQ(of({CleanVessel{"The Amber", ""}}).what, "The Amber still holds liquid.");
}

TEST_F(Refusal, OfALateEntryThatBreaksALaterOneNamesItAndByHowMuch) {
    book.must({move("The Amber", "Jar 23", "20 L")}, "2026-02-01");
    book.must({LoseLiquid{"The Amber", "30 L", "served"}}, "2026-03-01");
    const Error error = of({LoseLiquid{"The Amber", "5 L", "evaporation"}}, "2026-01-20");
    EXPECT_EQ(error.kind, ErrorKind::impossible);
    EXPECT_EQ(error.where, "entry #5 of 2026-03-01");
    EXPECT_NE(error.what.find("loses 30 L"), std::string::npos);
    EXPECT_EQ(fact(error, "short by"), "1 L");
    EXPECT_NE(error.next_step.find("#5"), std::string::npos);
    // One litre less and the book stays possible; today's state is told with it.
    const SittingView view = book.must({LoseLiquid{"The Amber", "4 L", "evaporation"}}, "2026-01-20");
    bool told = false;
    for (const Change& change : view.changes) told = told || change.what.starts_with("today: volume");
    EXPECT_TRUE(told);
    EXPECT_EQ(book.held("The Amber"), Volume{});
}

TEST_F(Refusal, OfVoidingWhatOthersStandOn) {
    book.must({move("The Amber", "Jar 23", "20 L")}, "2026-02-01");
    const Error error = of({VoidEntry{"#3", "never was"}});
    EXPECT_EQ(error.kind, ErrorKind::impossible);
    EXPECT_EQ(error.where, "#3");
    EXPECT_EQ(error.what, "An entry that stands needs #3 as it is.");
    EXPECT_EQ(fact(error, "undercroft entries 4").substr(0, 10), "2026-02-01");
    EXPECT_EQ(fact(error, "#4: short by"), "20 L");
}

TEST_F(Refusal, OfASecondCorrectionOfOneEntry) {
    Correct correct;
    correct.entry = "#3";
    correct.reason = "misread";
    correct.instead = std::make_shared<const Act>(lot("The Amber", "First wort", "50 L"));
    book.must({correct});
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(50));
    const Error error = of({correct});
    EXPECT_EQ(error.kind, ErrorKind::stale);
    EXPECT_EQ(of({VoidEntry{"#3", "twice"}}).kind, ErrorKind::stale);
    // The newest of the chain may be corrected on, and the lot stays where it stood.
    correct.entry = "last";
    correct.instead = std::make_shared<const Act>(lot("The Amber", "First wort", "54 L"));
    book.must({correct});
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(54));
    EXPECT_EQ(book->show("The Amber", {"2026-01-03", ""})->vessel->volume, Volume::from_litres(54));
}

TEST_F(Refusal, OfACorrectionToAnotherKind) {
    Correct correct;
    correct.entry = "#3";
    correct.instead = std::make_shared<const Act>(WriteNote{"The Amber", "not a lot"});
    EXPECT_NE(of({correct}).what.find("cannot become"), std::string::npos);
}

TEST_F(Refusal, OfEntriesThatAreNotThere) {
    EXPECT_EQ(of({VoidEntry{"#99", ""}}).kind, ErrorKind::not_found);
    EXPECT_EQ(of({VoidEntry{"#0", ""}}).kind, ErrorKind::not_found);
    EXPECT_EQ(of({VoidEntry{"first", ""}}).kind, ErrorKind::bad_input);
    // "last" is an entry of the book, not one of this sitting.
    const SittingView view = book.must({WriteNote{"", "one more"}, VoidEntry{"last", "booked twice"}});
    EXPECT_EQ(view.entries[1].text, "takes #3 out of the book");
    EXPECT_EQ(book.held("The Amber"), Volume{});
}

TEST_F(Refusal, OfBookingInABookThatIsNewer) {
    const auto entries = book.journal().entries();
    std::vector<ledger::Entry> more = *entries;
    ledger::Entry newer = more.back();
    newer.key.sitting = "0190f3c8-0000-7000-8000-00000000ffff";
    newer.place = ledger::place_at(book.now(), newer.key);
    newer.body = ledger::Unknown{"settle", "{}"};
    newer.sequence += 1;
    more.push_back(newer);
    ledger::MemoryJournal journal{invented_facts(), more};
    TestBook from_the_future{journal};
    const auto refused = from_the_future.book({lot("Jar 23", "Wort", "3 L")});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::read_only);
    EXPECT_EQ(from_the_future.held("The Amber"), Volume::from_litres(54)) << "it still answers";
}

}  // namespace
}  // namespace undercroft::testing
