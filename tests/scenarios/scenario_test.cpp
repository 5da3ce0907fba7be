// Runs the program over every *.scenario file of this folder, one test each.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "tests/scenarios/scenario.hpp"

namespace undercroft::scenarios {
namespace {

const std::string k_program = UNDERCROFT_BINARY;

class ScenarioFile : public testing::TestWithParam<std::string> {};

TEST_P(ScenarioFile, comes_out_as_written) {
    const Scenario scenario = read_scenario(scenario_text(GetParam()));
    ASSERT_EQ(scenario.mistake, "");
    ASSERT_FALSE(scenario.steps.empty());

    Stage stage{k_program};
    ASSERT_FALSE(stage.folder().empty());
    const std::vector<std::string> all_entries = {"entries", "--json", "--most", "1000000"};
    for (const Step& step : scenario.steps) {
        SCOPED_TRACE(GetParam() + ".scenario:" + std::to_string(step.line));
        const bool commands = !step.command.empty();
        ASSERT_TRUE(!commands || step.command.front() == "undercroft");
        const Outcome before = step.same ? stage.run(all_entries, "") : Outcome{};
        const Outcome outcome = stage.play(step);
        EXPECT_EQ(outcome.exit_code, step.exit_code) << outcome.out << outcome.err;
        for (const std::string& answer : step.answers)
            EXPECT_NE(outcome.out.find(answer), std::string::npos) << "wanted: " << answer << "\n" << outcome.out;
        for (const std::string& refusal : step.refusals)
            EXPECT_NE(outcome.err.find(refusal), std::string::npos) << "wanted: " << refusal << "\n" << outcome.err;
        if (!step.same) continue;
        EXPECT_EQ(before.exit_code, 0) << before.err;
        EXPECT_EQ(stage.run(all_entries, "").out, before.out) << "the book was touched";
        EXPECT_EQ(stage.run({"check"}, "").exit_code, 0) << "the book is not whole";
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
