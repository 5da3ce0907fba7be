// The guide is made by running its own commands on a fresh book; this test fails when what it prints has changed.
//
// In docs/guide/*.md a block fenced as ```console holds commands ("$ ...") and what they print; a line
// <!-- clock 2026-03-14T11:00:00.000Z --> sets the program's clock for what follows. To write the pages anew after a
// change that was meant: UNDERCROFT_GUIDE=write build/release/guide_tests, then read the difference.
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

std::string read_file(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

// Runs a command line in `folder`, standard output and errors together, as a terminal shows them.
std::string run(const std::string& command, const fs::path& folder, const std::string& clock, int seed) {
    const std::string line = "cd '" + folder.string() + "' && export PATH='" +
                             fs::path(UNDERCROFT_BINARY).parent_path().string() +
                             "':\"$PATH\" UNDERCROFT_BOOK=cellar.undercroft UNDERCROFT_NOW=" + clock +
                             " UNDERCROFT_SEED=" + std::to_string(seed) + " && { " + command + "\n} 2>&1";
    std::string output;
    FILE* pipe = popen(line.c_str(), "r");
    if (pipe == nullptr) return "could not be run\n";
    std::array<char, 4096> buffer{};
    while (const std::size_t got = fread(buffer.data(), 1, buffer.size(), pipe)) output.append(buffer.data(), got);
    pclose(pipe);
    if (!output.empty() && output.back() != '\n') output += '\n';
    return output;
}

// The page with every console block as the program answers now.
std::string made_anew(const std::string& page, const fs::path& folder) {
    constexpr std::string_view k_clock = "<!-- clock ";
    std::istringstream lines(page);
    std::string result;
    std::string line;
    std::string clock = "2026-01-01T12:00:00.000Z";
    bool in_console = false;
    int seed = 0;
    while (std::getline(lines, line)) {
        if (!in_console) {
            if (line.starts_with(k_clock)) clock = line.substr(k_clock.size(), 24);
            in_console = line == "```console";
            result += line + "\n";
            continue;
        }
        if (line == "```") {
            in_console = false;
            result += line + "\n";
        } else if (line.starts_with("$ ")) {
            std::string command = line.substr(2);
            result += line + "\n";
            while (command.ends_with("\\") && std::getline(lines, line)) {
                command.pop_back();
                command += line;
                result += line + "\n";
            }
            result += run(command, folder, clock, ++seed);
        }
        // Anything else is what a command printed before: made anew above.
    }
    return result;
}

std::vector<fs::path> pages() {
    std::vector<fs::path> found;
    for (const auto& entry : fs::directory_iterator(fs::path(UNDERCROFT_SOURCE_DIR) / "docs" / "guide"))
        if (entry.path().extension() == ".md") found.push_back(entry.path());
    return found;
}

TEST(guide, every_page_prints_what_its_own_commands_print_on_a_fresh_book) {
    ASSERT_FALSE(pages().empty());
    const char* mode = std::getenv("UNDERCROFT_GUIDE");
    for (const fs::path& page : pages()) {
        std::string name = (fs::temp_directory_path() / "undercroft-guide-XXXXXX").string();
        ASSERT_NE(mkdtemp(name.data()), nullptr);
        const std::string written = read_file(page);
        const std::string now = made_anew(written, name);
        fs::remove_all(name);
        EXPECT_NE(now.find("$ undercroft "), std::string::npos) << page << " runs nothing";
        if (mode != nullptr && std::string(mode) == "write") {
            std::ofstream(page, std::ios::binary) << now;
        } else {
            EXPECT_EQ(written, now) << page << " is out of date: UNDERCROFT_GUIDE=write writes it anew";
        }
    }
}

}  // namespace
