// The rules themselves, held against made-up sources: each must be able to say no.
#include "tests/architecture/source_rules.hpp"

#include <gtest/gtest.h>

#include <string>

namespace undercroft::architecture {
namespace {

const std::string k_header_top = "// What it is for.\n#pragma once\n";

std::vector<Breach> header(const std::string& path, const std::string& body) {
    return breaches_of_source(path, k_header_top + body, false);
}

TEST(LayerRule, looks_down_but_never_up_or_sideways) {
    EXPECT_TRUE(may_use(layers(), "app", "base"));
    EXPECT_TRUE(may_use(layers(), "engine/age", "ledger"));
    EXPECT_FALSE(may_use(layers(), "base", "units"));
    EXPECT_FALSE(may_use(layers(), "chem", "ledger"));
    EXPECT_FALSE(may_use(layers(), "ledger", "chem"));
    EXPECT_FALSE(may_use(layers(), "engine/age", "engine/fruit"));
    EXPECT_FALSE(may_use(layers(), "store", "app"));
    EXPECT_FALSE(may_use(layers(), "cli", "store"));
    EXPECT_TRUE(may_use(layers(), "main", "store"));
}

TEST(LayerRule, names_the_line_that_breaks_it) {
    const auto breaches = header("chem/gas.hpp", "#include \"units/volume.hpp\"\n#include \"ledger/entry.hpp\"\n");
    ASSERT_EQ(breaches.size(), 1u);
    EXPECT_EQ(breaches[0].line, 4);
    EXPECT_EQ(breaches[0].what, "chem may not use ledger (\"ledger/entry.hpp\")");
}

TEST(LayerRule, refuses_a_file_that_lies_in_no_layer) {
    EXPECT_EQ(layer_of("engine/state/liquid.hpp"), "engine/state");
    EXPECT_EQ(layer_of("store/schema/first.hpp"), "store");
    EXPECT_EQ(layer_of("engine/liquid.hpp"), "");
    EXPECT_EQ(layer_of("utils/strings.hpp"), "");
    EXPECT_EQ(header("utils/strings.hpp", "").size(), 1u);
}

TEST(LayerRule, refuses_an_include_that_does_not_start_at_the_root) {
    EXPECT_EQ(header("chem/gas.hpp", "#include \"gravity.hpp\"\n").size(), 1u);
    EXPECT_EQ(header("chem/gas.hpp", "#include \"../units/volume.hpp\"\n").size(), 1u);
}

TEST(LayerRule, reads_the_same_table_out_of_a_build_file) {
    const LayerTable table = layers_of_cmake(
        "undercroft_layer(base LINK tl::expected)\n"
        "undercroft_layer(units    USES base)\nundercroft_layer(render USES units base LINK_PRIVATE fmt::fmt)\n");
    const LayerTable expected = {{"base", {}}, {"units", {"base"}}, {"render", {"base", "units"}}};
    EXPECT_EQ(table, expected);
}

TEST(VendorRule, keeps_each_vendor_where_it_is_hidden) {
    EXPECT_TRUE(header("store/database.hpp", "#include <sqlite3.h>\n").empty());
    EXPECT_EQ(header("app/book.hpp", "#include <sqlite3.h>\n").size(), 1u);
    EXPECT_EQ(header("ledger/hash.hpp", "#include <sodium.h>\n").size(), 1u);
    EXPECT_TRUE(breaches_of_source("render/json.cpp", "#include <nlohmann/json.hpp>\n", false).empty());
    EXPECT_EQ(header("app/answer.hpp", "#include <nlohmann/json_fwd.hpp>\n").size(), 1u);
    EXPECT_EQ(breaches_of_source("cli/answer.cpp", "#include <nlohmann/json.hpp>\n", false).size(), 1u);
    EXPECT_TRUE(breaches_of_source("main/zone.cpp", "#include <date/tz.h>\n", false).empty());
    EXPECT_EQ(header("base/instant.hpp", "#include <date/tz.h>\n").size(), 1u);
    EXPECT_TRUE(header("units/volume.hpp", "#include <tl/expected.hpp>\n").empty());
}

TEST(VendorRule, keeps_formatting_out_of_headers) {
    EXPECT_TRUE(breaches_of_source("render/text.cpp", "#include <fmt/core.h>\n", false).empty());
    EXPECT_EQ(header("render/text.hpp", "#include <fmt/core.h>\n").size(), 1u);
}

TEST(VendorRule, refuses_a_vendor_nobody_has_spoken_for) {
    EXPECT_EQ(header("engine/age/age.hpp", "#include <boost/math/tools/roots.hpp>\n").size(), 1u);
}

TEST(OutsideRule, keeps_files_streams_and_sockets_to_the_edge) {
    for (const char* name : {"fstream", "filesystem", "iostream", "sys/socket.h", "unistd.h"}) {
        const std::string include = std::string("#include <") + name + ">\n";
        EXPECT_EQ(header("engine/state/liquid.hpp", include).size(), 1u) << name;
        EXPECT_EQ(header("app/book.hpp", include).size(), 1u) << name;
        EXPECT_TRUE(header("store/database.hpp", include).empty()) << name;
    }
    EXPECT_TRUE(header("engine/state/liquid.hpp", "#include <sstream>\n#include <cstdio>\n").empty());
    EXPECT_EQ(header("app/book.hpp", "std::FILE* f = std::fopen(path, mode);\n").size(), 1u);
    EXPECT_TRUE(header("app/book.hpp", "std::snprintf(buffer, size, format, 1);\n").empty());
}

TEST(OutsideRule, lets_only_main_ask_a_clock_or_draw_chance) {
    const std::string clock = "auto now = std::chrono::system_clock::now();\n";
    EXPECT_EQ(breaches_of_source("app/book.cpp", clock, false).size(), 1u);
    EXPECT_EQ(breaches_of_source("store/journal.cpp", clock, false).size(), 1u);
    EXPECT_TRUE(breaches_of_source("main/main.cpp", clock, false).empty());
    EXPECT_EQ(breaches_of_source("app/book.cpp", "auto t = time(nullptr);\n", false).size(), 1u);
    EXPECT_EQ(breaches_of_source("app/book.cpp", "std::random_device device;\n", false).size(), 1u);
    EXPECT_TRUE(breaches_of_source("app/book.cpp", "// never ::now() here\n", false).empty());
}

TEST(HeaderRule, wants_a_comment_first_and_a_pragma) {
    EXPECT_TRUE(breaches_of_source("base/id.hpp", k_header_top, false).empty());
    EXPECT_EQ(breaches_of_source("base/id.hpp", "#pragma once\n", false).size(), 1u);
    EXPECT_EQ(breaches_of_source("base/id.hpp", "// What it is for.\n", false).size(), 1u);
}

TEST(HeaderRule, wants_a_files_own_header_first) {
    const std::string right = "#include \"base/id.hpp\"\n\n#include <string>\n";
    const std::string wrong = "#include <string>\n\n#include \"base/id.hpp\"\n";
    EXPECT_TRUE(breaches_of_source("base/id.cpp", right, true).empty());
    EXPECT_EQ(breaches_of_source("base/id.cpp", wrong, true).size(), 1u);
    EXPECT_TRUE(breaches_of_source("base/id.cpp", wrong, false).empty());
}

TEST(LengthRule, allows_six_hundred_lines_and_not_one_more) {
    std::string text;
    for (int i = 0; i < k_longest_file; ++i) text += "x\n";
    EXPECT_TRUE(breaches_of_length(text).empty());
    EXPECT_EQ(breaches_of_length(text + "x\n").size(), 1u);
}

TEST(WordingRule, refuses_promises_and_paths_of_one_machine) {
    EXPECT_EQ(breaches_of_wording("a\n// TO"
                                  "DO later\n"),
              (std::vector<Breach>{{2,
                                    "says TO"
                                    "DO"}}));
    EXPECT_EQ(breaches_of_wording("FIX"
                                  "ME")
                  .size(),
              1u);
    EXPECT_EQ(breaches_of_wording("see \"/ho"
                                  "me/someone/cellar\"")
                  .size(),
              1u);
    EXPECT_TRUE(breaches_of_wording("https://example.org/home/page and src/work/order.hpp").empty());
}

}  // namespace
}  // namespace undercroft::architecture
