// From typed characters to words, amounts and options; what they mean for the cellar is acts.hpp's.
//
// Holds: a number and the unit after it become one word ("18" "L" is "18 L"), so do "a" "third" and "1" "1/2" "gal".
// A word that begins with "-" and a digit is an amount.
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "cli/command.hpp"

namespace undercroft::cli {

// One line as a shell would split it: blanks part words, '...' and "..." keep them, \ takes the next character as it
// is.
[[nodiscard]] Result<std::vector<std::string>> split_line(std::string_view line);

[[nodiscard]] std::vector<std::string> join_amounts(std::span<const std::string> tokens);

// "9:15", "18:30".
[[nodiscard]] bool is_time_word(std::string_view word);
// True for "--to" and "-x"; not for "-3", "-0,5 L", "-" and "--".
[[nodiscard]] bool is_option_word(std::string_view word);

struct Typed {
    std::vector<std::string> words;  // amounts joined
    std::map<std::string, std::vector<std::vector<std::string>>, std::less<>> options;

    [[nodiscard]] bool has(std::string_view option) const { return options.contains(option); }
    // The value, or empty when it was not given.
    [[nodiscard]] std::string one(std::string_view option) const;
    [[nodiscard]] std::vector<std::string> all(std::string_view option) const;
    // Words from `first` on, joined with blanks; `last` are left off at the end.
    [[nodiscard]] std::string rest(std::size_t first, std::size_t last = 0) const;
};

// Takes the option at `tokens[i]` of `known` into `into`, and moves `i` past it. An option nobody knows is refused
// with the nearest of `known`.
[[nodiscard]] Result<void> take_option(std::span<const std::string> tokens, std::size_t& i,
                                       std::span<const Option> known, Typed& into);

// `tokens` after the command's own name.
[[nodiscard]] Result<Typed> read_typed(const Command& command, std::span<const std::string> tokens);

// "pull wants VESSEL VOLUME VESSEL2": bad_input that shows the command's words and its example.
[[nodiscard]] Failure wants_words(std::string_view command, std::string what);

}  // namespace undercroft::cli
