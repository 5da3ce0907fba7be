// A scenario: what a keeper types at a fresh cellar, and what must come back. One text file each.
//
//   # remark
//   $ undercroft pull Amber 70 L Jar     a command, quoted as a shell does; the book is named by the environment
//   | pull Amber 18 L Jar                a line on its standard input
//   => 4                                 its exit code; 0 where nothing is said
//   > text                               must stand in its answer
//   ! text                               must stand in its words to the error stream
//   $same                                after it the book passes its check and holds the same entries as before
//   @clock 2026-01-01T18:00:00.000Z      where the clock stands from here on
//   @newer                               marks the book as one that a newer program wrote in
//   @file notes.txt                      makes a file beside the book, of the "| " lines that follow
//   @picture dot.png                     makes a PNG of one pixel beside the book
//
// "%dir%" in a command stands for the folder of the book. The clock stands at k_now at first.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace undercroft::scenarios {

inline constexpr std::string_view k_now = "2026-03-14T18:00:00.000Z";

struct Step {
    int line = 0;  // in the file, from 1
    std::vector<std::string> command;
    std::string file;    // instead of a command: its name
    bool newer = false;  // instead of a command
    std::string clock;   // instead of a command
    std::string input;
    int exit_code = 0;
    std::vector<std::string> answers;
    std::vector<std::string> refusals;
    bool same = false;
};

struct Scenario {
    std::vector<Step> steps;
    std::string mistake;  // what cannot be read, with its line; empty when all can
};

[[nodiscard]] Scenario read_scenario(std::string_view text);

struct Outcome {
    int exit_code = -1;  // -1: ended by a signal or not within its time
    std::string out;
    std::string err;
};

// Runs `program` with `arguments` in `folder`, the clock standing at `now`; `input` is its standard input.
[[nodiscard]] Outcome run_program(const std::string& program, const std::vector<std::string>& arguments,
                                  const std::string& folder, const std::string& input,
                                  const std::string& now = std::string(k_now));

// A folder of its own with a clock, in which one scenario is played.
class Stage {
public:
    explicit Stage(std::string program);
    Stage(const Stage&) = delete;
    Stage& operator=(const Stage&) = delete;
    ~Stage();

    [[nodiscard]] const std::string& folder() const { return m_folder; }  // empty: none could be made
    // Does what a step says; of what is no command the outcome is empty, with exit code 0.
    Outcome play(const Step& step);
    [[nodiscard]] Outcome run(const std::vector<std::string>& arguments, const std::string& input) const;

private:
    std::string m_program;
    std::string m_folder;
    std::string m_now{k_now};
};

// The names of all scenarios of the source tree, in order, and the text of one.
[[nodiscard]] std::vector<std::string> scenario_names();
[[nodiscard]] std::string scenario_text(const std::string& name);

}  // namespace undercroft::scenarios
