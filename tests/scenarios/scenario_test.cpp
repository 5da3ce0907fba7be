// Runs the program over every *.scenario file of this folder, one test each.
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "tests/scenarios/scenario.hpp"

namespace undercroft::scenarios {
namespace {

namespace fs = std::filesystem;

const std::string k_program = UNDERCROFT_BINARY;

std::vector<std::string> scenario_names() {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(fs::path(UNDERCROFT_SOURCE_DIR) / "tests" / "scenarios"))
        if (entry.path().extension() == ".scenario") names.push_back(entry.path().stem().string());
    std::sort(names.begin(), names.end());
    return names;
}

class Folder {
public:
    Folder() {
        std::string pattern = (fs::temp_directory_path() / "undercroft-XXXXXX").string();
        m_path = mkdtemp(pattern.data()) == nullptr ? std::string{} : pattern;
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        if (!m_path.empty()) fs::remove_all(m_path, ignored);
    }
    [[nodiscard]] const std::string& path() const { return m_path; }

private:
    std::string m_path;
};

std::string replaced(std::string text, const std::string& folder) {
    for (std::size_t at = 0; (at = text.find("%dir%")) != std::string::npos;) text.replace(at, 5, folder);
    return text;
}

// The schema step of a later program. SQLite keeps the user version big-endian at byte 60 of the file
// (file format, section 1.3 "The Database Header").
void mark_newer(const std::string& book) {
    std::fstream stream(book, std::ios::binary | std::ios::in | std::ios::out);
    stream.seekp(60);
    stream.write("\0\0\x03\xe8", 4);
    EXPECT_TRUE(stream.good()) << book;
}

class ScenarioFile : public testing::TestWithParam<std::string> {};

TEST_P(ScenarioFile, comes_out_as_written) {
    const fs::path path = fs::path(UNDERCROFT_SOURCE_DIR) / "tests" / "scenarios" / (GetParam() + ".scenario");
    std::ifstream stream(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    const Scenario scenario = read_scenario(text);
    ASSERT_EQ(scenario.mistake, "");
    ASSERT_FALSE(scenario.steps.empty());

    const Folder folder;
    ASSERT_FALSE(folder.path().empty());
    const auto run = [&](const std::vector<std::string>& arguments, const std::string& input) {
        return run_program(k_program, arguments, folder.path(), input);
    };
    const std::vector<std::string> all_entries = {"entries", "--json", "--most", "1000000"};
    for (const Step& step : scenario.steps) {
        SCOPED_TRACE(path.filename().string() + ":" + std::to_string(step.line));
        if (!step.file.empty()) {
            std::ofstream(folder.path() + "/" + step.file, std::ios::binary) << step.input;
            continue;
        }
        if (step.newer) {
            mark_newer(folder.path() + "/book.undercroft");
            continue;
        }
        ASSERT_EQ(step.command.front(), "undercroft");
        std::vector<std::string> arguments;
        for (std::size_t i = 1; i < step.command.size(); ++i)
            arguments.push_back(replaced(step.command[i], folder.path()));
        const Outcome before = step.same ? run(all_entries, "") : Outcome{};
        const Outcome outcome = run(arguments, step.input);
        EXPECT_EQ(outcome.exit_code, step.exit_code) << outcome.out << outcome.err;
        for (const std::string& answer : step.answers)
            EXPECT_NE(outcome.out.find(answer), std::string::npos) << "wanted: " << answer << "\n" << outcome.out;
        for (const std::string& refusal : step.refusals)
            EXPECT_NE(outcome.err.find(refusal), std::string::npos) << "wanted: " << refusal << "\n" << outcome.err;
        if (!step.same) continue;
        EXPECT_EQ(before.exit_code, 0) << before.err;
        EXPECT_EQ(run(all_entries, "").out, before.out) << "the book was touched";
        EXPECT_EQ(run({"check"}, "").exit_code, 0) << "the book is not whole";
    }
}

INSTANTIATE_TEST_SUITE_P(Scenarios, ScenarioFile, testing::ValuesIn(scenario_names()),
                         [](const auto& scenario) { return scenario.param; });

TEST(ScenarioFormat, a_line_nobody_knows_is_not_passed_over) {
    EXPECT_NE(read_scenario("$ undercroft check\n= 2\n").mistake, "");
    EXPECT_NE(read_scenario("=> 2\n").mistake, "");
    EXPECT_EQ(read_scenario("# only a remark\n\n$ undercroft check\n=> 2\n").mistake, "");
}

}  // namespace
}  // namespace undercroft::scenarios
