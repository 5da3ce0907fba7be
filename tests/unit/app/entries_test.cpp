// Entries asked for one by one, page by page, and told back as acts; and names by number.
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class ABookOfEntries : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        book.must({vessel("Amber"), vessel("Jar", tag_of_jar())}, "2026-01-01");
        EnterLot lot;
        lot.vessel = "Amber";
        lot.name = "Wort";
        lot.volume = "50 L";
        lot.original_gravity = "1.048";
        book.must({lot}, "2026-01-02");
        for (int day = 3; day <= 9; ++day) book.must({note("Amber", "day " + std::to_string(day))}, day_text(day));
    }
    [[nodiscard]] virtual std::string tag_of_jar() const { return "#1"; }
    static std::string day_text(int day) { return "2026-01-0" + std::to_string(day); }
    static RegisterVessel vessel(const std::string& name, const std::string& tag = "") {
        RegisterVessel act;
        act.name = name;
        act.tag = tag;
        act.capacity = "60 L";
        return act;
    }
    static WriteNote note(const std::string& about, const std::string& words) { return {about, words, {}, {}}; }
    std::vector<std::int64_t> numbers(const EntriesRequest& request) {
        const auto view = book->entries(request);
        std::vector<std::int64_t> found;
        if (!view) ADD_FAILURE() << view.error().what;
        if (view)
            for (const EntryLine& line : view->entries) found.push_back(line.number);
        return found;
    }
};

TEST_F(ABookOfEntries, GivesThemPageByPageEachOnce) {
    const std::vector<std::int64_t> all = numbers({.most = 100});
    ASSERT_EQ(all.size(), 10U);
    std::vector<std::int64_t> paged;
    EntriesRequest request{.most = 3};
    for (;;) {
        const auto page = book->entries(request);
        ASSERT_TRUE(page);
        for (const EntryLine& line : page->entries) paged.push_back(line.number);
        if (page->more == 0) break;
        EXPECT_EQ(page->more, page->entries.back().number);
        request.before = page->more;
    }
    EXPECT_EQ(paged, all);
}

TEST_F(ABookOfEntries, KeepsWhatWasReplacedAmongTheEntriesOfItsVessel) {
    const std::vector<std::int64_t> before = numbers({.subject = "Amber", .most = 100});
    Correct correct;
    correct.entry = "#5";
    correct.reason = "the other day";
    correct.instead = std::make_shared<const Act>(note("Amber", "said again"));
    const SittingView booked = book.must({correct}, "");
    const std::vector<std::int64_t> after = numbers({.subject = "Amber", .most = 100});
    std::vector<std::int64_t> expected = before;
    const auto place = std::find(expected.begin(), expected.end(), 5);
    ASSERT_NE(place, expected.end());
    expected.insert(place, booked.entries.front().number);
    EXPECT_EQ(after, expected) << "the new one in the place of the old one, the old one after it";
}

TEST_F(ABookOfEntries, KeepsWhatWasVoidedAmongTheEntriesOfItsVessel) {
    const std::vector<std::int64_t> before = numbers({.subject = "Amber", .most = 100});
    const SittingView booked = book.must({VoidEntry{"#5", "never was"}}, "");
    const std::vector<std::int64_t> after = numbers({.subject = "Amber", .most = 100});
    std::vector<std::int64_t> expected = before;
    expected.insert(std::find(expected.begin(), expected.end(), 5), booked.entries.front().number);
    EXPECT_EQ(after, expected);
    const auto lines = book->entries({.subject = "Amber", .most = 100})->entries;
    const auto voided =
        std::find_if(lines.begin(), lines.end(), [](const EntryLine& line) { return line.number == 5; });
    ASSERT_NE(voided, lines.end());
    EXPECT_FALSE(voided->live);
}

TEST_F(ABookOfEntries, KeepsWhatWasSaidOfAVesselBeforeItWasSaidOfAnother) {
    Correct correct;
    correct.entry = "#5";
    correct.reason = "it was the jar";
    correct.instead = std::make_shared<const Act>(note("Jar", "day 4"));
    book.must({correct}, "");
    const std::vector<std::int64_t> of_amber = numbers({.subject = "Amber", .most = 100});
    EXPECT_NE(std::find(of_amber.begin(), of_amber.end(), 5), of_amber.end());
}

TEST_F(ABookOfEntries, StandInTheOrderOfTheCellarNotOfTheirArrival) {
    book.must({note("Amber", "written down late")}, "2026-01-04 23:00");
    EXPECT_EQ(numbers({.subject = "Amber", .kind = "note", .most = 6}),
              (std::vector<std::int64_t>{10, 9, 8, 7, 6, 11}));
    EXPECT_EQ(numbers({.subject = "Amber", .kind = "note", .before = 11, .most = 1}), (std::vector<std::int64_t>{5}));
}

TEST_F(ABookOfEntries, AreChosenByKindAndWords) {
    EXPECT_EQ(numbers({.kind = "lot"}), (std::vector<std::int64_t>{3}));
    EXPECT_EQ(numbers({.words = "DAY 7"}), (std::vector<std::int64_t>{8}));
    EXPECT_EQ(numbers({.kind = "note", .words = "amber day", .most = 2}), (std::vector<std::int64_t>{10, 9}));
    EXPECT_TRUE(numbers({.kind = "note", .words = "peat"}).empty());
    EXPECT_EQ(book->entries({.kind = "notes"}).error().kind, ErrorKind::bad_input);
}

TEST_F(ABookOfEntries, TellWhatReplacedThem) {
    Correct correct;
    correct.entry = "#4";
    correct.instead = std::make_shared<const Act>(note("Amber", "day three"));
    book.must({correct});
    const auto old = book->entry(4);
    ASSERT_TRUE(old);
    EXPECT_FALSE(old->entry.live);
    ASSERT_EQ(old->chain.size(), 2U);
    EXPECT_EQ(old->chain[0].number, 11);
    EXPECT_EQ(std::get<WriteNote>(*old->act).words, "day 3");
    EXPECT_EQ(book->entry(99).error().kind, ErrorKind::not_found);
}

TEST_F(ABookOfEntries, NameAVesselByItsNumber) {
    EXPECT_EQ(book->show("#1", {})->vessel->name, "Amber");
    book.must({note("#2", "by number")});
    EXPECT_NE(book->entry(11)->entry.text.find("Jar"), std::string::npos);
    // "#1" is the number of Amber and the tag of Jar: neither is guessed.
    const auto both = book.preview({note("#1", "which?")});
    ASSERT_FALSE(both);
    EXPECT_EQ(both.error().kind, ErrorKind::bad_input);
    EXPECT_EQ(book.preview({note("#77", "nobody")}).error().kind, ErrorKind::not_found);
    EXPECT_EQ(book.preview({note("#3", "a lot")}).error().kind, ErrorKind::not_found);
}

TEST_F(ABookOfEntries, KnowAVesselThatHasLeftByItsNumber) {
    book.must({RetireVessel{"Jar"}});
    EXPECT_TRUE(book->river("#2", {}));
    TakeReading reading;
    reading.subject = "#2";
    reading.gravity = "1.008";
    EXPECT_FALSE(book.preview({reading}));
    EXPECT_EQ(book.preview({LoseLiquid{"#2", "1 L", "spill"}}).error().kind, ErrorKind::impossible);
}

// Told back and said again, nothing changes.
class AnEntryToldBack : public ABookOfEntries {
protected:
    // An act is told back with numbers of vessels, so no vessel may be called by one.
    [[nodiscard]] std::string tag_of_jar() const override { return "J"; }
    void expect_same_again(std::int64_t number) {
        const auto told = book->entry(number);
        ASSERT_TRUE(told);
        ASSERT_TRUE(told->act) << told->entry.text;
        Correct correct;
        correct.entry = std::to_string(number);
        correct.instead = std::make_shared<const Act>(*told->act);
        const std::vector<ledger::Entry> before = *book.journal().entries();
        const SittingView view = book.must({correct});
        EXPECT_TRUE(view.changes.empty()) << told->entry.text;
        const std::vector<ledger::Entry> after = *book.journal().entries();
        const ledger::Entry& old = before.at(static_cast<std::size_t>(number) - 1);
        EXPECT_EQ(after.at(before.size()).body, old.body) << told->entry.text;
    }
    std::int64_t book_one(Act act, const std::string& when = "") {
        book.pass(1);
        return book.must({std::move(act)}, when).entries.at(0).number;
    }
};

TEST_F(AnEntryToldBack, IsTheSameWhateverItIs) {
    AddAddition fruit;
    fruit.vessel = "Jar";
    fruit.item = "sour cherry frozen";
    fruit.amount = "1234.567 g";
    fruit.hold_up = "12 %";
    AddAddition oak;
    oak.vessel = "Amber";
    oak.item = "oak cubes";
    oak.amount = "40 g";
    oak.contained = true;
    AddAddition own;
    own.vessel = "Amber";
    own.item = "hay";
    own.kind = "other";
    own.amount = "3.5 mL";
    PitchCulture pitch;
    pitch.vessel = "Amber";
    pitch.kind = "mixed sour culture";
    pitch.name = "House culture";
    pitch.suspected = true;
    pitch.origin = "next door";
    TakeReading reading;
    reading.subject = "Amber";
    reading.gravity = "2.1 P";
    reading.ph = "3.42";
    reading.ta = "6.2 g/L";
    reading.temperature = "64 F";
    reading.dissolved_co2 = "1.1 vol";
    reading.weight = "51.5 kg";
    reading.read_at = "18.5 C";
    reading.sample = "80 mL";
    TasteIt tasting;
    tasting.subject = "Amber";
    tasting.taster = "Ines";
    tasting.scores = {"sour=6.5", "fruit=2"};
    tasting.faults = {"mousy"};
    tasting.words = "lemon, hay";
    tasting.liking = "7";
    MoveLiquid rack;
    rack.from = "Amber";
    rack.to = {{"Jar", "a third"}};
    rack.loss = "120 mL";
    MoveLiquid full = rack;
    full.reason = ledger::Reason::top_up;
    full.to = {{"Jar", "25 L"}};
    full.to_full = true;
    full.loss = "";
    RegisterVessel tub = vessel("Tub", "T");
    tub.ullage = "1.5 L";
    tub.role = "serving";
    PackageRun run;
    run.from = "Amber";
    run.container = "bottle_330_heavy";
    run.count = "12";
    run.fill = "325 mL";
    run.priming = "5 g/L";
    run.store = "20 C";
    run.limit = "12 bar";
    run.acknowledge = "a trial";
    run.loss = "0.2 L";
    EnterLot water;
    water.vessel = "Tub";
    water.name = "Spring water";
    water.kind = "water";
    water.volume = "3.785411 L";
    EnterLot ranged;
    ranged.vessel = "Tub";
    ranged.name = "Old beer";
    ranged.volume = "7 L";
    ranged.brewed = "2019..2021";
    ranged.age_assumed = true;
    ranged.alcohol = "6.2";
    ranged.ta = "7 g/L";
    ranged.ibu = "9";
    ranged.colour = "30";
    ranged.ph = "3.3";
    ranged.allergens = {"no gluten", "sulphite 12 mg/L"};
    ranged.cultures = {"mixed sour culture"};

    std::vector<std::int64_t> booked = {1, 2, 3, 4};
    for (const Act& act : std::initializer_list<Act>{
             fruit, oak, own, LiftAddition{"Amber", "oak"}, pitch, reading, tasting, rack, full, tub, water, ranged,
             LoseLiquid{"Amber", "0.4 L", "evaporation"}, SetInterval{"Amber", "reading", "6 weeks"},
             SetInterval{"solera", "top-up", "never"}, run})
        booked.push_back(book_one(act));
    const std::string code = book->cellar({})->runs.at(0).run;
    booked.push_back(book_one(TakeBottles{code, "2", "given", "Bo", "", "for supper"}));
    booked.push_back(book_one(TakeBottles{code, "1", "returned", "", "Tub", ""}));
    booked.push_back(book_one(PrintLabel{code, "Cherry Amber"}));
    booked.push_back(book_one(vessel("Spare")));
    booked.push_back(book_one(CleanVessel{"Spare", "steam"}));
    booked.push_back(book_one(RetireVessel{"Spare"}));
    for (const std::int64_t number : booked) expect_same_again(number);
}

TEST_F(AnEntryToldBack, IsNothingWhereNoActSaysIt) {
    PackageRun run;
    run.from = "Amber";
    run.container = "bottle_330_heavy";
    run.count = "12";
    run.limit = "12 bar";
    run.acknowledge = "a trial";
    const SittingView view = book.must({run});
    ASSERT_GE(view.entries.size(), 2U);
    EXPECT_EQ(view.entries[1].kind, "snapshot");
    EXPECT_FALSE(book->entry(view.entries[1].number)->act);
    book.must({VoidEntry{"4", "never was"}});
    EXPECT_FALSE(book->entry(*book.journal().last_sequence())->act);
}

}  // namespace
}  // namespace undercroft::testing
