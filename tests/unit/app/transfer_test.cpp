// Books that meet: another keeper's, another copy of one's own, and a spreadsheet.
#include "app/transfer.hpp"

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>
#include <sstream>

#include "store/restore.hpp"
#include "tests/support/kept_book.hpp"

namespace undercroft::app {
namespace {

using testing::KeptBook;

class TwoBooks : public ::testing::Test {
protected:
    void SetUp() override {
        std::string pattern = (std::filesystem::temp_directory_path() / "undercroft-transfer-XXXXXX").string();
        ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
        m_folder = pattern;
    }
    void TearDown() override { std::filesystem::remove_all(m_folder); }
    [[nodiscard]] std::string path(const std::string& name) const { return (m_folder / name).string(); }

    // A neighbour with two vessels, a pull and a run.
    [[nodiscard]] std::unique_ptr<KeptBook> neighbour() const {
        auto book = KeptBook::begin(path("neighbour.book"), "Neighbour", '1');
        book->keep({RegisterVessel{"The Amber", "A", "20 L", "1 L", "solera", "oak", ""},
                    RegisterVessel{"Jar", "", "6 L", "", "", "", ""}, lot("The Amber", "First brew", "18 L")});
        book->keep({pull("The Amber", "Jar", "4 L")});
        PackageRun run;
        run.from = "Jar";
        run.run = "JAR-1";
        run.container = "bottle_330_heavy";
        run.count = "6";
        run.acknowledge = "invented";
        book->keep({run});
        TasteIt tasting;
        tasting.subject = "The Amber";
        tasting.taster = "Ines";
        tasting.words = "hay";
        book->keep({tasting});
        return book;
    }
    [[nodiscard]] std::unique_ptr<KeptBook> mine() const { return KeptBook::begin(path("mine.book"), "Mine", '2'); }

    static EnterLot lot(const std::string& vessel, const std::string& name, const std::string& volume) {
        EnterLot act;
        act.vessel = vessel;
        act.name = name;
        act.volume = volume;
        act.gravity = "1.010";
        return act;
    }
    static MoveLiquid pull(const std::string& from, const std::string& to, const std::string& volume) {
        MoveLiquid act;
        act.reason = ledger::Reason::pull;
        act.from = from;
        act.to = {{to, volume}};
        return act;
    }

    std::filesystem::path m_folder;
};

TEST_F(TwoBooks, AnotherBooksEntriesComeInWithTheirOriginAndTheSameVolumes) {
    const auto theirs = neighbour();
    const auto ours = mine();
    const auto other = theirs->copy();
    const auto view = ours->transfer().import_book(other, {}, Booking::now);
    ASSERT_TRUE(view) << view.error().what;
    EXPECT_TRUE(view->booked);
    EXPECT_EQ(view->entries, static_cast<std::int64_t>(other.entries.size()));
    EXPECT_EQ(view->sittings, 4);
    EXPECT_EQ(ours->held("The Amber"), theirs->held("The Amber"));
    EXPECT_EQ(ours->held("Jar"), theirs->held("Jar"));

    const auto here = ours->copy();
    ASSERT_EQ(here.entries.size(), other.entries.size());
    for (std::size_t i = 0; i < here.entries.size(); ++i) {
        EXPECT_EQ(here.entries[i].origin_book, other.facts.id);
        EXPECT_EQ(here.entries[i].origin_hash, other.hashes[i]);
        EXPECT_NE(here.entries[i].key.sitting, other.entries[i].key.sitting) << "a key of its own";
        EXPECT_EQ(here.entries[i].at(), other.entries[i].at());
        EXPECT_EQ(here.entries[i].by, other.entries[i].by);
    }
    EXPECT_EQ(here.persons, other.persons);
    EXPECT_TRUE(ours->whole());
}

TEST_F(TwoBooks, AWhatIfShowsTheSameAndBooksNothing) {
    const auto theirs = neighbour();
    const auto ours = mine();
    const auto shown = ours->transfer().import_book(theirs->copy(), {}, Booking::what_if);
    ASSERT_TRUE(shown);
    EXPECT_FALSE(shown->booked);
    EXPECT_EQ(ours->copy().entries.size(), 0U);
    const auto booked = ours->transfer().import_book(theirs->copy(), {}, Booking::now);
    ASSERT_TRUE(booked);
    EXPECT_EQ(shown->entries, booked->entries);
    ASSERT_EQ(shown->came_in.size(), 3U);  // two vessels and a run
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(shown->came_in[i].name, booked->came_in[i].name);
        EXPECT_EQ(shown->came_in[i].holds, booked->came_in[i].holds);
    }
}

TEST_F(TwoBooks, TheSameEntriesTwiceAreAnsweredAlready) {
    const auto theirs = neighbour();
    const auto ours = mine();
    ASSERT_TRUE(ours->transfer().import_book(theirs->copy(), {}, Booking::now));
    const auto before = ours->copy().head;
    const auto again = ours->transfer().import_book(theirs->copy(), {}, Booking::now);
    ASSERT_TRUE(again) << again.error().what;
    EXPECT_TRUE(again->already);
    EXPECT_FALSE(again->booked);
    EXPECT_EQ(again->entries, 0);
    EXPECT_EQ(ours->copy().head, before);
}

TEST_F(TwoBooks, WhatWasWrittenThereSinceComesInOnTop) {
    const auto theirs = neighbour();
    const auto ours = mine();
    ASSERT_TRUE(ours->transfer().import_book(theirs->copy(), {}, Booking::now));
    theirs->keep({pull("The Amber", "Jar", "1 L")});
    const auto more = ours->transfer().import_book(theirs->copy(), {}, Booking::now);
    ASSERT_TRUE(more) << more.error().what;
    EXPECT_EQ(more->entries, 1);
    EXPECT_EQ(ours->held("The Amber"), theirs->held("The Amber"));
}

TEST_F(TwoBooks, ByWayOfAThirdBookTheSameEntriesAreStillTheSame) {
    const auto theirs = neighbour();
    const auto ours = mine();
    const auto third = KeptBook::begin(path("third.book"), "Third", '3');
    ASSERT_TRUE(third->transfer().import_book(theirs->copy(), {}, Booking::now));
    ASSERT_TRUE(ours->transfer().import_book(theirs->copy(), {}, Booking::now));
    EXPECT_TRUE(ours->transfer().import_book(third->copy(), {}, Booking::now)->already);
    // And back to where they were written first.
    EXPECT_TRUE(theirs->transfer().import_book(third->copy(), {}, Booking::now)->already);
    EXPECT_EQ(third->copy().entries[0].origin_book, theirs->copy().facts.id);
}

TEST_F(TwoBooks, AVesselOrRunOfANameThatIsHereIsRefusedWithTheListUntilItIsRenamed) {
    const auto theirs = neighbour();
    const auto ours = mine();
    ours->keep({RegisterVessel{"the amber", "A", "60 L", "", "solera", "", ""},
                RegisterVessel{"Jar", "", "6 L", "", "", "", ""}});
    const auto refused = ours->transfer().import_book(theirs->copy(), {}, Booking::now);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    ASSERT_EQ(refused.error().facts.size(), 2U);
    EXPECT_EQ(refused.error().facts[0].value, "Jar");
    EXPECT_EQ(refused.error().facts[1].value, "The Amber");
    EXPECT_EQ(ours->copy().entries.size(), 2U);

    const auto view =
        ours->transfer().import_book(theirs->copy(), {"The Amber=Their Amber", "Jar=Their Jar"}, Booking::now);
    ASSERT_TRUE(view) << view.error().what;
    EXPECT_EQ(ours->held("Their Amber"), theirs->held("The Amber"));
    ASSERT_EQ(view->remarks.size(), 1U) << "the tag A is taken";
    EXPECT_NE(view->remarks[0].find("tag A"), std::string::npos);
    // With the new names kept, or said again, it is all here.
    EXPECT_TRUE(ours->transfer().import_book(theirs->copy(), {}, Booking::now)->already);
    EXPECT_TRUE(ours->transfer().import_book(theirs->copy(), {"The Amber=Their Amber"}, Booking::now)->already);
}

TEST_F(TwoBooks, ACorrectionThatComesLaterFindsItsVesselUnderItsNewName) {
    const auto theirs = neighbour();
    const auto ours = mine();
    ours->keep({RegisterVessel{"The Amber", "", "60 L", "", "solera", "", ""}});
    ASSERT_TRUE(ours->transfer().import_book(theirs->copy(), {"The Amber=Their Amber"}, Booking::now));
    Correct correct;
    correct.entry = "1";
    correct.reason = "measured again";
    correct.instead = std::make_shared<const Act>(RegisterVessel{"The Amber", "A", "21 L", "1 L", "solera", "oak", ""});
    theirs->keep({correct});
    const auto view = ours->transfer().import_book(theirs->copy(), {}, Booking::now);
    ASSERT_TRUE(view) << view.error().what;
    EXPECT_EQ(view->entries, 1);
    const auto shown = ours->book().show("Their Amber", {});
    ASSERT_TRUE(shown) << shown.error().what;
    EXPECT_EQ(shown->vessel->capacity, Volume::from_litres(21));
}

TEST_F(TwoBooks, ANewNameForNothingIsRefused) {
    const auto theirs = neighbour();
    const auto ours = mine();
    for (const char* rename : {"The Ambr=X", "The Amber", "=X", "The Amber="}) {
        const auto refused = ours->transfer().import_book(theirs->copy(), {rename}, Booking::now);
        ASSERT_FALSE(refused) << rename;
        EXPECT_EQ(refused.error().where, "rename");
    }
    EXPECT_EQ(ours->copy().entries.size(), 0U);
}

TEST_F(TwoBooks, AnInventedCellarDoesNotComeIntoAKeptOne) {
    const auto ours = mine();
    const auto invented = KeptBook::begin(path("demo.book"), "Demo", '4', true);
    invented->keep({RegisterVessel{"The Amber", "", "20 L", "", "", "", ""}});
    const auto refused = ours->transfer().import_book(invented->copy(), {}, Booking::now);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_TRUE(invented->transfer().import_book(neighbour()->copy(), {"The Amber=Theirs"}, Booking::now));
}

// --- two copies of one book ------------------------------------------------------------------

class TwoCopies : public TwoBooks {
protected:
    void SetUp() override {
        TwoBooks::SetUp();
        m_here = neighbour();
        ASSERT_TRUE(m_here->file().backup_to(path("laptop.book")));
        m_there = KeptBook::open(path("laptop.book"));
        m_common = static_cast<std::int64_t>(m_here->copy().entries.size());
        m_there->pass(5);  // two programs never draft at the same instant with the same chance
    }
    std::unique_ptr<KeptBook> m_here;
    std::unique_ptr<KeptBook> m_there;
    std::int64_t m_common = 0;
};

TEST_F(TwoCopies, AreComparedSideBySide) {
    EXPECT_TRUE(m_here->transfer().compare(m_there->copy(), "laptop")->same());
    m_here->keep({WriteNote{"The Amber", "only here"}});
    m_there->keep({WriteNote{"The Amber", "only there"}, WriteNote{"", "and this"}});
    const auto view = m_here->transfer().compare(m_there->copy(), "laptop");
    ASSERT_TRUE(view);
    EXPECT_EQ(view->alike, m_common);
    EXPECT_EQ(view->in_both, m_common);
    ASSERT_EQ(view->here.size(), 1U);
    ASSERT_EQ(view->there.size(), 2U);
    EXPECT_NE(view->here[0].text.find("only here"), std::string::npos);
    EXPECT_NE(view->there[0].text.find("only there"), std::string::npos);
    // Looking merged nothing.
    EXPECT_EQ(static_cast<std::int64_t>(m_here->copy().entries.size()), m_common + 1);
    EXPECT_FALSE(m_here->transfer().compare(mine()->copy(), "mine"));
}

TEST_F(TwoCopies, TakeOverFromEachOtherUnderTheSameKeysAndPlacesAndEndAlike) {
    m_here->keep({WriteNote{"The Amber", "only here"}});
    m_there->keep({pull("The Amber", "Jar", "2 L")});
    const auto there = m_there->copy();
    const auto view = m_here->transfer().import_copy(there, Booking::now);
    ASSERT_TRUE(view) << view.error().what;
    EXPECT_EQ(view->entries, 1);
    const ledger::Entry moved = m_here->copy().entries.back();
    EXPECT_EQ(moved.key, there.entries.back().key);
    EXPECT_EQ(moved.place, there.entries.back().place);
    EXPECT_EQ(moved.recorded, there.entries.back().recorded);
    EXPECT_EQ(moved.origin_book, "");
    ASSERT_TRUE(m_there->transfer().import_copy(m_here->copy(), Booking::now));
    EXPECT_TRUE(m_here->transfer().compare(m_there->copy(), "laptop")->same());
    EXPECT_EQ(m_here->held("The Amber"), m_there->held("The Amber"));
    EXPECT_TRUE(m_here->whole());
    EXPECT_TRUE(m_there->whole());
    EXPECT_TRUE(m_here->transfer().import_copy(m_there->copy(), Booking::now)->already);
}

TEST_F(TwoCopies, WhatIsNotPossibleTogetherIsRefusedAndNamesTheEntryThatBreaks) {
    m_here->keep({pull("The Amber", "Jar", "3 L")});
    m_there->keep({pull("The Amber", "Jar", "3 L")});  // two litres were left in the jar: it would run over
    const auto refused = m_here->transfer().import_copy(m_there->copy(), Booking::now);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_EQ(refused.error().where, "entry #" + std::to_string(m_common + 1) + " there");
    EXPECT_NE(refused.error().facts[0].value.find("pulls from The Amber"), std::string::npos);
    EXPECT_EQ(static_cast<std::int64_t>(m_here->copy().entries.size()), m_common + 1);
}

TEST_F(TwoCopies, BothCorrectingOneEntryIsRefusedAndIsNoDamage) {
    for (KeptBook* book : {m_here.get(), m_there.get()}) {
        Correct correct;
        correct.entry = "1";
        correct.instead =
            std::make_shared<const Act>(RegisterVessel{"The Amber", "A", "22 L", "1 L", "solera", "oak", ""});
        book->keep({correct});
    }
    const auto refused = m_here->transfer().import_copy(m_there->copy(), Booking::now);
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().kind, ErrorKind::storage);
    EXPECT_NE(refused.error().where.find("there"), std::string::npos) << refused.error().where;
}

TEST_F(TwoCopies, OneSittingThatSaysTwoThingsIsNamedAndNotTaken) {
    for (const auto& [book, words] : {std::pair{m_here.get(), "one thing"}, std::pair{m_there.get(), "another"}}) {
        SittingRequest request;
        request.key = "01a2127b-b018-75b7-ae70-de82403b70d9";
        request.acts = {WriteNote{"", words}};
        ASSERT_TRUE(book->book().book(request));
    }
    const auto refused = m_here->transfer().import_copy(m_there->copy(), Booking::now);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::stale);
    EXPECT_EQ(m_here->transfer().compare(m_there->copy(), "laptop")->clash.size(), 1U);
}

TEST_F(TwoCopies, AreNotImportedAsIfTheyWereAnotherBook) {
    const auto refused = m_here->transfer().import_book(m_there->copy(), {}, Booking::now);
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().next_step.find("--from-copy"), std::string::npos);
    EXPECT_EQ(m_here->transfer().import_copy(mine()->copy(), Booking::now).error().kind, ErrorKind::bad_input);
}

}  // namespace
}  // namespace undercroft::app
