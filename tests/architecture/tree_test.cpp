// Holds every file of this tree to the rules of source_rules.hpp.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "tests/architecture/source_rules.hpp"

namespace undercroft::architecture {
namespace {

namespace fs = std::filesystem;

const fs::path k_root = UNDERCROFT_SOURCE_DIR;

std::string text_of_file(const fs::path& path) {
    std::ifstream stream(path, std::ios::binary);
    EXPECT_TRUE(stream.good()) << path;
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

// Files below `folder`, sorted; skips what tools have put there.
std::vector<fs::path> files_below(const fs::path& folder) {
    std::vector<fs::path> files;
    for (auto entry = fs::recursive_directory_iterator(folder); entry != fs::recursive_directory_iterator(); ++entry) {
        if (entry->is_directory() && entry->path().filename() == "node_modules") {
            entry.disable_recursion_pending();
            continue;
        }
        if (entry->is_regular_file()) files.push_back(entry->path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

bool is_cpp(const fs::path& path) {
    return path.extension() == ".cpp" || path.extension() == ".hpp";
}

// Everything the project itself wrote: the folders below, and the files of the root. The licence is not ours to word.
std::vector<fs::path> own_files() {
    std::vector<fs::path> files;
    for (const char* folder : {"src", "tests", "docs", "data", "cmake", "tools", ".ci"})
        for (fs::path& file : files_below(k_root / folder)) files.push_back(std::move(file));
    for (const auto& entry : fs::directory_iterator(k_root))
        if (entry.is_regular_file() && entry.path().filename() != "LICENSE") files.push_back(entry.path());
    return files;
}

void expect_none(const std::vector<Breach>& breaches, const fs::path& file) {
    for (const Breach& breach : breaches)
        ADD_FAILURE() << fs::relative(file, k_root).string() << ":" << breach.line << ": " << breach.what;
}

TEST(Tree, every_source_keeps_to_its_layer) {
    int read = 0;
    for (const fs::path& file : files_below(k_root / "src")) {
        if (!is_cpp(file)) continue;
        const fs::path header = fs::path(file).replace_extension(".hpp");
        const bool own_header = file.extension() == ".cpp" && fs::exists(header);
        const std::string below_src = fs::relative(file, k_root / "src").generic_string();
        expect_none(breaches_of_source(below_src, text_of_file(file), own_header), file);
        ++read;
    }
    EXPECT_GT(read, 20) << "the sources have moved away from this test";
}

TEST(Tree, the_build_file_draws_the_same_layers_as_these_rules) {
    LayerTable expected = layers();
    expected.erase("main");  // a program there, not a layer
    EXPECT_EQ(layers_of_cmake(text_of_file(k_root / "CMakeLists.txt")), expected);
}

TEST(Tree, no_file_of_code_is_longer_than_one_can_keep_in_mind) {
    for (const char* folder : {"src", "tests"})
        for (const fs::path& file : files_below(k_root / folder))
            if (is_cpp(file)) expect_none(breaches_of_length(text_of_file(file)), file);
}

TEST(Tree, no_file_holds_promises_or_paths_of_one_machine) {
    for (const fs::path& file : own_files()) expect_none(breaches_of_wording(text_of_file(file)), file);
}

}  // namespace
}  // namespace undercroft::architecture
