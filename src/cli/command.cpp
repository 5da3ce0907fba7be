#include "cli/command.hpp"

#include "base/nearest.hpp"
#include "cli/command_rows.hpp"

namespace undercroft::cli {

const std::vector<Command>& commands() {
    static const std::vector<Command> k_commands = [] {
        std::vector<Command> all = act_commands();
        for (Command& command : other_commands()) all.push_back(std::move(command));
        for (Command& command : ages_commands()) all.push_back(std::move(command));
        for (Command& command : blend_commands()) all.push_back(std::move(command));
        for (Command& command : tasting_commands()) all.push_back(std::move(command));
        for (Command& command : finish_commands()) all.push_back(std::move(command));
        for (Command& command : quarter_commands()) all.push_back(std::move(command));
        for (Command& command : print_commands()) all.push_back(std::move(command));
        for (Command& command : transfer_commands()) all.push_back(std::move(command));
        for (Command& command : calc_commands()) all.push_back(std::move(command));
        return all;
    }();
    return k_commands;
}

const std::vector<Option>& sitting_options() {
    static const std::vector<Option> k_options = {
        {"--when", Takes::moment, "DAY [TIME]", "when it was done; left out: now", false},
        {"--after", Takes::one, "ENTRY", "right after that entry, instead of a day", false},
        {"--by", Takes::one, "NAME", "who books it", false},
        {"--key", Takes::one, "KEY", "sitting key made earlier: the same sitting is never booked twice", false},
        {"--what-if", Takes::nothing, "", "show what it would do and book nothing", false},
    };
    return k_options;
}

Result<Found> find_command(std::span<const std::string> tokens) {
    if (tokens.empty()) return fail(ErrorKind::bad_input, "", "There is no command here.", {}, "undercroft help");
    std::vector<std::string> names;
    if (tokens.size() > 1)
        for (const Command& command : commands())
            if (command.name == tokens[0] + " " + tokens[1]) return Found{&command, 2};
    std::string seconds;
    for (const Command& command : commands()) {
        if (command.name == tokens[0]) return Found{&command, 1};
        names.emplace_back(command.name);
        if (command.name.starts_with(tokens[0] + " "))
            seconds += (seconds.empty() ? "" : " or ") + ("\"" + std::string(command.name) + "\"");
    }
    if (!seconds.empty())
        return fail(ErrorKind::bad_input, tokens[0], "\"" + tokens[0] + "\" wants a second word: " + seconds + ".");
    std::vector<Fact> facts;
    for (const std::string& name : nearest_names(tokens[0], names, 3)) facts.push_back({"perhaps", name});
    return fail(ErrorKind::bad_input, tokens[0], "There is no command \"" + tokens[0] + "\".", std::move(facts),
                "undercroft help lists them all.");
}

}  // namespace undercroft::cli
