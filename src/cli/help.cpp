#include "cli/help.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>

namespace undercroft::cli {
namespace {

struct Chapter {
    Group group;
    std::string_view title;
    std::string_view example;  // the command whose example stands for the group
};

constexpr auto k_chapters = std::to_array<Chapter>({
    {Group::begin, "Begin", "vessel"},
    {Group::keep, "Keep", "read"},
    {Group::know, "Know", "show"},
    {Group::turn, "Turn", "pull"},
    {Group::package, "Package", "package"},
    {Group::remember, "Remember", "take"},
    {Group::paper, "On paper", "print labels"},
    {Group::correct, "Correct", "correct"},
    {Group::safe, "Safe", "backup"},
    {Group::exchange, "In and out", "export"},
    {Group::sums, "Sums without a book", "calc gas"},
});

std::string form_of(const Command& command) {
    return std::string(command.name) + (command.words.empty() ? "" : " " + std::string(command.words));
}

std::string option_lines(const std::vector<Option>& options) {
    std::size_t width = 0;
    std::vector<std::pair<std::string, std::string>> lines;
    for (const Option& option : options) {
        std::string left = std::string(option.name) + (option.value.empty() ? "" : " " + std::string(option.value));
        width = std::max(width, left.size());
        lines.emplace_back(std::move(left), std::string(option.about) + (option.repeats ? " (may be repeated)" : ""));
    }
    std::string out;
    for (const auto& [left, about] : lines) out += fmt::format("  {:<{}}  {}\n", left, width, about);
    return out;
}

const std::vector<Option>& common_options() {
    static const std::vector<Option> k_options = {
        {"--book", Takes::one, "FILE", "the book; left out: the file UNDERCROFT_BOOK names"},
        {"--json", Takes::nothing, "", "answer in JSON"},
        {"--help", Takes::nothing, "", "this page"},
    };
    return k_options;
}

}  // namespace

std::string help_page() {
    std::string out =
        "undercroft: a cellar book that computes, for soleras that are never emptied.\n"
        "\n"
        "  undercroft COMMAND ... [--book FILE] [--json]     undercroft help COMMAND says more\n";
    for (const Chapter& chapter : k_chapters) {
        out += fmt::format("\n{}\n", chapter.title);
        std::string example;
        for (const Command& command : commands()) {
            if (command.group != chapter.group) continue;
            out += fmt::format("  {:<15}{}{}\n", command.name, command.name.size() < 15 ? "" : "  ", command.about);
            if (command.name == chapter.example) example = command.example;
        }
        out += fmt::format("    undercroft {}\n", example);
    }
    out +=
        "\n"
        "Acts joined by --then are one sitting: previewed, booked or refused together. Beside any act:\n";
    out += option_lines(sitting_options());
    out +=
        "Amounts are written as people do: 18 L, a third, 1.012, 3.1 P, 64 F, 2.4 vol. What can mean two things\n"
        "is refused. Names of several words go in quotes; so does \"#12\", or leave the mark out: 12.\n";
    return out;
}

std::string help_of(const Command& command) {
    std::string out = fmt::format("undercroft {}\n  {}\n", form_of(command), command.about);
    out += fmt::format("\nExample\n  undercroft {}\n", command.example);
    if (!command.options.empty()) out += "\nOptions\n" + option_lines(command.options);
    if (command.role == Role::act)
        out += "\nOf the sitting (--then joins more acts)\n" + option_lines(sitting_options());
    out += "\nEverywhere\n" + option_lines(common_options());
    return out;
}

}  // namespace undercroft::cli
