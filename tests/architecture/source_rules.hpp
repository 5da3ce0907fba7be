// The rules that hold the source tree in shape, as pure functions over one file's text.
//
// Holds: a layer may include itself and what lies below it, and nothing else; a vendor's header stays in the
// layers that are there to hide it; files, streams and sockets stay in store, cli and main, and clocks and
// chance in main alone.
// Leaves out: what the compiler and clang-format see to. Reading the tree is tree_test.cpp's work.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace undercroft::architecture {

// Layer -> the layers it names itself in CMakeLists.txt. `main` is not a layer there, and uses everything.
using LayerTable = std::map<std::string, std::set<std::string>, std::less<>>;

// The layers as docs/architecture.md draws them.
[[nodiscard]] const LayerTable& layers();
// The same table read out of the text of CMakeLists.txt.
[[nodiscard]] LayerTable layers_of_cmake(std::string_view cmake_lists);
// True when `layer` may include headers of `used`: itself, or anything below it, however far.
[[nodiscard]] bool may_use(const LayerTable& table, std::string_view layer, std::string_view used);

// "engine/state" of "engine/state/liquid.hpp", "main" of "main/main.cpp"; empty when it lies in no layer.
[[nodiscard]] std::string layer_of(std::string_view path_below_src);

struct Breach {
    int line = 0;  // 1 is the first; 0 when the whole file is meant
    std::string what;
    friend bool operator==(const Breach&, const Breach&) = default;
};

// Everything a file of src/ does that it may not. `own_header_exists` says that a .cpp has a header of its own name.
[[nodiscard]] std::vector<Breach> breaches_of_source(std::string_view path_below_src, std::string_view text,
                                                     bool own_header_exists);

inline constexpr int k_longest_file = 600;  // lines; longer ones hold more than one idea

// The rules for any file of ours: C++ of src/ and tests/ is no longer than k_longest_file.
[[nodiscard]] std::vector<Breach> breaches_of_length(std::string_view text);
// Words that are promises to do something later, and paths of somebody's own machine.
[[nodiscard]] std::vector<Breach> breaches_of_wording(std::string_view text);

}  // namespace undercroft::architecture
