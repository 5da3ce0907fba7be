// What append() of a stored book promises, and that the journal in memory promises the same.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "ledger/memory_journal.hpp"
#include "store/digest.hpp"
#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using testing::k_now;

using namespace ledger;
using testing::BookTest;
using testing::numbered_sitting;
using testing::person;
using testing::sitting_key;
using testing::sitting_of;

Sitting note_by(unsigned number, const Person& writer) {
    Note note;
    note.words = "hay";
    Sitting sitting = sitting_of(sitting_key(number), {note});
    sitting.entries[0].by = writer.commitment;
    return sitting;
}

// Runs every test below on both journals.
enum class Kept { in_file, in_memory };

class AnyJournal : public BookTest, public ::testing::WithParamInterface<Kept> {
protected:
    void SetUp() override {
        BookTest::SetUp();
        if (GetParam() == Kept::in_file)
            m_journal = begin_book();
        else
            m_journal = std::make_unique<MemoryJournal>(testing::facts());
        ASSERT_NE(m_journal, nullptr);
    }
    void TearDown() override {
        m_journal.reset();
        BookTest::TearDown();
    }
    Journal& journal() { return *m_journal; }

    void expect_refused(const Sitting& sitting, ErrorKind kind, std::int64_t expected = 0) {
        const auto before = journal().last_sequence().value();
        const auto booked = journal().append(sitting, k_now, expected);
        ASSERT_FALSE(booked);
        EXPECT_EQ(booked.error().kind, kind) << booked.error().what;
        EXPECT_EQ(journal().last_sequence().value(), before);
    }

private:
    std::unique_ptr<Journal> m_journal;
};

INSTANTIATE_TEST_SUITE_P(Journals, AnyJournal, ::testing::Values(Kept::in_file, Kept::in_memory),
                         [](const auto& kept) { return kept.param == Kept::in_file ? "InFile" : "InMemory"; });

TEST_P(AnyJournal, ANewBookIsEmptyAndKnowsItsFacts) {
    EXPECT_EQ(journal().facts(), testing::facts());
    EXPECT_FALSE(journal().read_only());
    EXPECT_EQ(journal().last_sequence().value(), 0);
    EXPECT_TRUE(journal().entries().value().empty());
    EXPECT_TRUE(journal().persons().value().empty());
}

TEST_P(AnyJournal, ASittingIsBookedWithSequenceAndRecordedTime) {
    const Sitting sitting = numbered_sitting(1, 3);
    const auto booked = journal().append(sitting, k_now, 0);
    ASSERT_TRUE(booked) << booked.error().what;
    EXPECT_FALSE(booked->already);
    ASSERT_EQ(booked->entries.size(), 3U);
    const auto entries = journal().entries().value();
    ASSERT_EQ(entries.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(entries[i].sequence, static_cast<std::int64_t>(i) + 1);
        EXPECT_EQ(booked->entries[i].sequence, entries[i].sequence);
        EXPECT_EQ(entries[i].recorded, k_now);
        EXPECT_TRUE(testing::same_entry(entries[i], booked->entries[i]));
        EXPECT_EQ(entries[i].body, sitting.entries[i].body);
    }
}

TEST_P(AnyJournal, EntriesComeInTheOrderOfArrivalWhateverTheirPlace) {
    ASSERT_TRUE(journal().append(sitting_of(sitting_key(2), {Note{}}, 9000), k_now, 0));
    ASSERT_TRUE(journal().append(sitting_of(sitting_key(1), {Note{}}, 10), k_now, 1));
    const auto entries = journal().entries().value();
    ASSERT_EQ(entries.size(), 2U);
    EXPECT_EQ(entries[0].key.sitting, sitting_key(2));
    EXPECT_EQ(entries[1].key.sitting, sitting_key(1));
}

TEST_P(AnyJournal, TheSameSittingAgainIsAnsweredWithWhatWasBookedThen) {
    ASSERT_TRUE(journal().append(numbered_sitting(1, 3), k_now, 0));
    ASSERT_TRUE(journal().append(numbered_sitting(2, 2), k_now, 3));
    // A phone that heard no answer tries again, later and with an old sequence.
    const auto again = journal().append(numbered_sitting(1, 3), Instant{k_now.ms + 60'000}, 0);
    ASSERT_TRUE(again) << again.error().what;
    EXPECT_TRUE(again->already);
    ASSERT_EQ(again->entries.size(), 3U);
    EXPECT_EQ(again->entries[2].sequence, 3);
    EXPECT_EQ(again->entries[2].recorded, k_now);
    EXPECT_EQ(journal().last_sequence().value(), 5);
}

TEST_P(AnyJournal, AnotherSittingUnderTheSameKeyIsStale) {
    ASSERT_TRUE(journal().append(numbered_sitting(1, 3), k_now, 0));
    Sitting other = numbered_sitting(1, 3);
    other.entries[1].reason = "on second thoughts";
    expect_refused(other, ErrorKind::stale, 3);
    expect_refused(numbered_sitting(1, 2), ErrorKind::stale, 3);
}

TEST_P(AnyJournal, ADraftThatTheBookHasOvertakenIsStale) {
    ASSERT_TRUE(journal().append(numbered_sitting(1, 2), k_now, 0));
    expect_refused(numbered_sitting(2, 2), ErrorKind::stale, 0);
    expect_refused(numbered_sitting(2, 2), ErrorKind::stale, 3);
    EXPECT_TRUE(journal().append(numbered_sitting(2, 2), k_now, 2));
}

TEST_P(AnyJournal, ASittingMustCountItsEntries) {
    expect_refused(Sitting{sitting_key(1), {}, {}}, ErrorKind::bad_input);
    Sitting sitting = numbered_sitting(1, 3);
    sitting.entries[1].key.index = 2;
    expect_refused(sitting, ErrorKind::bad_input);
    sitting = numbered_sitting(1, 3);
    sitting.entries.pop_back();
    expect_refused(sitting, ErrorKind::bad_input);
    sitting = numbered_sitting(1, 3);
    sitting.key = sitting_key(2);
    expect_refused(sitting, ErrorKind::bad_input);
}

TEST_P(AnyJournal, AKindThisProgramDoesNotKnowCannotBeBooked) {
    Sitting sitting = sitting_of(sitting_key(1), {Note{}});
    sitting.entries[0].body = Unknown{"serenade", "{}"};
    expect_refused(sitting, ErrorKind::bad_input);
}

TEST_P(AnyJournal, APersonIsKeptOnceAndKnownFromThenOn) {
    const Person ines = person("Inês");
    Sitting first = note_by(1, ines);
    first.persons = {ines};
    ASSERT_TRUE(journal().append(first, k_now, 0));
    ASSERT_TRUE(journal().append(note_by(2, ines), k_now, 1));
    Sitting third = note_by(3, ines);
    third.persons = {ines};
    ASSERT_TRUE(journal().append(third, k_now, 2));
    EXPECT_EQ(journal().persons().value(), std::vector<Person>{ines});
}

TEST_P(AnyJournal, AnEntryCannotNameSomebodyTheBookDoesNotKnow) {
    expect_refused(note_by(1, person("Inês")), ErrorKind::bad_input);
    Take take;
    take.person = person("Rui").commitment;
    expect_refused(sitting_of(sitting_key(1), {take}), ErrorKind::bad_input);
    Tasting tasting;
    tasting.taster = person("Rui").commitment;
    expect_refused(sitting_of(sitting_key(1), {tasting}), ErrorKind::bad_input);
}

TEST_P(AnyJournal, ASittingBringsOnlyPersonsItsEntriesName) {
    Sitting sitting = note_by(1, person("Inês"));
    sitting.persons = {person("Inês"), person("Rui")};
    expect_refused(sitting, ErrorKind::bad_input);
    EXPECT_TRUE(journal().persons().value().empty());
}

TEST(MemoryJournal, HoldingANewerKindIsReadOnly) {
    Entry newer = sitting_of(sitting_key(1), {Note{}}).entries[0];
    newer.sequence = 1;
    newer.body = Unknown{"serenade", "{}"};
    MemoryJournal journal{testing::facts(), {newer}};
    EXPECT_TRUE(journal.read_only());
    EXPECT_EQ(journal.last_sequence().value(), 1);
    EXPECT_EQ(journal.append(numbered_sitting(2, 1), k_now, 1).error().kind, ErrorKind::read_only);
}

class StoredBook : public BookTest {};

TEST_F(StoredBook, EveryKindWithEveryFieldFilledSurvivesClosing) {
    const auto entries = testing::full_entry_of_every_kind();
    const Person ines = person("Ines");
    Sitting sitting{entries[0].key.sitting, entries, {ines}};
    {
        const auto book = begin_book();
        const auto booked = book->append(sitting, entries[0].recorded, 0);
        ASSERT_TRUE(booked) << booked.error().where << booked.error().what;
        EXPECT_EQ(testing::unwell(*book), "");
    }
    const auto book = open_book(book_path(), Access::read);
    ASSERT_TRUE(book);
    const auto back = (*book)->entries().value();
    ASSERT_EQ(back.size(), entries.size());
    for (std::size_t i = 0; i < back.size(); ++i) EXPECT_TRUE(testing::same_entry(back[i], entries[i])) << i;
    EXPECT_EQ((*book)->persons().value(), std::vector<Person>{ines});
}

TEST_F(StoredBook, RandomSittingsComeBackAndCheckOut) {
    const auto book = begin_book();
    unsigned number = 0;
    EXPECT_TRUE(rc::check([&] {
        const auto bodies = *rc::gen::container<std::vector<Body>>(3, testing::random_body());
        Sitting sitting = sitting_of(sitting_key(++number), bodies);
        // Whoever the random entries name is unknown to this book.
        for (Entry& entry : sitting.entries) {
            if (auto* tasting = std::get_if<Tasting>(&entry.body)) tasting->taster.clear();
            if (auto* take = std::get_if<Take>(&entry.body)) take->person.clear();
            // Volumes up to 2^53 each may add up beyond it, which is refused; see the test of that.
            if (auto* move = std::get_if<Move>(&entry.body)) move->to.clear();
        }
        const std::int64_t last = book->last_sequence().value();
        const auto booked = book->append(sitting, k_now, last);
        RC_ASSERT(booked.has_value());
        const auto entries = book->entries().value();
        RC_ASSERT(entries.size() == static_cast<std::size_t>(last) + 3);
        for (std::size_t i = 0; i < 3; ++i)
            RC_ASSERT(testing::same_entry(entries[static_cast<std::size_t>(last) + i], booked->entries[i]));
    }));
    EXPECT_EQ(testing::unwell(*book), "");
}

TEST_F(StoredBook, AMoveThatAddsUpBeyondWhatABookCountsIsRefused) {
    const auto book = begin_book();
    Move move;
    for (int i = 0; i < 2; ++i) move.to.push_back({{sitting_key(1), 0}, Volume::from_ul(std::int64_t{1} << 52)});
    const auto booked = book->append(sitting_of(sitting_key(2), {move}), k_now, 0);
    ASSERT_FALSE(booked);
    EXPECT_EQ(booked.error().where, "to");
}

TEST_F(StoredBook, AnEntryThatCannotStandTakesItsWholeSittingWithIt) {
    const auto book = begin_book();
    Sitting sitting = numbered_sitting(1, 4);
    sitting.entries[3].reason = "\xFF";
    const auto booked = book->append(sitting, k_now, 0);
    ASSERT_FALSE(booked);
    EXPECT_EQ(booked.error().where, "reason");
    EXPECT_EQ(book->last_sequence().value(), 0);
}

TEST_F(StoredBook, APersonComesWithSaltNameAndTheCommitmentOfBoth) {
    const auto book = begin_book();
    Person wrong = person("Inês");
    wrong.name = "Ines";
    Person saltless = person("Inês");
    saltless.salt.clear();
    Person nameless{commitment_of(std::string(32, 'a'), ""), std::string(32, 'a'), ""};
    for (const Person& bad : {wrong, saltless, nameless}) {
        Sitting sitting = note_by(1, bad);
        sitting.persons = {bad};
        EXPECT_EQ(book->append(sitting, k_now, 0).error().kind, ErrorKind::bad_input);
    }
    EXPECT_TRUE(book->persons().value().empty());
}

TEST_F(StoredBook, AForgottenNameIsGoneFromTheFileAndStaysForgotten) {
    const Person ines = person("Ines-Whom-Nobody-Remembers");
    Sitting sitting = note_by(1, ines);
    sitting.persons = {ines};
    {
        const auto book = begin_book();
        ASSERT_TRUE(book->append(sitting, k_now, 0));
    }
    ASSERT_NE(testing::bytes_of_file(book_path()).find(ines.name), std::string::npos);
    {
        const auto book = open_book(book_path(), Access::write).value();
        EXPECT_EQ(book->forget(person("Rui").commitment).error().kind, ErrorKind::not_found);
        ASSERT_TRUE(book->forget(ines.commitment));
        EXPECT_EQ(book->persons().value(), (std::vector<Person>{{ines.commitment, "", ""}}));
        Sitting late = note_by(2, ines);
        late.persons = {ines};
        ASSERT_TRUE(book->append(late, k_now, 1));
        EXPECT_EQ(book->persons().value(), (std::vector<Person>{{ines.commitment, "", ""}}));
        EXPECT_EQ(testing::unwell(*book), "");
    }
    const std::string bytes = testing::bytes_of_file(book_path());
    EXPECT_EQ(bytes.find(ines.name), std::string::npos);
    EXPECT_EQ(bytes.find(ines.salt), std::string::npos);
}

}  // namespace
}  // namespace undercroft::store
