// docs/errors.md is made by playing the scenarios; this test fails when the program words an error differently.
//
// To write the page anew after a change that was meant: UNDERCROFT_ERRORS=write build/release/tests/scenarios_tests
// --gtest_filter='ErrorsPage.*', then read the difference.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "tests/scenarios/scenario.hpp"

namespace undercroft::scenarios {
namespace {

struct Refusal {
    std::string command;
    std::string words;
};

const std::map<int, std::string>& headings() {
    static const std::map<int, std::string> k_headings = {
        {2,
         "What was typed cannot be meant, or can mean two things\n\n"
         "Nothing was booked. Type it again the way the error says; `undercroft help COMMAND` shows the form."},
        {3,
         "There is no such thing\n\n"
         "Nothing was booked. Look at what there is with `undercroft cellar`, `entries` or `entries NUMBER`."},
        {4,
         "The book forbids it\n\n"
         "Nothing was booked: the cellar could not have been so. Look at the entries that are named, and correct the "
         "one "
         "that is wrong, or book what is missing first."},
        {5,
         "The file\n\n"
         "Nothing was booked. When a book is damaged, book nothing more in it, keep the file as it is, and go on with "
         "the "
         "last backup that `undercroft check` finds whole."},
        {6,
         "Outside the range a formula is good for\n\n"
         "There is no figure, and none should be guessed: measure, or stay inside the range that is named."},
    };
    return k_headings;
}

std::string quoted(const std::vector<std::string>& command) {
    std::string line;
    for (const std::string& word : command) {
        const bool plain = !word.empty() && word.find_first_of(" #\"'|&;<>()$`*?!") == std::string::npos;
        line += (line.empty() ? "" : " ") + (plain ? word : "\"" + word + "\"");
    }
    return line;
}

// What differs from run to run is left out: the folder, and keys that are drawn.
std::string settled(std::string text, const std::string& folder) {
    for (std::size_t at = 0; (at = text.find(folder)) != std::string::npos;) text.replace(at, folder.size(), "FOLDER");
    static const std::regex k_key("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
    return std::regex_replace(text, k_key, "KEY");
}

std::string made_anew() {
    std::map<int, std::vector<Refusal>> refusals;
    std::set<std::string> known;
    for (const std::string& name : scenario_names()) {
        Stage stage{UNDERCROFT_BINARY};
        for (const Step& step : read_scenario(scenario_text(name)).steps) {
            const Outcome outcome = stage.play(step);
            const bool json = std::find(step.command.begin(), step.command.end(), "--json") != step.command.end();
            if (outcome.exit_code <= 0 || outcome.err.empty() || json) continue;
            std::string command = quoted(step.command);
            for (std::size_t at = 0; (at = command.find("%dir%")) != std::string::npos;)
                command.replace(at, 5, "FOLDER");
            std::string input = step.input;
            if (!input.empty()) command += " <<'END'\n" + input + "END";
            const std::string words = settled(outcome.err, stage.folder());
            if (known.insert(words).second) refusals[outcome.exit_code].push_back({command, words});
        }
    }
    std::string page =
        "# Errors\n\n"
        "Every error that the scenarios of `tests/scenarios` lead to, in the program's own words: first a sentence, "
        "then the "
        "facts, then\nwhat to do. This page is made by playing the scenarios and the tests hold the program to it; to "
        "write "
        "it anew:\n`UNDERCROFT_ERRORS=write build/release/tests/scenarios_tests --gtest_filter='ErrorsPage.*'`.\n\n"
        "Whatever the error, a sitting is booked whole or not at all. With `--json` the same comes as `error` with "
        "`kind`, "
        "`where`, `what`,\n`facts` and `next_step`. Everything typed here is invented.\n";
    for (const auto& [code, all] : refusals) {
        const auto heading = headings().find(code);
        page += "\n## Exit code " + std::to_string(code) + ": " +
                (heading == headings().end() ? "a mistake of the program" : heading->second) + "\n";
        for (const Refusal& one : all) page += "\n```console\n$ " + one.command + "\n" + one.words + "```\n";
    }
    return page;
}

TEST(ErrorsPage, SaysWhatTheProgramSays) {
    const std::string path = std::string(UNDERCROFT_SOURCE_DIR) + "/docs/errors.md";
    const std::string now = made_anew();
    EXPECT_GT(std::count(now.begin(), now.end(), '$'), 60) << "the scenarios lead to errors";
    const char* mode = std::getenv("UNDERCROFT_ERRORS");
    if (mode != nullptr && std::string(mode) == "write") {
        std::ofstream(path, std::ios::binary) << now;
        return;
    }
    std::ifstream in(path, std::ios::binary);
    const std::string written{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    const auto [mine, theirs] = std::mismatch(written.begin(), written.end(), now.begin(), now.end());
    EXPECT_TRUE(written == now) << "docs/errors.md is out of date: UNDERCROFT_ERRORS=write writes it anew.\nIt says: "
                                << std::string(mine, written.end()).substr(0, 300)
                                << "\nthe program: " << std::string(theirs, now.end()).substr(0, 300);
}

}  // namespace
}  // namespace undercroft::scenarios
