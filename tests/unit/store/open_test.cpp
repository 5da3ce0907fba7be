#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>

#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using testing::k_now;

using namespace ledger;
using testing::numbered_sitting;
using testing::RawDatabase;

constexpr const char* k_serenade =
    "{\"at_ms\":1000,\"body\":{\"strength\":\"3.5\"},\"format\":1,"
    "\"key\":\"0190f3c8-0009-7000-8000-000000000009:000000\",\"kind\":\"serenade\","
    "\"path\":\"0190f3c8-0009-7000-8000-000000000009:000000\",\"recorded_ms\":7,\"sitting_size\":1}";

class OpenBook : public testing::BookTest {
protected:
    void write_file(const std::string& name, const std::string& bytes) {
        std::ofstream{path(name), std::ios::binary} << bytes;
    }
    void expect_refused(const std::string& where, ErrorKind kind) {
        for (const Access access : {Access::read, Access::write}) {
            const auto book = open_book(where, access);
            ASSERT_FALSE(book) << where;
            EXPECT_EQ(book.error().kind, kind) << where << ": " << book.error().what;
            EXPECT_FALSE(book.error().what.empty());
        }
    }
    // What a newer program would append: entry 3, of a kind unknown here.
    void append_serenade() {
        RawDatabase raw{book_path()};
        ASSERT_EQ(
            raw.execute("INSERT INTO entry (sequence, sitting, idx, sitting_size, format, kind, at_ms, path, "
                        "recorded_ms, canonical, link) VALUES (3, '0190f3c8-0009-7000-8000-000000000009', 0, 1, 1, "
                        "'serenade', 1000, '0190f3c8-0009-7000-8000-000000000009:000000', 7, '" +
                        std::string(k_serenade) + "', zeroblob(32))"),
            "");
    }
};

TEST_F(OpenBook, AMissingFileIsNotFoundAndIsNotMade) {
    expect_refused(path("nothing.book"), ErrorKind::not_found);
    expect_refused("", ErrorKind::not_found);
    expect_refused(path("no-folder/nothing.book"), ErrorKind::not_found);
    EXPECT_EQ(files(), "");
}

TEST_F(OpenBook, WhatIsNoBookIsRefusedAndLeftAsItIs) {
    write_file("empty", "");
    write_file("words", "Dear diary, today I racked the north barrel. It smelled of hay.");
    write_file("long", std::string(10'000, 'x'));
    std::filesystem::create_directory(path("folder"));
    ASSERT_EQ(::mkfifo(path("pipe").c_str(), 0600), 0);
    RawDatabase{path("other.db")}.execute("CREATE TABLE t (x)");
    const std::string before = files();
    for (const char* name : {"empty", "words", "long", "folder", "pipe", "other.db"})
        expect_refused(path(name), ErrorKind::bad_input);
    EXPECT_EQ(files(), before);
    EXPECT_EQ(testing::bytes_of_file(path("empty")), "");
    EXPECT_EQ(testing::bytes_of_file(path("long")), std::string(10'000, 'x'));
}

TEST_F(OpenBook, ATruncatedOrScribbledBookIsDamaged) {
    {
        const auto book = begin_book();
        for (unsigned i = 0; i < 40; ++i)
            ASSERT_TRUE(book->append(numbered_sitting(i, 4), k_now, book->last_sequence().value()));
    }
    const std::string whole = testing::bytes_of_file(book_path());
    write_file("cut.book", whole.substr(0, 4096));
    expect_refused(path("cut.book"), ErrorKind::storage);
    std::string scribbled = whole;
    scribbled.replace(100, 3'000, std::string(3'000, '\xAA'));  // the page that lists the tables
    write_file("scribbled.book", scribbled);
    expect_refused(path("scribbled.book"), ErrorKind::storage);
}

TEST_F(OpenBook, ANewBookIsOneFileAndNothingElse) {
    { const auto book = begin_book(); }
    EXPECT_EQ(files(), "kiln-lane.book");
}

TEST_F(OpenBook, WritingLeavesOneFileOnceClosed) {
    {
        const auto book = begin_book();
        ASSERT_TRUE(book->append(numbered_sitting(1, 3), k_now, 0));
        EXPECT_NE(files(), "kiln-lane.book");  // the log is there while the book is open
    }
    EXPECT_EQ(files(), "kiln-lane.book");
    // Bytes 18 and 19 of the file say how it is journalled: 1 is "plain, one file" (SQLite file format 1.3).
    EXPECT_EQ(testing::bytes_of_file(book_path()).substr(18, 2), "\x01\x01");
    { EXPECT_TRUE(open_book(book_path(), Access::read)); }
    EXPECT_EQ(files(), "kiln-lane.book");
}

TEST_F(OpenBook, TheLastOneOutClearsUpInWhateverOrderTheyLeave) {
    for (const bool writer_first : {true, false}) {
        std::filesystem::remove(book_path());
        auto writer = begin_book();
        ASSERT_TRUE(writer->append(numbered_sitting(1, 3), k_now, 0));
        auto reader = open_book(book_path(), Access::read).value();
        EXPECT_EQ(reader->last_sequence().value(), 3);
        if (writer_first) writer.reset();
        EXPECT_EQ(reader->last_sequence().value(), 3);
        reader.reset();
        writer.reset();
        EXPECT_EQ(files(), "kiln-lane.book");
        EXPECT_EQ(testing::bytes_of_file(book_path()).substr(18, 2), "\x01\x01");
    }
}

TEST_F(OpenBook, ABookIsNeverBegunOverAFileThatIsThere) {
    write_file("kiln-lane.book", "precious");
    const auto book = create_book(book_path(), testing::facts());
    ASSERT_FALSE(book);
    EXPECT_EQ(book.error().kind, ErrorKind::bad_input);
    EXPECT_EQ(testing::bytes_of_file(book_path()), "precious");
    EXPECT_EQ(files(), "kiln-lane.book");
    EXPECT_EQ(create_book(path("no-folder/a.book"), testing::facts()).error().kind, ErrorKind::not_found);
    EXPECT_EQ(create_book("", testing::facts()).error().kind, ErrorKind::bad_input);
}

TEST_F(OpenBook, ABookIsNotBegunWithFactsThatCannotStand) {
    const auto refused_with = [&](auto change) {
        BookFacts facts = testing::facts();
        change(facts);
        const auto book = create_book(book_path(), facts);
        return book ? std::string("begun") : book.error().where;
    };
    EXPECT_EQ(refused_with([](auto& facts) { facts.name.clear(); }), "name");
    EXPECT_EQ(refused_with([](auto& facts) { facts.name = "\xFF"; }), "name");
    EXPECT_EQ(refused_with([](auto& facts) { facts.zone.clear(); }), "zone");
    EXPECT_EQ(refused_with([](auto& facts) { facts.id = "kiln lane"; }), "id");
    EXPECT_EQ(refused_with([](auto& facts) { facts.format = 2; }), "format");
    EXPECT_EQ(files(), "");
}

TEST_F(OpenBook, NamesThatMeanSomethingToSqliteAreOnlyNames) {
    const auto folder = std::filesystem::current_path();
    std::filesystem::current_path(path(""));
    for (const char* name : {":memory:", "file:a.book?mode=memory", "-book"}) {
        EXPECT_TRUE(create_book(name, testing::facts())) << name;
        EXPECT_TRUE(open_book(name, Access::write)) << name;
    }
    std::filesystem::current_path(folder);
    EXPECT_EQ(files(), "-book :memory: file:a.book?mode=memory");
}

TEST_F(OpenBook, ReadingAccessDoesNotWrite) {
    { const auto book = begin_book(); }
    const auto book = open_book(book_path(), Access::read).value();
    EXPECT_FALSE(book->read_only());
    EXPECT_EQ(book->append(numbered_sitting(1, 1), k_now, 0).error().kind, ErrorKind::read_only);
    EXPECT_EQ(book->forget(std::string(64, 'a')).error().kind, ErrorKind::read_only);
}

TEST_F(OpenBook, ABookWithANewerKindOpensReadOnlyAndTellsTheRest) {
    {
        const auto book = begin_book();
        ASSERT_TRUE(book->append(numbered_sitting(1, 2), k_now, 0));
    }
    append_serenade();
    const auto book = open_book(book_path(), Access::write).value();
    EXPECT_TRUE(book->read_only());
    const auto entries = book->entries().value();
    ASSERT_EQ(entries.size(), 3U);
    EXPECT_TRUE(std::holds_alternative<VesselJoins>(entries[0].body));
    EXPECT_EQ(entries[2].body, Body(Unknown{"serenade", k_serenade}));
    EXPECT_EQ(entries[2].sequence, 3);
    EXPECT_EQ(book->append(numbered_sitting(2, 1), k_now, 3).error().kind, ErrorKind::read_only);
    EXPECT_NE(testing::said_by(*book, "columns").find("1 is of a kind this program does not know"), std::string::npos);
}

TEST_F(OpenBook, ANewerProgramThatWritesMeanwhileIsNoticed) {
    const auto book = begin_book();
    ASSERT_TRUE(book->append(numbered_sitting(1, 2), k_now, 0));
    append_serenade();
    EXPECT_FALSE(book->read_only());
    EXPECT_EQ(book->append(numbered_sitting(2, 1), k_now, 3).error().kind, ErrorKind::read_only);
    EXPECT_TRUE(book->read_only());
}

TEST_F(OpenBook, ABookOfANewerSchemaOpensReadOnly) {
    {
        const auto book = begin_book();
        ASSERT_TRUE(book->append(numbered_sitting(1, 2), k_now, 0));
    }
    RawDatabase{book_path()}.execute("PRAGMA user_version = 3; CREATE TABLE shelf (x)");
    const auto book = open_book(book_path(), Access::write).value();
    EXPECT_TRUE(book->read_only());
    EXPECT_EQ(book->entries().value().size(), 2U);
    EXPECT_EQ(book->append(numbered_sitting(2, 1), k_now, 2).error().kind, ErrorKind::read_only);
    EXPECT_EQ(testing::unwell(*book), "");
    EXPECT_NE(testing::said_by(*book, "format").find("step 3, newer"), std::string::npos);
}

TEST_F(OpenBook, ABookOfANewerFormatOpensReadOnly) {
    { const auto book = begin_book(); }
    {
        RawDatabase raw{book_path()};
        raw.drop_triggers();
        ASSERT_EQ(raw.execute("UPDATE book SET canonical = replace(canonical, '\"format\":1', '\"format\":2')"), "");
    }
    const auto book = open_book(book_path(), Access::write).value();
    EXPECT_TRUE(book->read_only());
    EXPECT_EQ(book->facts().format, 2);
    EXPECT_EQ(book->append(numbered_sitting(1, 1), k_now, 0).error().kind, ErrorKind::read_only);
}

}  // namespace
}  // namespace undercroft::store
