#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
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

class Backup : public testing::BookTest {
protected:
    [[nodiscard]] std::unique_ptr<BookFile> book_with_entries() const {
        auto book = begin_book();
        for (unsigned i = 1; i <= 30; ++i)
            EXPECT_TRUE(book->append(numbered_sitting(i, 3), k_now, book->last_sequence().value()));
        return book;
    }
};

TEST_F(Backup, OfAnOpenBookIsAWholeBookInOneFile) {
    const auto book = book_with_entries();
    EXPECT_EQ(book->backup_to(path("copy.book")).value(), 90);
    const auto copy = open_book(path("copy.book"), Access::write).value();
    EXPECT_EQ(copy->facts(), book->facts());
    EXPECT_EQ(copy->chain_head().value(), book->chain_head().value());
    EXPECT_EQ(copy->entries().value().size(), 90U);
    EXPECT_EQ(testing::unwell(*copy), "");
    // It is a book to go on with.
    EXPECT_TRUE(copy->append(numbered_sitting(31, 2), k_now, 90));
    EXPECT_EQ(book->last_sequence().value(), 90);
}

TEST_F(Backup, LeavesNothingBesideTheCopy) {
    const auto book = book_with_entries();
    const std::string before = files();
    ASSERT_TRUE(book->backup_to(path("z-copy.book")));
    EXPECT_EQ(files(), before + " z-copy.book");
    // At rest, plain journal (SQLite file format 1.3).
    EXPECT_EQ(testing::bytes_of_file(path("z-copy.book")).substr(18, 2), "\x01\x01");
}

TEST_F(Backup, NeverOverwritesAFile) {
    const auto book = book_with_entries();
    std::ofstream{path("copy.book")} << "precious";
    EXPECT_EQ(book->backup_to(path("copy.book")).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(testing::bytes_of_file(path("copy.book")), "precious");
    EXPECT_EQ(book->backup_to(book_path()).error().kind, ErrorKind::bad_input);
    EXPECT_EQ(book->backup_to(path("no-folder/copy.book")).error().kind, ErrorKind::not_found);
    EXPECT_EQ(book->last_sequence().value(), 90);
}

TEST_F(Backup, OfABookOpenedForReadingWorks) {
    { const auto book = book_with_entries(); }
    const auto book = open_book(book_path(), Access::read).value();
    EXPECT_EQ(book->backup_to(path("copy.book")).value(), 90);
}

TEST_F(Backup, OfANewerBookKeepsWhatThisProgramDoesNotKnow) {
    { const auto book = book_with_entries(); }
    RawDatabase{book_path()}.execute(
        "PRAGMA user_version = 3; CREATE TABLE shelf (x); INSERT INTO shelf VALUES ('jam')");
    const auto book = open_book(book_path(), Access::read).value();
    ASSERT_TRUE(book->backup_to(path("copy.book")));
    EXPECT_EQ(RawDatabase{path("copy.book")}.text("SELECT x FROM shelf"), "jam");
}

TEST_F(Backup, ThatFindsNoRoomLeavesNoFile) {
    { const auto book = book_with_entries(); }
    const pid_t child = ::fork();
    if (child == 0) {
        std::signal(SIGXFSZ, SIG_IGN);
        const auto book = open_book(book_path(), Access::read);
        const rlimit limit{40'000, 40'000};
        if (!book || ::setrlimit(RLIMIT_FSIZE, &limit) != 0) ::_exit(2);
        const auto copied = (*book)->backup_to(path("copy.book"));
        ::_exit(!copied && copied.error().kind == ErrorKind::storage ? 1 : 3);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(WEXITSTATUS(status), 1);
    EXPECT_FALSE(std::filesystem::exists(path("copy.book")));
    EXPECT_EQ(files(), "kiln-lane.book");
}

}  // namespace
}  // namespace undercroft::store
