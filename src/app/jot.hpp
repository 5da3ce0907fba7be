// What was seen and done, as people jot it down, read as ordinary acts:
// "Amber 1.008 pH 3.42 18 C; pulled 18 L to Jar 12; topped up 0.4 L from Keg 1; tasted sour 6, lemon".
//
// Holds: amounts stay as typed, names become whole names; nothing is guessed. A bare number is a gravity when it has
// three decimals or more, and refused with its readings otherwise. A clause that cannot be read is an error that names
// it and says what was expected; then nothing of the line is read.
#pragma once

#include <string>
#include <vector>

#include "app/act.hpp"
#include "app/names.hpp"
#include "base/result.hpp"

namespace undercroft::app {

// What a keeper says once for all lines.
struct JotHabits {
    std::string taster;
    std::string sample;        // what every reading costs; a line may say its own
    std::string subject = {};  // whole name of what the first clause is about, unless it says so itself
};

// Clauses parted by ";" or line breaks. The vessel or run a clause names stays the subject of those after it.
[[nodiscard]] Result<std::vector<Act>> read_jotting(const std::string& text, const Names& names,
                                                    const JotHabits& habits);

// One line about `subject`: readings, and then scores and words of a tasting ("1.008 pH 3.42 18 C, sour 6, lemon").
[[nodiscard]] Result<std::vector<Act>> read_look(const std::string& subject, const std::string& text,
                                                 const JotHabits& habits);

}  // namespace undercroft::app
