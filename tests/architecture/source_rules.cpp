#include "tests/architecture/source_rules.hpp"

#include <algorithm>
#include <optional>
#include <regex>
#include <sstream>

namespace undercroft::architecture {
namespace {

using Layers = std::set<std::string, std::less<>>;

// Vendor header (or the folder it lies in) -> the layers that may include it.
const std::vector<std::pair<std::string, Layers>>& vendors() {
    static const std::vector<std::pair<std::string, Layers>> k_vendors = {
        {"sqlite3.h", {"store"}},
        {"sodium.h", {"base", "store", "main"}},
        {"nlohmann/", {"store", "render", "api"}},
        {"boost/math/", {"engine/taste"}},
        {"Eigen/", {"engine/blend", "engine/taste"}},
        {"boost/", {"serve"}},
        {"fmt/", {"store", "render", "cli"}},
        {"date/", {"main"}},
        {"CbcModel.hpp", {"solve"}},
        {"CbcEventHandler.hpp", {"solve"}},
        {"CoinPackedMatrix.hpp", {"solve"}},
        {"CoinTime.hpp", {"solve"}},
        {"OsiClpSolverInterface.hpp", {"solve"}},
        {"cairo-pdf.h", {"paper"}},
        {"pango/", {"paper"}},
        {"qrcodegen/", {"paper"}},
        {"zlib.h", {"paper"}},
    };
    return k_vendors;
}

bool touches_the_outside(std::string_view layer) {
    return layer == "store" || layer == "cli" || layer == "main";
}

// The part of a line that is code. Good enough for our sources: no "//" stands inside a string there.
std::string without_comment(const std::string& line) {
    return line.substr(0, line.find("//"));
}

std::vector<std::string> lines_of(std::string_view text) {
    std::vector<std::string> lines;
    std::istringstream stream{std::string(text)};
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

std::optional<std::string> breach_of_system_include(std::string_view layer, bool is_header, const std::string& name) {
    static const Layers k_outside = {"fstream", "filesystem", "iostream"};
    if (name == "tl/expected.hpp") return std::nullopt;  // the one vendor of base, and so of everyone
    for (const auto& [vendor, allowed] : vendors()) {
        const bool folder = vendor.back() == '/';
        if (folder ? name.rfind(vendor, 0) != 0 : name != vendor) continue;
        if (!allowed.contains(layer)) return "<" + name + "> is not for " + std::string(layer);
        if (vendor == "fmt/" && is_header) return "<" + name + "> belongs in a .cpp: headers stay quick to read";
        return std::nullopt;
    }
    if (touches_the_outside(layer)) return std::nullopt;
    if (k_outside.contains(name)) return "<" + name + ">: files and streams are for store, cli and main";
    // What is left with a dot or a slash is the operating system's or a vendor nobody has spoken for.
    if (name.find_first_of("./") != std::string::npos) return "<" + name + "> is not for " + std::string(layer);
    return std::nullopt;
}

}  // namespace

const LayerTable& layers() {
    static const LayerTable k_layers = {
        {"base", {}},
        {"units", {"base"}},
        {"tables", {"base"}},
        {"chem", {"units"}},
        {"ledger", {"units"}},
        {"engine/state", {"ledger", "chem", "tables"}},
        {"engine/age", {"engine/state"}},
        {"engine/fruit", {"engine/state"}},
        {"engine/package", {"engine/state"}},
        {"engine/trace", {"engine/state"}},
        {"engine/taste", {"engine/state"}},
        {"solve", {"base"}},
        {"engine/blend", {"engine/package", "solve"}},
        {"engine/finish", {"engine/blend", "engine/fruit"}},
        {"app",
         {"engine/age", "engine/blend", "engine/finish", "engine/fruit", "engine/package", "engine/taste",
          "engine/trace"}},
        {"render", {"app"}},
        {"store", {"ledger"}},
        {"paper", {"app"}},
        {"cli", {"app", "render", "paper"}},
        {"web_assets", {}},
        {"api", {"app", "render", "paper", "web_assets"}},
        {"serve", {"api"}},
        {"main", {"cli", "serve", "store"}},
    };
    return k_layers;
}

LayerTable layers_of_cmake(std::string_view cmake_lists) {
    LayerTable table;
    const std::string text(cmake_lists);
    static const std::regex k_layer(R"(undercroft_layer\(([^)]*)\))");
    for (std::sregex_iterator found(text.begin(), text.end(), k_layer), end; found != end; ++found) {
        std::istringstream words((*found)[1].str());
        std::string folder;
        words >> folder;
        std::set<std::string>& uses = table[folder];
        bool in_uses = false;
        for (std::string word; words >> word;) {
            if (word == "USES" || word == "LINK" || word == "LINK_PRIVATE")
                in_uses = word == "USES";
            else if (in_uses)
                uses.insert(word);
        }
    }
    return table;
}

bool may_use(const LayerTable& table, std::string_view layer, std::string_view used) {
    if (layer == used) return true;
    const auto found = table.find(layer);
    if (found == table.end()) return false;
    return std::any_of(found->second.begin(), found->second.end(),
                       [&](const std::string& below) { return may_use(table, below, used); });
}

std::string layer_of(std::string_view path_below_src) {
    // The innermost folder that is a layer: store/schema/ belongs to store, but engine/ alone is none.
    for (std::size_t slash = path_below_src.rfind('/'); slash != std::string_view::npos && slash > 0;
         slash = path_below_src.rfind('/', slash - 1)) {
        const std::string_view folder = path_below_src.substr(0, slash);
        if (layers().contains(folder)) return std::string(folder);
    }
    return {};
}

std::vector<Breach> breaches_of_source(std::string_view path_below_src, std::string_view text, bool own_header_exists) {
    const std::string layer = layer_of(path_below_src);
    if (layer.empty()) return {{0, "lies in no layer"}};
    const bool is_header = path_below_src.ends_with(".hpp");
    const std::vector<std::string> lines = lines_of(text);

    std::vector<Breach> breaches;
    if (is_header) {
        if (lines.empty() || lines.front().rfind("//", 0) != 0)
            breaches.push_back({1, "a header opens with a comment that says what it is for"});
        if (std::find(lines.begin(), lines.end(), "#pragma once") == lines.end())
            breaches.push_back({0, "a header says #pragma once"});
    }

    static const std::regex k_include(R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])");
    static const std::regex k_clock(R"(::now\s*\(|\btime\s*\(\s*(nullptr|NULL|0)\s*\)|clock_gettime|gettimeofday)");
    static const std::regex k_stream(R"(\b(fopen|printf|fprintf|puts|fputs)\s*\()");
    const std::string own_header =
        own_header_exists ? std::string(path_below_src.substr(0, path_below_src.rfind('.'))) + ".hpp" : std::string{};
    bool first_include = true;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const int number = static_cast<int>(i) + 1;
        const std::string code = without_comment(lines[i]);
        std::smatch match;
        if (std::regex_search(code, match, k_include)) {
            const std::string name = match[2].str();
            if (match[1] == "<") {
                if (auto breach = breach_of_system_include(layer, is_header, name))
                    breaches.push_back({number, *breach});
            } else if (const std::string used = layer_of(name); used.empty()) {
                breaches.push_back({number, "\"" + name + "\" is not written from the root of src/"});
            } else if (!may_use(layers(), layer, used)) {
                breaches.push_back({number, layer + " may not use " + used + " (\"" + name + "\")"});
            }
            if (first_include && !own_header.empty() && name != own_header)
                breaches.push_back({number, "its own header comes first, so that it is known to stand alone"});
            first_include = false;
        }
        if (!touches_the_outside(layer) && std::regex_search(code, k_stream))
            breaches.push_back({number, "files and streams are for store, cli and main"});
        if (layer != "main" && std::regex_search(code, k_clock))
            breaches.push_back({number, "only main asks a clock: take the instant as an argument"});
        if (layer != "main" && code.find("random_device") != std::string::npos)
            breaches.push_back({number, "only main draws chance: take a seed as an argument"});
    }
    return breaches;
}

std::vector<Breach> breaches_of_length(std::string_view text) {
    const auto count = static_cast<int>(lines_of(text).size());
    if (count <= k_longest_file) return {};
    return {{0, "has " + std::to_string(count) + " lines; at most " + std::to_string(k_longest_file)}};
}

std::vector<Breach> breaches_of_wording(std::string_view text) {
    // Written in pieces, so that this file keeps the rule it states.
    static const std::vector<std::string> k_words = {
        "TO"
        "DO",
        "FIX"
        "ME",
        "../"
        "shared"};
    static const std::regex k_home(R"((^|[\s"'`(=:])/(home|root|work|Users)/\w)");
    std::vector<Breach> breaches;
    const std::vector<std::string> lines = lines_of(text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const int number = static_cast<int>(i) + 1;
        for (const std::string& word : k_words)
            if (lines[i].find(word) != std::string::npos) breaches.push_back({number, "says " + word});
        if (std::regex_search(lines[i], k_home)) breaches.push_back({number, "names a path of one machine"});
    }
    return breaches;
}

}  // namespace undercroft::architecture
