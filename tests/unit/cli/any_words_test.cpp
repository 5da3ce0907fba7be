// Whatever is typed is answered with acts or with an error that says something.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <sstream>

#include "cli/sitting.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {
namespace {

constexpr std::uint64_t k_seed = 20260314;
constexpr int k_cases = 3000;

void check_always(const std::function<void()>& property) {
    rc::detail::TestParams params;
    params.seed = k_seed;
    params.maxSuccess = k_cases;
    const auto result = rc::detail::checkTestable(property, rc::detail::TestMetadata{}, params);
    std::ostringstream text;
    rc::detail::printResultMessage(result, text);
    EXPECT_TRUE(result.is<rc::detail::SuccessResult>()) << text.str();
}

// Words of the grammar, names, amounts and noise.
rc::Gen<std::string> any_word() {
    std::vector<std::string> known = {
        "--then", "--",    "-",   "18",     "L",    "-3",     "1/3", "a",        "third", "all",     "Amber",
        "C",      "us",    "gal", "#12",    "last", "sour=6", "D-3", "D-9..D-1", "by",    "sitting", "",
        "18:30",  "--to=", "=",   "--from", "\xff", "fl",     "oz",  "%",        "vol",   "1,5"};
    std::vector<std::string> grammar;
    for (const Command& command : commands()) {
        grammar.emplace_back(command.name);
        for (const Option& option : command.options) grammar.emplace_back(option.name);
    }
    for (const Option& option : sitting_options()) grammar.emplace_back(option.name);
    return rc::gen::weightedOneOf<std::string>(
        {{7, rc::gen::elementOf(known)}, {2, rc::gen::elementOf(grammar)}, {1, rc::gen::arbitrary<std::string>()}});
}

TEST(AnyWords, end_in_acts_or_in_an_error_that_says_something) {
    int acts = 0;
    int errors = 0;
    check_always([&] {
        std::vector<std::string> words = *rc::gen::resize(6, rc::gen::container<std::vector<std::string>>(any_word()));
        // Most lines begin with a command, or the rest is never looked at.
        if (*rc::gen::inRange(0, 8) != 0)
            words.insert(words.begin(), std::string((*rc::gen::elementOf(commands())).name));
        const auto sitting = read_sitting(words);
        ++(sitting ? acts : errors);
        if (sitting)
            RC_ASSERT(!sitting->request.acts.empty());
        else
            RC_ASSERT(!sitting.error().what.empty());
    });
    EXPECT_GT(acts, k_cases / 100) << "hardly any line was one the grammar takes";
    EXPECT_GT(errors, k_cases / 100);
}

TEST(AnyWords, of_a_script_end_in_sittings_or_in_an_error_that_says_something) {
    check_always([] {
        std::string text;
        for (const std::string& word : *rc::gen::container<std::vector<std::string>>(any_word()))
            text += word + (*rc::gen::inRange(0, 4) == 0 ? "\n" : " ");
        std::istringstream in(text);
        Script script(in, "", Day{std::chrono::year{2026}, std::chrono::March, std::chrono::day{14}});
        while (true) {
            const auto sitting = script.next();
            if (!sitting) {
                RC_ASSERT(!sitting.error().what.empty());
                break;
            }
            if (!*sitting) break;
            RC_ASSERT(!(*sitting)->typed.request.acts.empty());
        }
    });
}

// A word in double quotes, its quotes and strokes escaped, is read back as it was.
TEST(AnyWords, quoted_are_read_back_as_they_were) {
    check_always([] {
        const auto words = *rc::gen::container<std::vector<std::string>>(rc::gen::arbitrary<std::string>());
        std::string line;
        for (const std::string& word : words) {
            line += "\"";
            for (const char c : word) line += c == '"' || c == '\\' ? std::string("\\") + c : std::string(1, c);
            line += "\" ";
        }
        const auto read = split_line(line);
        RC_ASSERT(read.has_value());
        RC_ASSERT(*read == words);
    });
}

}  // namespace
}  // namespace undercroft::cli
