// A scenario: what a keeper types at a fresh cellar, and what must come back. One text file each.
//
//   # remark
//   $ undercroft pull Amber 70 L Jar     a command, quoted as a shell does; the book is named by the environment
//   | pull Amber 18 L Jar                a line on its standard input
//   => 4                                 its exit code; 0 where nothing is said
//   > text                               must stand in its answer
//   ! text                               must stand in its words to the error stream
//   $same                                after it the book passes its check and holds the same entries as before
//   @newer                               marks the book as one that a newer program wrote in
//   @file notes.txt                      makes a file beside the book, of the "| " lines that follow
//
// "%dir%" in a command stands for the folder of the book. The clock stands at k_now.
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

// Runs `program` with `arguments` in `folder`; `input` is its standard input.
[[nodiscard]] Outcome run_program(const std::string& program, const std::vector<std::string>& arguments,
                                  const std::string& folder, const std::string& input);

}  // namespace undercroft::scenarios
