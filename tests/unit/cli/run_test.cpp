// The program's edges: what goes to which stream, and with which exit code, before any book is there.
#include "cli/run.hpp"

#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "cli/seeded.hpp"
#include "cli/session.hpp"

namespace undercroft::cli {
namespace {

struct Answer {
    int code = -1;
    std::string out;
    std::string err;
};

// A host without books: opening and creating one is refused with `kind`.
Answer run_without_books(const std::vector<std::string>& arguments, ErrorKind kind = ErrorKind::storage) {
    static const tables::Tables k_tables = tables::load().value();
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    const auto refuse = [kind](const std::string& path) -> Result<OpenBook> {
        return fail(kind, path, "This disk is full.");
    };
    Host host{.in = in,
              .out = out,
              .err = err,
              .tables = k_tables,
              .surroundings = {[] { return Instant{0}; }, seeded_random16(1),
                               [](const std::string&, const std::string&) { return std::string{}; }},
              .version = "9.8.7",
              .book = "somewhere.undercroft",
              .zone_here = "UTC",
              .open_book = [&](const std::string& path, For) { return refuse(path); },
              .create_book = [&](const std::string& path, const ledger::BookFacts&) { return refuse(path); },
              .zone = [](const std::string&) -> Result<std::unique_ptr<Zone>> { return std::make_unique<UtcZone>(); },
              .demo_scripts = {"sitting D-1\nnote here\n"}};
    Answer answer;
    answer.code = run(arguments, host);
    answer.out = out.str();
    answer.err = err.str();
    return answer;
}

TEST(Run, every_kind_of_error_has_one_exit_code_above_one) {
    for (const ErrorKind kind : {ErrorKind::bad_input, ErrorKind::not_found, ErrorKind::impossible, ErrorKind::stale,
                                 ErrorKind::outside_model, ErrorKind::read_only, ErrorKind::storage}) {
        const Answer answer = run_without_books({"cellar"}, kind);
        EXPECT_EQ(answer.code, exit_code_of(kind));
        EXPECT_GT(answer.code, 1);
        EXPECT_LT(answer.code, k_our_bug);
        EXPECT_EQ(answer.out, "");
        EXPECT_EQ(answer.err, "This disk is full.\n");
    }
}

TEST(Run, with_json_an_error_goes_to_both_streams) {
    const Answer answer = run_without_books({"--json", "cellar"});
    EXPECT_EQ(answer.code, k_storage);
    EXPECT_TRUE(answer.out.starts_with("{\"error\":{\"kind\":\"storage\"")) << answer.out;
    EXPECT_EQ(answer.err, "This disk is full.\n");
}

TEST(Run, words_are_judged_before_a_book_is_opened) {
    for (const std::vector<std::string>& arguments :
         std::vector<std::vector<std::string>>{{"pull", "Amber"},
                                               {"show"},
                                               {"backup"},
                                               {"fruit", "plum", "3", "kg"},
                                               {"cellar", "Amber"},
                                               {"entries", "--most", "-1"},
                                               {"init", "--gallons", "metric"},
                                               {"trace"},
                                               {"--when", "2025-01-01"},
                                               {"--book"}}) {
        const Answer answer = run_without_books(arguments);
        EXPECT_EQ(answer.code, k_bad_input) << arguments[0] << ": " << answer.err;
        EXPECT_NE(answer.err, "") << arguments[0];
    }
}

TEST(Run, help_and_version_need_nothing) {
    EXPECT_EQ(run_without_books({}).code, k_ok);
    EXPECT_EQ(run_without_books({}).out, run_without_books({"--help"}).out);
    EXPECT_EQ(run_without_books({"help", "trace", "back"}).out, run_without_books({"trace", "back", "--help"}).out);
    EXPECT_EQ(run_without_books({"--version"}).out, "undercroft 9.8.7\n");
    EXPECT_EQ(run_without_books({"version", "--json"}).out, "{\"version\":\"9.8.7\"}\n");
    EXPECT_EQ(run_without_books({"help", "nothing-like-it"}).code, k_bad_input);
}

TEST(Run, a_book_that_cannot_be_made_is_said_and_not_claimed) {
    EXPECT_EQ(run_without_books({"init"}).code, k_storage);
    EXPECT_EQ(run_without_books({"demo", "--as-of", "2026-03-14"}).code, k_storage);
    EXPECT_EQ(run_without_books({"read", "Amber", "1.008"}).code, k_storage);
    EXPECT_EQ(run_without_books({"sitting"}).code, k_storage);
}

TEST(Seeded, the_same_seed_gives_the_same_and_no_value_twice) {
    auto first = seeded_random16(7);
    auto second = seeded_random16(7);
    std::set<std::string> seen;
    for (int i = 0; i < 1000; ++i) {
        const std::string drawn = first();
        EXPECT_EQ(drawn, second());
        EXPECT_EQ(drawn.size(), 32U);
        EXPECT_TRUE(seen.insert(drawn).second);
    }
    // SplitMix64 from 0 begins with e220a8397b1dcdaf (Steele, Lea, Flood 2014; value from memory).
    EXPECT_EQ(seeded_random16(0)().substr(0, 16), "e220a8397b1dcdaf");
}

TEST(Seeded, a_uuid_says_version_4_and_its_variant) {
    // RFC 9562, 5.4: version 0b0100, variant 0b10.
    EXPECT_EQ(uuid4_of("00112233445566778899aabbccddeeff"), "00112233-4455-4677-8899-aabbccddeeff");
    EXPECT_EQ(uuid4_of("ffffffffffffffffffffffffffffffff")[19], 'b');
}

}  // namespace
}  // namespace undercroft::cli
