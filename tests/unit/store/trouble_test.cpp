// Two programs at once, and disks that give out.
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>

#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using testing::k_now;

using namespace ledger;
using testing::numbered_sitting;
using testing::RawDatabase;

class Trouble : public testing::BookTest {
protected:
    // Runs `act` in a child process that cannot make any file longer than `bytes`; gives back what it returned.
    template <class Act>
    static int with_files_limited_to(rlim_t bytes, Act act) {
        const pid_t child = ::fork();
        if (child == 0) {
            std::signal(SIGXFSZ, SIG_IGN);
            const rlimit limit{bytes, bytes};
            if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) ::_exit(99);
            ::_exit(act());
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        return WIFEXITED(status) ? WEXITSTATUS(status) : 98;
    }
};

TEST_F(Trouble, TwoProgramsSeeEachOthersEntries) {
    const auto one = begin_book();
    const auto two = open_book(book_path(), Access::write).value();
    ASSERT_TRUE(one->append(numbered_sitting(1, 2), k_now, 0));
    EXPECT_EQ(two->last_sequence().value(), 2);
    EXPECT_EQ(two->append(numbered_sitting(2, 2), k_now, 0).error().kind, ErrorKind::stale);
    ASSERT_TRUE(two->append(numbered_sitting(2, 2), k_now, 2));
    // The same sitting through the other one.
    EXPECT_TRUE(one->append(numbered_sitting(2, 2), k_now, 2)->already);
    EXPECT_EQ(one->entries().value().size(), 4U);
    EXPECT_EQ(testing::unwell(*one), "");
}

TEST_F(Trouble, AReaderIsNotHeldUpByAWriter) {
    const auto book = begin_book();
    ASSERT_TRUE(book->append(numbered_sitting(1, 2), k_now, 0));
    RawDatabase other{book_path()};
    ASSERT_EQ(other.execute("BEGIN IMMEDIATE"), "");
    EXPECT_EQ(book->entries().value().size(), 2U);
}

TEST_F(Trouble, ASecondWriterWaitsAndThenSaysWhy) {
    const auto book = begin_book();
    RawDatabase other{book_path()};
    ASSERT_EQ(other.execute("BEGIN IMMEDIATE"), "");
    const auto refused = book->append(numbered_sitting(1, 2), k_now, 0);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::storage);
    EXPECT_EQ(refused.error().what, "another program is writing to this book.");
    ASSERT_EQ(other.execute("ROLLBACK"), "");
    EXPECT_TRUE(book->append(numbered_sitting(1, 2), k_now, 0));
}

TEST_F(Trouble, AFullDiskBooksNothingAndLeavesTheBookUntouched) {
    {
        const auto book = begin_book();
        ASSERT_TRUE(book->append(numbered_sitting(1, 4), k_now, 0));
    }
    const std::string before = testing::bytes_of_file(book_path());
    // 1: refused as it should be. Each of the log, the index of the log, and the file can be the one that does
    // not fit.
    const auto book_big_note = [&] {
        auto book = open_book(book_path(), Access::write);
        if (!book) return book.error().kind == ErrorKind::storage ? 1 : 2;
        Note note;
        note.words = std::string(60'000, 'x');
        const auto booked = (*book)->append(testing::sitting_of(testing::sitting_key(2), {note, note}), k_now, 4);
        if (booked) return 3;
        if (booked.error().kind != ErrorKind::storage) return 4;
        // Below 32 kB not even the index of the log fits, so that reading fails with it.
        return (*book)->last_sequence().value_or(4) == 4 ? 1 : 5;
    };
    for (const rlim_t limit : {16U, 1'000U, 20'000U, 40'000U, 80'000U, 100'000U}) {
        EXPECT_EQ(with_files_limited_to(limit, book_big_note), 1) << limit;
        const auto book = open_book(book_path(), Access::read);
        ASSERT_TRUE(book) << limit;
        EXPECT_EQ((*book)->last_sequence().value(), 4) << limit;
        EXPECT_EQ(testing::unwell(**book), "") << limit;
    }
    EXPECT_EQ(files(), "kiln-lane.book");
    EXPECT_EQ(testing::bytes_of_file(book_path()).size(), before.size());
    const auto book = open_book(book_path(), Access::write).value();
    EXPECT_TRUE(book->append(numbered_sitting(3, 2), k_now, 4));
}

TEST_F(Trouble, AFailedSittingDoesNotHinderTheNext) {
    const auto book_then_smaller = [&] {
        auto book = create_book(book_path(), testing::facts());
        if (!book) return 2;
        // Room for small sittings, not for this one.
        Note note;
        note.words = std::string(60'000, 'x');
        std::vector<Body> bodies(10, note);
        if ((*book)->append(testing::sitting_of(testing::sitting_key(1), bodies), k_now, 0)) return 3;
        return (*book)->append(numbered_sitting(2, 2), k_now, 0) ? 1 : 4;
    };
    EXPECT_EQ(with_files_limited_to(300'000, book_then_smaller), 1);
    const auto book = open_book(book_path(), Access::read).value();
    EXPECT_EQ(book->last_sequence().value(), 2);
    EXPECT_EQ(testing::unwell(*book), "");
}

TEST_F(Trouble, ABookThatFindsNoRoomIsNotBegun) {
    EXPECT_EQ(with_files_limited_to(5'000,
                                    [&] {
                                        const auto book = create_book(book_path(), testing::facts());
                                        return !book && book.error().kind == ErrorKind::storage ? 1 : 2;
                                    }),
              1);
    EXPECT_EQ(files(), "");
}

}  // namespace
}  // namespace undercroft::store
