// Sums of chemistry: every example answers, and whatever else is typed is answered or refused in words.
#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

#include "cli/command.hpp"
#include "cli/run.hpp"
#include "cli/seeded.hpp"
#include "cli/session.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {
namespace {

struct CalcAnswer {
    int code = -1;
    std::string out;
    std::string err;
};

CalcAnswer run_line(const std::vector<std::string>& arguments) {
    static const tables::Tables k_tables = tables::load().value();
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    const auto no_book = [](const std::string& path) -> Result<OpenBook> {
        return fail(ErrorKind::storage, path, "There is no book here.");
    };
    Host host{.in = in,
              .out = out,
              .err = err,
              .tables = k_tables,
              .surroundings = {[] { return Instant{0}; }, seeded_random16(1),
                               [](const std::string&, const std::string&) { return std::string{}; }},
              .version = "0",
              .book = "",
              .zone_here = "UTC",
              .open_book = [&](const std::string& path, For) { return no_book(path); },
              .create_book = [&](const std::string& path, const ledger::BookFacts&) { return no_book(path); },
              .zone = [](const std::string&) -> Result<std::unique_ptr<Zone>> { return std::make_unique<UtcZone>(); },
              .demo_scripts = {}};
    CalcAnswer answer;
    answer.code = run(arguments, host);
    answer.out = out.str();
    answer.err = err.str();
    return answer;
}

std::vector<const Command*> sums() {
    std::vector<const Command*> found;
    for (const Command& command : commands())
        if (command.name.starts_with("calc ") && command.name != "calc fruit" && command.name != "calc gas" &&
            command.name != "calc solera" && command.name != "calc blending" && command.name != "calc finish")
            found.push_back(&command);
    return found;
}

std::vector<std::string> words_of(std::string_view name) {
    return split_line(name).value();
}

TEST(Calc, EveryExampleAnswersWithFormulaSourceAndRange) {
    ASSERT_EQ(sums().size(), 17U);
    for (const Command* command : sums()) {
        std::vector<std::string> line = split_line(command->example).value();
        const CalcAnswer text = run_line(line);
        EXPECT_EQ(text.code, k_ok) << command->example << '\n' << text.err;
        EXPECT_NE(text.out.find("holds"), std::string::npos) << command->name;
        EXPECT_NE(text.out.find("Where the figures come from"), std::string::npos) << command->name;
        line.emplace_back("--json");
        const CalcAnswer json = run_line(line);
        EXPECT_EQ(json.code, k_ok);
        EXPECT_EQ(json.out.find("{\"about\":"), 0U);
        EXPECT_NE(json.out.find("\"ranges\":[\""), std::string::npos) << command->name;
    }
}

TEST(Calc, WhateverIsTypedIsAnsweredOrRefusedInWords) {
    const std::vector<std::string> values = {"",
                                             "0",
                                             "1",
                                             "-3",
                                             "3.4",
                                             "1e9",
                                             "5 g/L",
                                             "0 g/L",
                                             "1500 g/L",
                                             "700 mg/L",
                                             "2.4 vol",
                                             "20 L",
                                             "0.001 L",
                                             "4 %",
                                             "100 %",
                                             "0 %",
                                             "20 C",
                                             "-5 C",
                                             "90 C",
                                             "1.050",
                                             "0.980",
                                             "12 P",
                                             "45 P",
                                             "0.8 bar",
                                             "-1 bar",
                                             "500 bar",
                                             "us",
                                             "purged",
                                             "eaten",
                                             "nonsense",
                                             "\xff\xfe",
                                             "20 L, ph 3.4",
                                             "20 L, ph 3.4, ta 6",
                                             "1 L, gravity 1.010, alcohol 6",
                                             "4 kg, ebc 8",
                                             "30 g, alpha 5, minutes 60",
                                             "5000",
                                             "14",
                                             "-1",
                                             "8.2",
                                             "0.5",
                                             "1/3",
                                             ",,,",
                                             "20 L,",
                                             "20 L, ph",
                                             "1000000 L"};
    // Cheap and even: SplitMix64 as in the property tests.
    std::uint64_t state = 20'260'314;
    const auto draw = [&state](std::size_t below) {
        std::uint64_t z = (state += 0x9E3779B97F4A7C15ULL);
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        return static_cast<std::size_t>((z ^ (z >> 31U)) % below);
    };
    int answered = 0;
    int refused = 0;
    const std::vector<const Command*> all = sums();
    for (int i = 0; i < 6000; ++i) {
        const Command& command = *all[draw(all.size())];
        std::vector<std::string> line = words_of(command.name);
        if (!command.words.empty() && draw(4) != 0) line.push_back(draw(2) == 0 ? "lactic" : "1.040");
        for (const Option& option : command.options) {
            if (draw(2) == 0) continue;
            line.emplace_back(option.name);
            if (option.takes != Takes::nothing) line.push_back(values[draw(values.size())]);
        }
        // Or a line that would be answered, with one option on top.
        if (draw(3) == 0) {
            line = split_line(command.example).value();
            const Option& option = command.options[draw(command.options.size())];
            line.emplace_back(option.name);
            if (option.takes != Takes::nothing) line.push_back(values[draw(values.size())]);
        }
        const CalcAnswer answer = run_line(line);
        std::string typed;
        for (const std::string& word : line) typed += "[" + word + "]";
        if (answer.code == k_ok) {
            ++answered;
            EXPECT_EQ(answer.err, "") << typed;
            // What is not finite is written as a question mark.
            EXPECT_EQ(answer.out.find('?'), std::string::npos) << typed << answer.out;
        } else {
            ++refused;
            EXPECT_EQ(answer.code, k_bad_input) << typed << answer.err;
            EXPECT_EQ(answer.out, "") << typed;
            EXPECT_GT(answer.err.size(), 10U) << typed;
        }
    }
    EXPECT_GT(answered, 200);
    EXPECT_GT(refused, 200);
}

}  // namespace
}  // namespace undercroft::cli
