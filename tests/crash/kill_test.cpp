// A program that is killed while it books loses nothing it has acknowledged and leaves nothing half done.
//
// A killed process is not a cut of power: what the system holds in memory still reaches the disk. That each
// sitting is brought to the disk before append() returns rests on synchronous = FULL (docs/decisions/0006).
#include <gtest/gtest.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <thread>

#include "store/book_file.hpp"
#include "store/digest.hpp"

namespace undercroft::store {
namespace {

using namespace ledger;

constexpr std::uint32_t k_sittings = 200;  // as many as one child books when nobody stops it
// From the environment, 20 when it says nothing.
int kills() {
    const char* text = ::getenv("UNDERCROFT_KILLS");
    return text == nullptr ? 20 : std::max(2, std::atoi(text));
}
constexpr unsigned k_seed = 20'261'125;

constexpr std::int64_t entries_in(std::uint32_t number) {
    return 2 + number % 4;
}

// Depends on its number alone, so that the parent knows what the child meant to book.
Sitting sitting_of(std::uint32_t number) {
    char key[40];
    std::snprintf(key, sizeof key, "0190f3c8-%04x-7000-8000-0000%08x", number, number);
    const std::string salt(32, static_cast<char>('0' + number % 10));
    const std::string name = "Helper " + std::to_string(number % 10);
    Sitting sitting{key, {}, {{commitment_of(salt, name), salt, name}}};
    for (int i = 0; i < entries_in(number); ++i) {
        Entry entry;
        entry.key = {key, i};
        entry.sitting_size = static_cast<int>(entries_in(number));
        entry.place = {Instant{number}, entry.key.text()};
        entry.by = sitting.persons[0].commitment;
        Note note;
        note.words = std::string(100 + 40 * (number % 50), static_cast<char>('a' + number % 26));
        entry.body = note;
        sitting.entries.push_back(std::move(entry));
    }
    return sitting;
}

// Books on from what is there, and writes each number to `pipe` once append() has returned.
int book_and_acknowledge(const std::string& path, int pipe) {
    auto book = open_book(path, Access::write);
    if (!book) return 2;
    const auto entries = (*book)->entries();
    if (!entries) return 3;
    std::uint32_t number = entries->empty() ? 0 : static_cast<std::uint32_t>(entries->back().place.at.ms) + 1;
    auto last = static_cast<std::int64_t>(entries->size());
    for (const std::uint32_t end = number + k_sittings; number < end; ++number) {
        if (!(*book)->append(sitting_of(number), Instant{1'000'000 + number}, last)) return 4;
        last += entries_in(number);
        if (::write(pipe, &number, sizeof number) != sizeof number) return 5;
    }
    return 0;
}

struct Round {
    std::int64_t acknowledged = -1;  // highest number, -1 for none
    bool killed = false;
};

// Runs a child that books, and kills it once `after` sittings are acknowledged and `then` has gone by; or
// hears it out, when it books fewer.
Round run_and_kill(const std::string& path, int after, std::chrono::microseconds then) {
    int ends[2];
    EXPECT_EQ(::pipe(ends), 0);
    const pid_t child = ::fork();
    if (child == 0) {
        ::close(ends[0]);
        ::_exit(book_and_acknowledge(path, ends[1]));
    }
    ::close(ends[1]);
    Round round;
    std::uint32_t number = 0;
    for (int heard = 0; heard < after && ::read(ends[0], &number, sizeof number) == sizeof number; ++heard)
        round.acknowledged = number;
    std::this_thread::sleep_for(then);
    ::kill(child, SIGKILL);
    // What it had said before it died counts as said.
    while (::read(ends[0], &number, sizeof number) == sizeof number) round.acknowledged = number;
    ::close(ends[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    round.killed = WIFSIGNALED(status);
    EXPECT_TRUE(round.killed || WEXITSTATUS(status) == 0) << WEXITSTATUS(status);
    return round;
}

class Kill : public ::testing::Test {
protected:
    void SetUp() override {
        std::string pattern = (std::filesystem::temp_directory_path() / "undercroft-kill-XXXXXX").string();
        ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
        m_folder = pattern;
        BookFacts facts;
        facts.id = "6f1c1d0e-3b52-4c1a-9d55-0a1b2c3d4e5f";
        facts.name = "Kiln Lane";
        facts.zone = "UTC";
        ASSERT_TRUE(create_book(path(), facts));
    }
    void TearDown() override { std::filesystem::remove_all(m_folder); }
    [[nodiscard]] std::string path() const { return (m_folder / "kiln-lane.book").string(); }
    // Of the book; a cache beside it is no part of it.
    [[nodiscard]] std::ptrdiff_t file_count() const {
        return std::count_if(std::filesystem::directory_iterator(m_folder), {},
                             [](const auto& file) { return file.path().extension() != ".cache"; });
    }

private:
    std::filesystem::path m_folder;
};

TEST_F(Kill, AtAnyMomentKeepsEveryAcknowledgedSittingAndNoHalfOne) {
    std::mt19937 random{k_seed};
    std::int64_t booked = 0;  // sittings found in the book so far
    int killed = 0;
    int left_behind = 0;  // rounds that left a log for the next program to take up
    const int rounds = kills();
    for (int round = 0; round < rounds; ++round) {
        const int after = static_cast<int>(random() % 40);
        const std::chrono::microseconds then{random() % 5'000};
        const Round outcome = run_and_kill(path(), after, then);
        killed += outcome.killed ? 1 : 0;
        left_behind += file_count() > 1 ? 1 : 0;
        {
            const auto book = open_book(path(), Access::write);
            ASSERT_TRUE(book) << book.error().what;
            const auto findings = (*book)->check_store();
            ASSERT_TRUE(findings);
            for (const CheckFinding& finding : *findings)
                EXPECT_TRUE(finding.ok) << "round " << round << ", " << finding.check << ": " << finding.what;
            const auto entries = (*book)->entries().value();
            std::size_t next = 0;
            std::int64_t sittings = 0;
            for (std::uint32_t number = 0; next < entries.size(); ++number, ++sittings) {
                const Sitting due = sitting_of(number);
                ASSERT_LE(next + due.entries.size(), entries.size()) << "half of sitting " << number;
                for (const Entry& entry : due.entries) {
                    EXPECT_EQ(entries[next].key, entry.key);
                    EXPECT_EQ(entries[next].body, entry.body);
                    ++next;
                }
            }
            // At most the sitting that was on its way when the child died is there without an answer; trying it
            // again is answered as booked.
            EXPECT_GE(sittings, outcome.acknowledged + 1) << "round " << round;
            EXPECT_LE(sittings, std::max(booked, outcome.acknowledged + 1) + 1) << "round " << round;
            EXPECT_GE(sittings, booked) << "round " << round;
            if (sittings > 0) {
                const auto again = (*book)->append(sitting_of(static_cast<std::uint32_t>(sittings - 1)), Instant{5}, 0);
                ASSERT_TRUE(again);
                EXPECT_TRUE(again->already);
            }
            booked = sittings;
        }
        EXPECT_EQ(file_count(), 1) << "a book is one file once it is closed";
    }
    // The test has to have tested something.
    std::printf("figure: killed while booking: %d of %d, sittings kept %lld\n", killed, rounds,
                static_cast<long long>(booked));
    EXPECT_GE(booked, std::min(200, 10 * rounds));
    EXPECT_GE(killed, rounds / 2);
    EXPECT_GE(left_behind, rounds / 2);
}

TEST_F(Kill, OfNobodyBooksAllOfThem) {
    const Round outcome = run_and_kill(path(), k_sittings + 1, std::chrono::microseconds{0});
    EXPECT_FALSE(outcome.killed);
    EXPECT_EQ(outcome.acknowledged, k_sittings - 1);
    EXPECT_EQ(file_count(), 1);
}

}  // namespace
}  // namespace undercroft::store
