// Pictures lie in a table of their own and can be forgotten; books from before they came are brought along.
#include <gtest/gtest.h>

#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/pictures.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using testing::k_now;

using namespace ledger;
using testing::airlock;
using testing::note_with;
using testing::picture_of;
using testing::RawDatabase;

class BookWithPictures : public testing::BookTest {};

TEST_F(BookWithPictures, KeepsBytesBesideTheChainAndGivesThemBack) {
    const auto book = begin_book();
    const auto booked = book->append(note_with(1, airlock()), k_now, 0);
    ASSERT_TRUE(booked) << booked.error().what;
    const auto again = book->picture(airlock().commitment);
    ASSERT_TRUE(again && *again);
    EXPECT_EQ(**again, airlock());
    EXPECT_EQ(*book->picture(std::string(64, '0')), std::nullopt);
    EXPECT_EQ(testing::unwell(*book), "");
    const auto entries = book->entries();
    ASSERT_TRUE(entries);
    const std::string canonical = encode(entries->front()).value();
    EXPECT_EQ(format_of(canonical), 2) << "a program of before knows that it cannot read it";
    EXPECT_EQ(canonical.find("PNG"), std::string::npos);
    EXPECT_TRUE(book->append(note_with(1, airlock()), k_now, 0)->already);
}

TEST_F(BookWithPictures, ForgetsBytesInTheFileAndStaysWhole) {
    const auto book = begin_book();
    ASSERT_TRUE(book->append(note_with(1, airlock()), k_now, 0));
    const std::string head = book->chain_head().value();
    const std::string both = testing::bytes_of_file(book_path()) + testing::bytes_of_file(book_path() + "-wal");
    ASSERT_NE(both.find("the airlock, which was dry"), std::string::npos);
    ASSERT_TRUE(book->forget_picture(airlock().commitment));
    const auto gone = book->picture(airlock().commitment);
    ASSERT_TRUE(gone && *gone);
    EXPECT_TRUE((*gone)->is_forgotten());
    EXPECT_EQ((*gone)->bytes, "");
    EXPECT_EQ(book->chain_head().value(), head);
    EXPECT_EQ(testing::unwell(*book), "");
    EXPECT_EQ(testing::said_by(*book, "pictures"), "0 pictures, 1 forgotten");
    for (const std::string& file : {book_path(), book_path() + "-wal"})
        EXPECT_EQ(testing::bytes_of_file(file).find("the airlock, which was dry"), std::string::npos) << file;
    const auto unknown = book->forget_picture(std::string(64, '0'));
    ASSERT_FALSE(unknown);
    EXPECT_EQ(unknown.error().kind, ErrorKind::not_found);
}

TEST_F(BookWithPictures, RefuseWhatIsNoPictureOrFitsNoEntry) {
    const auto book = begin_book();
    const auto refused = [&](const Sitting& sitting) {
        const auto outcome = book->append(sitting, k_now, 0);
        return !outcome && outcome.error().kind == ErrorKind::bad_input && book->last_sequence().value() == 0;
    };
    EXPECT_TRUE(refused(note_with(1, picture_of("GIF89a"))));
    EXPECT_TRUE(refused(note_with(1, picture_of(""))));
    EXPECT_TRUE(refused(note_with(1, picture_of(airlock().bytes + std::string(k_largest_picture, 'x')))));
    Picture wrong = airlock();
    wrong.bytes += "!";
    EXPECT_TRUE(refused(note_with(1, wrong)));
    wrong = airlock();
    wrong.media_type = "image/jpeg";
    EXPECT_TRUE(refused(note_with(1, wrong)));
    Sitting without = note_with(1, airlock());
    without.pictures.clear();
    EXPECT_TRUE(refused(without)) << "an entry names bytes nobody has";
    Sitting beside = testing::sitting_of(testing::sitting_key(1), {Note{}});
    beside.pictures = {airlock()};
    EXPECT_TRUE(refused(beside)) << "bytes that no entry names";
    Note no_commitment;
    no_commitment.picture = "airlock.png";
    EXPECT_TRUE(refused(testing::sitting_of(testing::sitting_key(1), {no_commitment})));
    const std::string largest = airlock().bytes + std::string(k_largest_picture - airlock().bytes.size(), 'x');
    EXPECT_TRUE(book->append(note_with(1, picture_of(largest)), k_now, 0)) << "8 MB is not too large";
}

TEST_F(BookWithPictures, CheckFindsBytesThatWereChangedAndRowsThatAreGone) {
    {
        const auto book = begin_book();
        ASSERT_TRUE(book->append(note_with(1, airlock()), k_now, 0));
    }
    const auto spoilt = [&](const std::string& sql) {
        const std::string copy = path("spoilt.book");
        std::filesystem::copy_file(book_path(), copy, std::filesystem::copy_options::overwrite_existing);
        {
            RawDatabase raw{copy};
            EXPECT_NE(raw.execute(sql), "") << "a trigger or a rule stands before it: " << sql;
            raw.drop_triggers();
            EXPECT_EQ(raw.execute(sql), "");
        }
        const auto book = open_book(copy, Access::read);
        return book ? testing::unwell(**book) : book.error().what;
    };
    EXPECT_EQ(spoilt("UPDATE picture SET bytes = CAST(bytes || x'00' AS BLOB)"), "format pictures");
    EXPECT_EQ(spoilt("DELETE FROM picture"), "format pictures");
    EXPECT_EQ(spoilt("UPDATE picture SET salt = ''"), "format pictures");
}

TEST_F(BookWithPictures, OfSchemaStepOneAreReadAsTheyAreAndBroughtAlongWhenWrittenTo) {
    const std::string dump =
        testing::bytes_of_file(std::string(UNDERCROFT_SOURCE_DIR) + "/tests/unit/store/schema_step_1.sql");
    ASSERT_FALSE(dump.empty());
    ASSERT_EQ(RawDatabase{book_path()}.execute(dump), "");
    {
        const auto book = open_book(book_path(), Access::read);
        ASSERT_TRUE(book) << book.error().what;
        EXPECT_FALSE((*book)->read_only());
        EXPECT_EQ((*book)->entries()->size(), 3U);
        EXPECT_EQ(testing::unwell(**book), "");
        EXPECT_EQ(testing::said_by(**book, "format"), "schema step 1");
        EXPECT_EQ(*(*book)->picture(airlock().commitment), std::nullopt);
    }
    std::string head;
    {
        const auto book = open_book(book_path(), Access::write);
        ASSERT_TRUE(book) << book.error().what;
        head = (*book)->chain_head().value();
        EXPECT_EQ(testing::unwell(**book), "");
        EXPECT_EQ(testing::said_by(**book, "format"), "schema step 2");
        EXPECT_EQ((*book)->persons()->front().name, "Ines");
        ASSERT_TRUE((*book)->append(note_with(9, airlock()), k_now, 3));
        EXPECT_EQ(testing::unwell(**book), "");
    }
    RawDatabase raw{book_path()};
    EXPECT_EQ(raw.text("SELECT lower(hex(link)) FROM entry WHERE sequence = 3"), head) << "the chain is untouched";
    EXPECT_EQ(raw.text("PRAGMA user_version"), "2");
}

TEST(MediaType, IsToldByTheFirstBytes) {
    EXPECT_EQ(media_type_of("\xff\xd8\xff\xe0 JFIF"), "image/jpeg");
    EXPECT_EQ(media_type_of(airlock().bytes), "image/png");
    for (const char* other : {"", "\xff\xd8", "GIF89a", "%PDF-1.7", "<svg/>", "\x89PNG\n\x1a\n"})
        EXPECT_EQ(media_type_of(other), "") << other;
}

}  // namespace
}  // namespace undercroft::store
