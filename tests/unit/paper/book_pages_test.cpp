// A book on paper: what stands in its codes, and the same book again.
#include "paper/book_pages.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <random>
#include <string>

#include "paper/base45.hpp"
#include "tests/unit/paper/read_back.hpp"

namespace undercroft::paper {
namespace {

using testing::ReadBack;

// RapidCheck reads its seed here: the same cases every run, unless somebody sets another to look further.
[[maybe_unused]] const int k_seeded = ::setenv("RC_PARAMS", "seed=20260314 max_success=200", 0);

// The examples of RFC 9285, sections 4.3 and 4.4.
TEST(Base45, WritesAndReadsTheExamplesOfItsStandard) {
    const std::pair<const char*, const char*> examples[] = {
        {"AB", "BB8"}, {"Hello!!", "%69 VD92EX0"}, {"base-45", "UJCLQE7W581"}, {"ietf!", "QED8WEX0"}};
    for (const auto& [bytes, text] : examples) {
        EXPECT_EQ(base45(bytes), text);
        EXPECT_EQ(bytes_of_base45(text), bytes);
    }
}

TEST(Base45, RefusesWhatNoBytesAreWrittenAs) {
    EXPECT_FALSE(bytes_of_base45("GGW")) << "65536, RFC 9285 section 6";
    EXPECT_FALSE(bytes_of_base45("bb8")) << "small letters";
    EXPECT_FALSE(bytes_of_base45("BB8A")) << "a letter alone at the end";
}

RC_GTEST_PROP(Base45, is_undone, (const std::string& bytes)) {
    RC_ASSERT(bytes_of_base45(base45(bytes)) == bytes);
}

std::string book_of(std::size_t entries) {
    std::string lines;
    std::mt19937 bits(7);
    for (std::size_t i = 0; i < entries; ++i)
        lines +=
            "{\"entry\":" + std::to_string(i) + ",\"salt\":\"" + std::to_string(bits()) + "\",\"words\":\"Ω ü\"}\n";
    return lines;
}

RC_GTEST_PROP(BookPages, come_back_in_any_order_and_with_what_was_read_twice, (const std::string& some)) {
    const std::string book = book_of(*rc::gen::inRange<std::size_t>(0, 400)) + some;
    std::vector<std::string> codes = codes_of(book).value();
    std::vector<std::string> read = codes;
    read.insert(read.end(), codes.begin(), codes.begin() + static_cast<std::ptrdiff_t>(codes.size() / 2));
    read.push_back("some other code");
    std::mt19937 bits(*rc::gen::arbitrary<unsigned>());
    std::shuffle(read.begin(), read.end(), bits);
    RC_ASSERT(export_of(read).value() == book);
}

TEST(BookPages, SayWhichCodesAreMissingOrWereReadWrong) {
    std::vector<std::string> codes = codes_of(book_of(900)).value();
    ASSERT_GT(codes.size(), 8U);
    codes[6].back() = codes[6].back() == 'A' ? 'B' : 'A';  // number 7, read wrong
    codes.erase(codes.begin() + 1, codes.begin() + 4);     // 2, 3 and 4, never read
    const auto read = export_of(codes);
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().kind, ErrorKind::bad_input);
    EXPECT_NE(read.error().what.find("2 to 4, 7"), std::string::npos) << read.error().what;
}

TEST(BookPages, OfTwoBooksAreNotPutTogether) {
    std::vector<std::string> codes = codes_of(book_of(40)).value();
    const std::vector<std::string> others = codes_of(book_of(41)).value();
    codes.insert(codes.end(), others.begin(), others.end());
    EXPECT_NE(export_of(codes).error().what.find("2 printed books"), std::string::npos);
    EXPECT_NE(export_of({"hello", ""}).error().what.find("begins with UC1:"), std::string::npos);
    EXPECT_FALSE(export_of({}));
}

TEST(BookPages, AreReadBackFromPaperByAReaderOfCodes) {
    const std::string book = book_of(300);
    for (const PageSize& page : {a4(), letter()}) {
        const BookPages pages = book_pages(book, page, {"Kiln Lane, the whole book", "2026-03-14"}).value();
        const ReadBack paper(pages.pdf);
        EXPECT_EQ(paper.pages(), pages.pages);
        EXPECT_EQ(export_of(paper.code_lines(150)).value(), book) << page.name << ", as a cheap scanner sees it";
        EXPECT_NE(paper.text().find("from-pages"), std::string::npos) << "the way back stands on the paper itself";
    }
}

TEST(BookPages, AreTheSameBytesForTheSameBook) {
    const Imprint imprint{"Kiln Lane", "2026-03-14"};
    EXPECT_EQ(book_pages(book_of(50), a4(), imprint).value().pdf, book_pages(book_of(50), a4(), imprint).value().pdf);
}

}  // namespace
}  // namespace undercroft::paper
