// Two faces, one list of sums: what the command line takes, the page takes.
#include "api/calc_fields.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "cli/command.hpp"

namespace undercroft::testing {
namespace {

std::string field_of(std::string_view option) {
    std::string name(option.substr(2));
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
}

TEST(EverySum, TakesTheFieldsThatTheCommandLineHasAsOptions) {
    std::size_t known = 0;
    for (const cli::Command& command : cli::commands()) {
        if (!command.name.starts_with("calc ")) continue;
        const std::string name(command.name.substr(5));
        // These have requests of their own.
        if (name == "fruit" || name == "gas" || name == "solera" || name == "blending" || name == "finish") continue;
        ++known;
        const auto sums = api::calc_sums();
        const auto sum = std::find_if(sums.begin(), sums.end(), [&](const auto& one) { return one.name == name; });
        ASSERT_NE(sum, sums.end()) << name;
        EXPECT_EQ(sum->word.empty(), command.words.empty()) << name;
        std::vector<std::string> wanted;
        for (const cli::Option& option : command.options) wanted.push_back(field_of(option.name));
        std::vector<std::string> given;
        for (const api::CalcField& field : sum->fields) given.emplace_back(field.name);
        std::sort(wanted.begin(), wanted.end());
        std::sort(given.begin(), given.end());
        EXPECT_EQ(given, wanted) << name;
        for (const cli::Option& option : command.options)
            for (const api::CalcField& field : sum->fields)
                if (field.name == field_of(option.name)) {
                    EXPECT_EQ(field.holds == api::Holds::flag, option.takes == cli::Takes::nothing) << option.name;
                    EXPECT_EQ(field.holds == api::Holds::texts, option.repeats) << option.name;
                }
    }
    EXPECT_EQ(known, api::calc_sums().size());
}

}  // namespace
}  // namespace undercroft::testing
