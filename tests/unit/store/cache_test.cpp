// The cache beside a large book: faster, never believed, and nothing is lost with it.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <filesystem>
#include <fstream>

#include "store/book_cache.hpp"
#include "store/entry_image.hpp"
#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

namespace fs = std::filesystem;
using testing::BookTest;
using testing::bytes_of_file;
using testing::facts;
using testing::k_now;
using testing::numbered_sitting;
using testing::said_by;
using testing::same_entry;

// More than are read without one.
constexpr unsigned k_sittings_of_large_book = 25;
constexpr int k_vessels_a_sitting = 100;

class BookCache : public BookTest {
protected:
    // Of 25 times 100 entries.
    std::unique_ptr<BookFile> large_book(const std::string& name) {
        auto book = create_book(path(name), facts());
        EXPECT_TRUE(book.has_value());
        for (unsigned i = 0; i < k_sittings_of_large_book; ++i) add(**book, i);
        return *std::move(book);
    }
    static void add(BookFile& book, unsigned number) {
        ASSERT_TRUE(book.append(numbered_sitting(number, k_vessels_a_sitting), k_now, *book.last_sequence()));
    }
    [[nodiscard]] std::string cache(const std::string& name) const { return cache_path_of(path(name)); }

    static void expect_same(const std::vector<ledger::Entry>& one, const std::vector<ledger::Entry>& other) {
        ASSERT_EQ(one.size(), other.size());
        for (std::size_t i = 0; i < one.size(); ++i) {
            ASSERT_TRUE(same_entry(one[i], other[i])) << "entry " << i + 1;
            ASSERT_EQ(one[i].sequence, other[i].sequence);
        }
    }
    static void put(const std::string& path, const std::string& bytes) {
        std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
    }
};

TEST(EntryImage, OfEveryKindGivesBackEveryMember) {
    const auto entries = testing::full_entry_of_every_kind();
    const auto again = entries_of_image(image_of(entries), 0);
    ASSERT_TRUE(again);
    ASSERT_EQ(again->size(), entries.size());
    for (std::size_t i = 0; i < entries.size(); ++i)
        EXPECT_TRUE(same_entry(entries[i], (*again)[i])) << ledger::kind_word(entries[i].body);
}

RC_GTEST_PROP(EntryImage, OfAnyEntriesGivesThemBack, ()) {
    const auto entries = *rc::gen::container<std::vector<ledger::Entry>>(testing::random_entry());
    const auto again = entries_of_image(image_of(entries), 3);
    RC_ASSERT(again.has_value());
    RC_ASSERT(again->size() == entries.size());
    for (std::size_t i = 0; i < entries.size(); ++i) RC_ASSERT(same_entry(entries[i], (*again)[i]));
}

RC_GTEST_PROP(EntryImage, OfDamagedBytesDoesNoHarm, ()) {
    auto image = image_of(*rc::gen::container<std::vector<ledger::Entry>>(testing::random_entry()));
    const auto spot = static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(image.size())));
    if (*rc::gen::arbitrary<bool>())
        image.resize(spot);
    else
        image[spot] = static_cast<char>(image[spot] ^ *rc::gen::inRange(1, 256));
    static_cast<void>(entries_of_image(image, 0));  // nothing, or other entries: the digest of the file tells
}

TEST_F(BookCache, IsMadeOnReadingALargeBookAndReadTheNextTime) {
    auto book = large_book("large");
    EXPECT_FALSE(fs::exists(cache("large")));
    const auto first = book->entries();
    ASSERT_TRUE(fs::exists(cache("large")));
    expect_same(*first, *book->entries());
    EXPECT_EQ(said_by(*book, "caches"), "2500 entries in large.cache are those of the book");
    add(*book, 99);
    const auto more = book->entries();
    EXPECT_EQ(more->size(), 2600u);
    fs::remove(cache("large"));
    expect_same(*more, *book->entries());
}

TEST_F(BookCache, IsNotMadeOfASmallBook) {
    auto book = create_book(path("small"), facts());
    add(**book, 1);
    ASSERT_TRUE((*book)->entries());
    EXPECT_FALSE(fs::exists(cache("small")));
    EXPECT_EQ(said_by(**book, "caches"), "none is kept, and none is needed");
}

TEST_F(BookCache, OfAnotherBookOrAnotherStateIsPassedOver) {
    auto book = large_book("large");
    const auto entries = book->entries();
    const std::string good = bytes_of_file(cache("large"));
    // A copy that went another way after the first sitting: same id, same number of entries.
    auto other = create_book(path("other"), facts());
    for (unsigned i = 0; i < k_sittings_of_large_book; ++i) add(**other, i + 100);
    ASSERT_TRUE((*other)->entries());
    put(cache("large"), bytes_of_file(cache("other")));
    expect_same(*entries, *book->entries());
    EXPECT_EQ(bytes_of_file(cache("large")), good) << "and made anew";
    // Of a state that this book has not come to.
    add(*book, 99);
    fs::remove(cache("large"));
    ASSERT_TRUE(book->entries());
    put(cache("other"), bytes_of_file(cache("large")));
    expect_same(*(*other)->entries(), *(*other)->entries());
    EXPECT_EQ((*other)->entries()->size(), 2500u);
}

TEST_F(BookCache, ThatIsDamagedAnywhereIsPassedOver) {
    auto book = large_book("large");
    const auto entries = book->entries();
    const std::string good = bytes_of_file(cache("large"));
    for (const std::size_t spot : {std::size_t{0}, std::size_t{40}, std::size_t{70}, std::size_t{110}, std::size_t{150},
                                   good.size() / 2, good.size() - 1}) {
        std::string bad = good;
        bad[spot] = static_cast<char>(bad[spot] ^ 1);
        put(cache("large"), bad);
        expect_same(*entries, *book->entries());
    }
    for (const std::size_t length : {std::size_t{0}, std::size_t{10}, std::size_t{120}, good.size() / 2}) {
        put(cache("large"), good.substr(0, length));
        EXPECT_EQ(said_by(*book, "caches"), "large.cache is of another state or program and is not used");
        expect_same(*entries, *book->entries());
    }
}

TEST_F(BookCache, ThatTellsOtherEntriesIsFoundByTheCheck) {
    auto book = large_book("large");
    auto entries = *book->entries();
    auto& joins = std::get<ledger::VesselJoins>(entries[200].body);
    joins.name += " that never was";
    const auto cached = read_cache(path("large"), facts().id, 0);
    ASSERT_TRUE(cached);
    write_cache(path("large"), facts().id, entries, cached->link);
    EXPECT_EQ(said_by(*book, "caches"),
              "entry 201 in large.cache is not that of the book: delete that file, nothing is lost");
    fs::remove(cache("large"));
    EXPECT_EQ(said_by(*book, "caches"), "none is kept, and none is needed");
}

TEST_F(BookCache, IsDoneWithoutWhereNoFileCanBeMade) {
    auto book = large_book("large");
    fs::create_directory(cache("large"));  // in its way
    EXPECT_EQ(book->entries()->size(), 2500u);
    EXPECT_EQ(book->entries()->size(), 2500u);
    EXPECT_EQ(files().find("large.cache."), std::string::npos) << "nothing is left lying about";
}

}  // namespace
}  // namespace undercroft::store
