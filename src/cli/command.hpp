// Every command there is, one row each: reading, help and the checks of the documents come from these rows.
//
// Holds: a command's example is itself a line the program reads. Options are long; a word that begins with "-" and a
// digit is an amount, never an option.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::cli {

// What a keeper is about to do; help is laid out by it.
enum class Group { begin, keep, know, turn, package, remember, paper, correct, safe, exchange, sums };

enum class Role {
    act,       // becomes part of a sitting
    question,  // asks a book and leaves it as it is
    program,   // neither: begins a book, reads lines, does sums
};

enum class Takes {
    nothing,
    one,
    two,         // "--from A 5 L": a vessel and a volume
    one_or_two,  // "--to A", "--to A 5 L": a volume only where one follows
    span,        // "14 days", as one word or two
    moment,      // a day, and perhaps a time as a word of its own
};

struct Option {
    std::string_view name;  // "--to"
    Takes takes = Takes::one;
    std::string_view value;  // shown in help: "VESSEL"
    std::string_view about;
    bool repeats = false;
};

struct Command {
    std::string_view name;  // "pull", "trace back"
    Group group = Group::keep;
    Role role = Role::act;
    std::string_view words;  // what follows without a "--", for help: "VESSEL [1.008]"
    std::string_view about;
    std::string_view example;  // without the program's name
    std::vector<Option> options;
};

[[nodiscard]] const std::vector<Command>& commands();
// Options of a sitting, allowed beside any act.
[[nodiscard]] const std::vector<Option>& sitting_options();

// Two commands have one name: "serve" with a keg is an act, alone it serves the page.
// The command at the front of `tokens`, which may be two words long. not_found names the nearest.
struct Found {
    const Command* command = nullptr;
    std::size_t length = 1;  // tokens its name took
};
[[nodiscard]] Result<Found> find_command(std::span<const std::string> tokens);

}  // namespace undercroft::cli
