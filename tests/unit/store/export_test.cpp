// An export is the whole book as text: restoring it gives the same book, and no byte of it can change unseen.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <fstream>
#include <sstream>

#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "store/export_lines.hpp"
#include "store/restore.hpp"
#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/pictures.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using testing::k_now;

using namespace ledger;
using testing::airlock;
using testing::kinds_of_entries;
using testing::note_with;
using testing::numbered_sitting;
using testing::person;
using testing::picture_of;
using testing::RawDatabase;
using testing::sitting_key;
using testing::sitting_of;

std::string export_of(BookFile& book) {
    std::ostringstream out;
    const auto totals = book.export_to(out);
    EXPECT_TRUE(totals) << totals.error().what;
    return out.str();
}

Result<ExportTotals> restored(const std::string& path, const std::string& text) {
    std::istringstream in{text};
    return restore_book(path, in, "cellar.jsonl");
}

// Why an export does not read; nothing when it does.
std::optional<Error> wrong_in(const std::string& text) {
    std::istringstream in{text};
    const auto copy = read_export(in, "cellar.jsonl");
    return copy ? std::nullopt : std::optional(copy.error());
}

class Export : public testing::BookTest {
protected:
    // Two people and two pictures, one of each forgotten, an entry of every kind, and small sittings.
    [[nodiscard]] std::unique_ptr<BookFile> book_with_everything() const {
        auto book = begin_book();
        const auto entries = testing::full_entry_of_every_kind();
        EXPECT_TRUE(book->append({entries[0].key.sitting, entries, {person("Ines")}}, k_now, 0));
        Note note;
        note.words = "hay \"and\" straw\n\xF0\x9F\x8D\xBA";
        Sitting by_anke = sitting_of(sitting_key(20), {note, note});
        for (Entry& entry : by_anke.entries) entry.by = person("Anke", 'b').commitment;
        by_anke.persons = {person("Anke", 'b')};
        EXPECT_TRUE(book->append(by_anke, k_now, kinds_of_entries()));
        EXPECT_TRUE(book->append(numbered_sitting(21, 3), k_now, kinds_of_entries() + 2));
        EXPECT_TRUE(book->append(note_with(22, airlock()), k_now, kinds_of_entries() + 5));
        EXPECT_TRUE(book->append(note_with(23, gone()), k_now, kinds_of_entries() + 6));
        EXPECT_TRUE(book->forget(person("Anke", 'b').commitment));
        EXPECT_TRUE(book->forget_picture(gone().commitment));
        return book;
    }
    [[nodiscard]] static Picture gone() { return picture_of("\xff\xd8\xff\xe0 a face"); }
    // The smallest that has a line of every sort.
    [[nodiscard]] std::string small_export() const {
        const auto book = begin_book();
        for (const auto& [number, name] : {std::pair{30U, "Ines"}, std::pair{31U, "Anke"}}) {
            Note note;
            note.words = "hay";
            Sitting sitting = sitting_of(sitting_key(number), {note});
            sitting.entries[0].by = person(name).commitment;
            sitting.persons = {person(name)};
            EXPECT_TRUE(book->append(sitting, k_now, book->last_sequence().value()));
        }
        EXPECT_TRUE(book->append(note_with(32, picture_of("\xff\xd8\xff\xe0!")), k_now, 2));
        EXPECT_TRUE(book->append(note_with(33, gone()), k_now, 3));
        EXPECT_TRUE(book->forget(person("Anke").commitment));
        EXPECT_TRUE(book->forget_picture(gone().commitment));
        return export_of(*book);
    }
};

TEST_F(Export, RestoredIsTheSameBookByteForByte) {
    const auto book = book_with_everything();
    const std::string text = export_of(*book);
    const auto totals = restored(path("again.book"), text);
    ASSERT_TRUE(totals) << totals.error().where << ": " << totals.error().what;
    const auto again = open_book(path("again.book"), Access::write).value();
    EXPECT_EQ(export_of(*again), text);
    EXPECT_EQ(again->facts(), book->facts());
    EXPECT_EQ(again->persons().value(), book->persons().value());
    EXPECT_EQ(**again->picture(airlock().commitment), airlock());
    EXPECT_TRUE((**again->picture(gone().commitment)).is_forgotten());
    EXPECT_EQ(again->chain_head().value(), book->chain_head().value());
    EXPECT_EQ(*totals, (ExportTotals{2, 2, kinds_of_entries() + 7, book->chain_head().value()}));
    EXPECT_EQ(testing::unwell(*again), "");
    // Every column, not only the canonical bytes.
    const std::string columns =
        "SELECT group_concat(quote(sequence) || quote(subject) || quote(volume_ul) || "
        "quote(person) || quote(supersedes) || hex(link)) FROM entry";
    EXPECT_EQ(RawDatabase{path("again.book")}.text(columns), RawDatabase{book_path()}.text(columns));
    // It is a book to go on with.
    EXPECT_TRUE(again->append(numbered_sitting(40, 2), k_now, kinds_of_entries() + 7));
}

TEST_F(Export, OfAnEmptyBookRestoresToAnEmptyBook) {
    const auto book = begin_book();
    const std::string text = export_of(*book);
    ASSERT_TRUE(restored(path("again.book"), text));
    EXPECT_EQ(export_of(*open_book(path("again.book"), Access::read).value()), text);
}

RC_GTEST_FIXTURE_PROP(Export, ThenRestoreIsIdentityOverAnyEntries, ()) {
    SetUp();
    const auto book = create_book(path("any.book"), testing::facts()).value();
    const int sittings = *rc::gen::inRange(0, 5);
    for (int n = 0; n < sittings; ++n) {
        std::vector<Body> bodies =
            *rc::gen::resize(4, rc::gen::nonEmpty(rc::gen::container<std::vector<Body>>(testing::random_body())));
        Sitting sitting = sitting_of(sitting_key(static_cast<unsigned>(n)), std::move(bodies));
        for (Entry& entry : sitting.entries) {
            // Random commitments are nobody's: these tests book with people the book knows.
            if (auto* tasting = std::get_if<Tasting>(&entry.body)) tasting->taster.clear();
            if (auto* take = std::get_if<Take>(&entry.body)) take->person = person("Ines").commitment;
            if (std::holds_alternative<Take>(entry.body)) sitting.persons = {person("Ines")};
        }
        RC_ASSERT(bool(book->append(sitting, k_now, book->last_sequence().value())));
    }
    const std::string text = export_of(*book);
    RC_ASSERT(bool(restored(path("again.book"), text)));
    RC_ASSERT(export_of(*open_book(path("again.book"), Access::read).value()) == text);
    TearDown();
}

TEST_F(Export, EveryLineIsOneObjectAndHoldsTheEntryAsItStandsInTheBook) {
    const auto book = book_with_everything();
    std::istringstream lines{export_of(*book)};
    std::vector<std::string> all;
    for (std::string line; std::getline(lines, line);) all.push_back(line);
    ASSERT_EQ(all.size(), 1U + 2U + 2U + static_cast<std::size_t>(kinds_of_entries() + 7) + 1U);
    EXPECT_TRUE(all[0].starts_with("{\"book\":" + encode(testing::facts()).value() + ",\"export\":1,\"link\":\""));
    const Entry tenth = book->entries().value()[9];
    EXPECT_TRUE(all[14].starts_with("{\"entry\":" + encode(tenth).value() + ",\"link\":\""));
    EXPECT_TRUE(all[14].ends_with("\",\"sequence\":10}"));
    EXPECT_EQ(all.back(), "{\"end\":{\"entries\":" + std::to_string(kinds_of_entries() + 7) + ",\"head\":\"" +
                              book->chain_head().value() + "\",\"persons\":2,\"pictures\":2}}");
}

// The promise: no byte changes unseen. Three ways to change each: its lowest bit, a blank, a letter.
TEST_F(Export, WithAnyByteChangedIsRefusedWithLineAndColumn) {
    const std::string good = small_export();
    ASSERT_EQ(wrong_in(good), std::nullopt);
    int changes = 0;
    for (std::size_t i = 0; i < good.size(); ++i)
        for (const char other : {static_cast<char>(good[i] ^ 1), ' ', 'e'}) {
            if (other == good[i]) continue;
            std::string bad = good;
            bad[i] = other;
            const auto error = wrong_in(bad);
            ASSERT_TRUE(error) << "byte " << i << " of " << good.size() << ": " << good.substr(i, 30);
            EXPECT_NE(error->where.find("cellar.jsonl line "), std::string::npos) << error->where;
            EXPECT_NE(error->what.find("expected"), std::string::npos) << error->what;
            ++changes;
        }
    EXPECT_GT(changes, 3000);
}

TEST_F(Export, WithAnyByteLeftOutOrDoubledIsRefused) {
    const std::string good = small_export();
    for (std::size_t i = 0; i < good.size(); ++i) {
        EXPECT_TRUE(wrong_in(good.substr(0, i) + good.substr(i + 1))) << "without byte " << i;
        EXPECT_TRUE(wrong_in(good.substr(0, i + 1) + good.substr(i))) << "with byte " << i << " twice";
    }
}

TEST_F(Export, CutOffAnywhereIsRefused) {
    const std::string good = small_export();
    for (std::size_t length = 0; length < good.size(); ++length) {
        const auto error = wrong_in(good.substr(0, length));
        ASSERT_TRUE(error) << "the first " << length << " bytes of " << good.size();
        EXPECT_NE(error->where.find(" line "), std::string::npos) << error->where;
    }
}

TEST_F(Export, WithALineMissingTwiceOrElsewhereIsRefused) {
    const std::string good = small_export();
    std::vector<std::string> lines;
    std::istringstream stream{good};
    for (std::string line; std::getline(stream, line);) lines.push_back(line + "\n");
    const auto joined = [](const std::vector<std::string>& parts) {
        std::string text;
        for (const std::string& part : parts) text += part;
        return text;
    };
    for (std::size_t i = 0; i < lines.size(); ++i) {
        std::vector<std::string> without = lines;
        without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
        EXPECT_TRUE(wrong_in(joined(without))) << lines[i];
        std::vector<std::string> twice = lines;
        twice.insert(twice.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
        EXPECT_TRUE(wrong_in(joined(twice))) << lines[i];
        if (i + 1 == lines.size()) continue;
        std::vector<std::string> swapped = lines;
        std::swap(swapped[i], swapped[i + 1]);
        EXPECT_TRUE(wrong_in(joined(swapped))) << lines[i];
    }
    EXPECT_TRUE(wrong_in(good + "\n"));
    EXPECT_TRUE(wrong_in(good + good));
}

TEST_F(Export, NamesTheLineAndColumnOfTheDamage) {
    const std::string good = small_export();
    const auto changed = [&good](const std::string& from, const std::string& to) {
        std::string text = good;
        return text.replace(text.find(from), from.size(), to);
    };
    // A word in the first entry: the link of its line no longer follows.
    const auto word = wrong_in(changed("\"hay\"", "\"hey\""));
    EXPECT_TRUE(word->where.starts_with("cellar.jsonl line 6, column ")) << word->where;
    EXPECT_NE(word->what.find("the link that follows from this entry"), std::string::npos) << word->what;
    // A quote gone: the column is where JSON stops being JSON.
    const auto quote = wrong_in(changed("\"hay\"}", "\"hay}"));
    EXPECT_NE(quote->what.find("expected JSON to go on"), std::string::npos) << quote->what;
    EXPECT_EQ(quote->kind, ErrorKind::storage);
    const auto end = wrong_in(changed("\"pictures\":2", "\"pictures\":3"));
    EXPECT_EQ(end->where, "cellar.jsonl line 10, column " + std::to_string(good.size() - good.rfind("{\"end\"") - 3));
    EXPECT_EQ(end->what, "expected \"2}}\", found \"3}}\".");
}

TEST_F(Export, OfANewerProgramIsRefusedAsNewerNotAsDamaged) {
    std::string text = small_export();
    text.replace(text.find("\"export\":1"), 10, "\"export\":2");
    EXPECT_EQ(wrong_in(text)->kind, ErrorKind::read_only);
    EXPECT_EQ(wrong_in("rum and raisins\n")->kind, ErrorKind::bad_input);
    EXPECT_EQ(wrong_in("")->kind, ErrorKind::storage);
}

TEST_F(Export, ThatDoesNotRestoreLeavesNothingBehind) {
    const std::string good = small_export();
    std::string bad = good;
    bad[bad.rfind("\"persons\":2") + 10] = '9';  // found at the very end
    const std::string before = files();
    EXPECT_FALSE(restored(path("again.book"), bad));
    EXPECT_FALSE(restored(path("again.book"), good.substr(0, good.size() / 2)));
    EXPECT_EQ(files(), before);
    std::ofstream{path("there.book")} << "precious";
    EXPECT_EQ(restored(path("there.book"), good).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(testing::bytes_of_file(path("there.book")), "precious");
}

TEST_F(Export, OfADamagedBookIsRefusedAndLeavesNoFile) {
    const auto book = book_with_everything();
    {
        RawDatabase raw{book_path()};
        raw.drop_triggers();
        ASSERT_EQ(
            raw.execute("UPDATE entry SET canonical = replace(canonical, 'bright', 'bricht') WHERE sequence = 10"), "");
    }
    const std::string before = files();
    const auto totals = book->export_to_file(path("out.jsonl"));
    ASSERT_FALSE(totals);
    EXPECT_NE(totals.error().what.find("entry 10"), std::string::npos) << totals.error().what;
    EXPECT_EQ(files(), before);
}

TEST_F(Export, ToAFileNeverOverwritesOne) {
    const auto book = book_with_everything();
    ASSERT_TRUE(book->export_to_file(path("out.jsonl")));
    EXPECT_EQ(testing::bytes_of_file(path("out.jsonl")), export_of(*book));
    EXPECT_EQ(book->export_to_file(path("out.jsonl")).error().kind, ErrorKind::bad_input);
}

TEST_F(Export, ReadsAsTheSameCopyAsTheBookItself) {
    const auto book = book_with_everything();
    ASSERT_TRUE(book->export_to_file(path("out.jsonl")));
    const auto from_text = read_copy(path("out.jsonl")).value();
    const auto from_book = read_copy(book_path()).value();
    EXPECT_EQ(from_text.facts, from_book.facts);
    EXPECT_EQ(from_text.persons, from_book.persons);
    EXPECT_EQ(from_text.pictures, from_book.pictures);
    EXPECT_EQ(from_text.hashes, from_book.hashes);
    EXPECT_EQ(from_text.head, from_book.head);
    ASSERT_EQ(from_text.entries.size(), from_book.entries.size());
    for (std::size_t i = 0; i < from_text.entries.size(); ++i) {
        EXPECT_TRUE(testing::same_entry(from_text.entries[i], from_book.entries[i]));
        EXPECT_EQ(from_text.entries[i].sequence, from_book.entries[i].sequence);
        EXPECT_EQ(from_text.hashes[i], hex_of(hash_of_entry(encode(from_text.entries[i]).value())));
    }
}

class ManySittings : public testing::BookTest {};

TEST_F(ManySittings, AreBookedAllOrNone) {
    const auto book = begin_book();
    ASSERT_TRUE(book->append(numbered_sitting(1, 2), k_now, 0));
    Sitting by_nobody = numbered_sitting(3, 2);
    by_nobody.entries[0].by = person("Ines").commitment;
    EXPECT_FALSE(book->append_all({numbered_sitting(2, 2), by_nobody}, 2));
    EXPECT_EQ(book->append_all({numbered_sitting(2, 2), numbered_sitting(1, 2)}, 2).error().kind, ErrorKind::stale);
    EXPECT_EQ(book->append_all({numbered_sitting(2, 2)}, 1).error().kind, ErrorKind::stale);
    EXPECT_EQ(book->last_sequence().value(), 2);
    const auto booked = book->append_all({numbered_sitting(2, 2), numbered_sitting(4, 3)}, 2);
    ASSERT_TRUE(booked) << booked.error().what;
    EXPECT_EQ(booked->back().sequence, 7);
    EXPECT_EQ(booked->back().recorded, Instant{});  // as it said
    EXPECT_EQ(testing::unwell(*book), "");
}

TEST_F(ManySittings, MayBringSomebodyWhoWasForgottenElsewhereButNoFalseName) {
    const auto book = begin_book();
    Sitting sitting = numbered_sitting(1, 2);
    sitting.entries[0].by = person("Ines").commitment;
    sitting.persons = {{person("Ines").commitment, "", "Anke"}};
    EXPECT_FALSE(book->append_all({sitting}, 0));
    sitting.persons = {{person("Ines").commitment, "", ""}};
    EXPECT_TRUE(book->append_all({sitting}, 0));
    EXPECT_EQ(testing::unwell(*book), "");
}

TEST_F(ManySittings, MayBringAPictureOrOneForgottenElsewhereButNoFalseOne) {
    const auto book = begin_book();
    Sitting sitting = note_with(1, airlock());
    sitting.pictures[0].bytes += "!";
    EXPECT_FALSE(book->append_all({sitting}, 0));
    EXPECT_TRUE(book->append_all({note_with(1, airlock())}, 0));
    EXPECT_EQ(**book->picture(airlock().commitment), airlock());
    const Picture other = picture_of("\xff\xd8\xff\xe0 a face");
    Sitting forgotten = note_with(2, other);
    forgotten.pictures = {{other.commitment, {}, {}, {}}};
    EXPECT_TRUE(book->append_all({forgotten}, 1));
    EXPECT_TRUE((**book->picture(other.commitment)).is_forgotten());
    EXPECT_EQ(testing::unwell(*book), "");
}

TEST_F(ManySittings, TheLinkOfAnEntryFindsIt) {
    const auto book = begin_book();
    const std::string at_first = book->chain_head().value();
    ASSERT_TRUE(book->append(numbered_sitting(1, 2), k_now, 0));
    const std::string after_two = book->chain_head().value();
    ASSERT_TRUE(book->append(numbered_sitting(2, 2), k_now, 2));
    EXPECT_EQ(book->entry_of_link(at_first).value(), 0);
    EXPECT_EQ(book->entry_of_link(after_two).value(), 2);
    EXPECT_EQ(book->entry_of_link(book->chain_head().value()).value(), 4);
    EXPECT_EQ(book->entry_of_link(std::string(64, '0')).value(), -1);
}

}  // namespace
}  // namespace undercroft::store
