// Which entries count, and in which order.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

std::vector<std::string> notes_in(const std::vector<Entry>& entries, const Scope& scope = {}) {
    const auto book = in_order(entries, scope);
    std::vector<std::string> words;
    if (!book) return {"fault"};
    for (const Entry* entry : book->live)
        if (const auto* note = std::get_if<Note>(&entry->body)) words.push_back(note->words);
    return words;
}

Body note(const std::string& words) {
    Note body;
    body.words = words;
    return body;
}

using Words = std::vector<std::string>;

TEST(TheOrderOfTheBook, IsByInstantThenBySittingThenByIndex) {
    WrittenBook book;
    book.write(on_day(2), note("third"));
    book.write(on_day(1), note("first"));
    book.write(on_day(1), note("second"));
    EXPECT_EQ(notes_in(book.entries()), (Words{"first", "second", "third"}));
    std::vector<Entry> backwards(book.entries().rbegin(), book.entries().rend());
    EXPECT_EQ(notes_in(backwards), (Words{"first", "second", "third"}));
    EXPECT_LT(place_at(on_day(1), EntryKey{sitting_key(1), 9}), place_at(on_day(1), EntryKey{sitting_key(1), 10}));
}

TEST(TheOrderOfTheBook, PutsAnEntryPlacedAfterAnotherRightBehindIt) {
    WrittenBook book;
    const EntryKey a = book.write(on_day(1), note("a"));
    book.write(on_day(1), note("b"));
    const EntryKey late = book.write_after(a, note("after a"));
    book.write_after(late, note("after that"));
    book.write(on_day(1), note("c"));
    EXPECT_EQ(notes_in(book.entries()), (Words{"a", "after a", "after that", "b", "c"}));
}

TEST(TheOrderOfTheBook, GivesACorrectionThePlaceOfWhatItCorrects) {
    WrittenBook book;
    const EntryKey a = book.write(on_day(1), note("a"));
    book.write(on_day(2), note("b"));
    const EntryKey again = book.correct(a, note("a, said better"));
    EXPECT_EQ(notes_in(book.entries()), (Words{"a, said better", "b"}));
    book.correct(again, note("a, at last"));
    EXPECT_EQ(notes_in(book.entries()), (Words{"a, at last", "b"}));
}

TEST(TheOrderOfTheBook, LeavesOutWhatIsVoidedAndTakesItBackWhenTheVoidIsCorrected) {
    WrittenBook book;
    const EntryKey a = book.write(on_day(1), note("a"));
    const EntryKey gone = book.strike(a);
    EXPECT_TRUE(notes_in(book.entries()).empty());
    book.correct(gone, note("a after all"));
    EXPECT_EQ(notes_in(book.entries()), (Words{"a after all"}));
}

TEST(TheOrderOfTheBook, RefusesASecondCorrectionOfOneEntry) {
    WrittenBook book;
    const EntryKey a = book.write(on_day(1), note("a"));
    book.correct(a, note("one"));
    const EntryKey second = book.correct(a, note("two"));
    const auto cellar = book.cellar();
    ASSERT_FALSE(cellar);
    EXPECT_EQ(cellar.error().kind, FaultKind::broken_chain);
    EXPECT_EQ(cellar.error().entry, second);
}

TEST(TheOrderOfTheBook, RefusesACorrectionOfWhatIsNotThereAndAChainThatBitesItsTail) {
    WrittenBook book;
    const EntryKey a = book.write(on_day(1), note("a"));
    std::vector<Entry> entries = book.entries();
    entries[0].supersedes = EntryKey{sitting_key(77), 0};
    EXPECT_EQ(replay(entries).error().kind, FaultKind::broken_chain);
    entries[0].supersedes = a;
    EXPECT_EQ(replay(entries).error().kind, FaultKind::broken_chain);
}

TEST(TheOrderOfTheBook, LooksBackToADayAndToWhatWasKnownOnADay) {
    WrittenBook book;
    const EntryKey a = book.write(on_day(1), note("a"));
    book.write(on_day(5), note("b"));
    std::vector<Entry> entries = book.entries();
    Scope until;
    until.until = on_day(3);
    EXPECT_EQ(notes_in(entries, until), (Words{"a"}));

    // Corrected on day 9: on day 6 nobody knew.
    book.correct(a, note("a, corrected"));
    entries = book.entries();
    entries.back().recorded = on_day(9);
    Scope known;
    known.known_on = on_day(6);
    EXPECT_EQ(notes_in(entries, known), (Words{"a", "b"}));
    known.known_on = on_day(9);
    EXPECT_EQ(notes_in(entries, known), (Words{"a, corrected", "b"}));
    EXPECT_EQ(notes_in(entries, until), (Words{"a, corrected"}));
}

TEST(AVessel, WhoseNameWasCorrectedIsTheSameVessel) {
    WrittenBook book;
    const EntryKey amber = book.vessel(on_day(0), "The Ambre", 60);
    book.lot(on_day(1), amber, "First wort", 20);
    VesselJoins better;
    better.name = "The Amber";
    better.capacity = litres(60);
    const EntryKey corrected = book.correct(amber, better);
    book.lot(on_day(2), corrected, "Second wort", 20);
    const auto cellar = book.cellar();
    ASSERT_TRUE(cellar);
    ASSERT_EQ(cellar->vessels.size(), 1U);
    EXPECT_EQ(cellar->vessels[0].as.name, "The Amber");
    EXPECT_EQ(cellar->vessels[0].liquid.volume, litres(40));
    EXPECT_EQ(cellar->vessel_of(amber), 0);
    EXPECT_EQ(cellar->vessel_of(corrected), 0);
}

TEST(ALateEntry, ThatALaterOneCannotStandOnIsAFaultOfTheLaterOne) {
    WrittenBook book;
    const EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    const EntryKey jar = book.vessel(on_day(0), "Jar 23", 60);
    book.lot(on_day(1), amber, "First wort", 54);
    const EntryKey pull = book.move(on_day(10), amber, jar, 50);
    book.loss(on_day(5), amber, 6);  // written down last
    const auto cellar = book.cellar();
    ASSERT_FALSE(cellar);
    EXPECT_EQ(cellar.error().entry, pull);
    EXPECT_EQ(cellar.error().wanted - cellar.error().held, litres(2));
}

TEST(ANewerBook, AnswersAsFarAsItsEntriesAreKnown) {
    WrittenBook book;
    const EntryKey amber = book.vessel(on_day(0), "The Amber", 60);
    book.lot(on_day(1), amber, "First wort", 54);
    book.write(on_day(2), Unknown{"settle", "{}"});
    const auto cellar = book.cellar();
    ASSERT_TRUE(cellar);
    EXPECT_EQ(cellar->vessels[0].liquid.volume, litres(54));
    EXPECT_EQ(kind_word(book.entries().back().body), "settle");
}

TEST(AnEntryKey, ReadsBackFromItsText) {
    const EntryKey key{sitting_key(12), 3};
    EXPECT_EQ(EntryKey::from_text(key.text()), key);
    for (const char* text : {"", ":000001", "abc", "abc:1", "abc:00000x", "abc:0000001"})
        EXPECT_EQ(EntryKey::from_text(text), std::nullopt) << text;
}

}  // namespace
}  // namespace undercroft::testing
