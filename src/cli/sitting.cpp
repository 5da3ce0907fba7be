#include "cli/sitting.hpp"

#include <algorithm>
#include <iterator>
#include <memory>
#include <utility>

#include "cli/acts.hpp"
#include "cli/typed.hpp"

namespace undercroft::cli {
namespace {

bool is_sitting_option(const std::string& token) {
    const std::string name = token.substr(0, token.find('='));
    return std::any_of(sitting_options().begin(), sitting_options().end(),
                       [&](const Option& option) { return option.name == name; });
}

Result<void> settle(std::string& field, const Typed& typed, std::string_view option) {
    const std::string value = typed.one(option);
    if (value.empty()) return {};
    if (!field.empty() && field != value)
        return fail(ErrorKind::bad_input, std::string(option), "One sitting has one " + std::string(option) + ".",
                    {{"first", field}, {"then", value}}, "Book what happened at another time as a sitting of its own.");
    field = value;
    return {};
}

// "correct 12 --reason WHY ACT...": the options before the act are the correction's, all after it the act's.
Result<app::Correct> read_correction(std::span<const std::string> tokens) {
    if (tokens.empty() || is_option_word(tokens[0])) return wants_words("correct", "Which entry is corrected?");
    app::Correct correct{.entry = tokens[0], .reason = {}, .instead = nullptr};
    const auto row =
        std::find_if(commands().begin(), commands().end(), [](const Command& c) { return c.name == "correct"; });
    Typed own;
    std::size_t i = 1;
    while (i < tokens.size() && is_option_word(tokens[i])) TRY_VOID(take_option(tokens, i, row->options, own));
    correct.reason = own.one("--reason");
    if (i >= tokens.size()) return wants_words("correct", "What should entry " + tokens[0] + " say instead?");
    TRY(const Found found, find_command(tokens.subspan(i)));
    const std::string_view name = found.command->name;
    if (found.command->role != Role::act || name == "correct" || name == "void")
        return wants_words("correct", "\"" + std::string(name) + "\" cannot stand in the place of an entry.");
    TRY(const Typed typed, read_typed(*found.command, tokens.subspan(i + found.length)));
    TRY(std::vector<app::Act> acts, acts_of(*found.command, typed));
    if (acts.size() != 1)
        return wants_words("correct", "One entry is corrected by one; this makes " + std::to_string(acts.size()) + ".");
    correct.instead = std::make_shared<const app::Act>(std::move(acts.front()));
    return correct;
}

Result<void> add_acts(std::span<const std::string> tokens, std::vector<app::Act>& acts) {
    TRY(const Found found, find_command(tokens));
    const std::span<const std::string> rest = tokens.subspan(found.length);
    if (found.command->role != Role::act)
        return fail(ErrorKind::bad_input, std::string(found.command->name),
                    "\"" + std::string(found.command->name) + "\" is not an act: it cannot be part of a sitting.");
    if (found.command->name == "correct") {
        TRY(app::Correct correct, read_correction(rest));
        acts.emplace_back(std::move(correct));
        return {};
    }
    TRY(const Typed typed, read_typed(*found.command, rest));
    TRY(std::vector<app::Act> made, acts_of(*found.command, typed));
    std::move(made.begin(), made.end(), std::back_inserter(acts));
    return {};
}

Error on_line(Error error, int line) {
    error.facts.insert(error.facts.begin(), Fact{"line", std::to_string(line)});
    return error;
}

}  // namespace

Result<std::vector<std::string>> take_sitting_options(std::span<const std::string> tokens, TypedSitting& sitting) {
    std::vector<std::string> rest;
    Typed typed;
    for (std::size_t i = 0; i < tokens.size();) {
        if (tokens[i] == "--") {
            rest.insert(rest.end(), tokens.begin() + static_cast<std::ptrdiff_t>(i), tokens.end());
            break;
        }
        if (is_sitting_option(tokens[i])) {
            TRY_VOID(take_option(tokens, i, sitting_options(), typed));
        } else {
            rest.push_back(tokens[i++]);
        }
    }
    TRY_VOID(settle(sitting.request.when, typed, "--when"));
    TRY_VOID(settle(sitting.request.after, typed, "--after"));
    TRY_VOID(settle(sitting.request.by, typed, "--by"));
    TRY_VOID(settle(sitting.request.key, typed, "--key"));
    if (!sitting.request.when.empty() && !sitting.request.after.empty())
        return fail(ErrorKind::bad_input, "--after", "A sitting stands at --when or --after an entry, not both.",
                    {{"--when", sitting.request.when}, {"--after", sitting.request.after}});
    sitting.what_if = sitting.what_if || typed.has("--what-if");
    return rest;
}

Result<TypedSitting> read_sitting(std::span<const std::string> tokens) {
    TypedSitting sitting;
    auto begin = tokens.begin();
    while (true) {
        const auto end = std::find(begin, tokens.end(), "--then");
        TRY(const std::vector<std::string> segment, take_sitting_options(std::span(begin, end), sitting));
        if (segment.empty())
            return fail(ErrorKind::bad_input, "--then", "--then joins two acts; one side of it is empty.", {},
                        "undercroft read Amber 1.008 --then pull Amber 18 L \"Jar 23\"");
        TRY_VOID(add_acts(segment, sitting.request.acts));
        if (end == tokens.end()) return sitting;
        begin = std::next(end);
    }
}

Script::Script(std::istream& in, std::string by, std::optional<Day> as_of)
    : m_in(in), m_by(std::move(by)), m_as_of(as_of) {}

// D-730, or D-730..D-365; anything else comes back as it is.
Result<std::string> Script::with_day(const std::string& word) const {
    if (const std::size_t dots = word.find(".."); dots != std::string::npos && word.starts_with("D-")) {
        TRY(const std::string from, with_day(word.substr(0, dots)));
        TRY(const std::string to, with_day(word.substr(dots + 2)));
        return from + ".." + to;
    }
    if (word.size() < 3 || word.size() > 8 || !word.starts_with("D-") ||
        word.find_first_not_of("0123456789", 2) != std::string::npos)
        return word;
    if (!m_as_of)
        return fail(ErrorKind::bad_input, "day", word + " counts back from the day of the script, which nobody said.",
                    {}, "Say --as-of 2026-03-14.");
    return iso_text(add_days(*m_as_of, -std::stoi(word.substr(2))));
}

Result<void> Script::take_header(std::span<const std::string> words, TypedSitting& sitting) {
    std::size_t i = 1;
    if (i < words.size() && words[i] != "by") {
        sitting.request.when = words[i++];
        if (i < words.size() && is_time_word(words[i])) sitting.request.when += " " + words[i++];
    }
    if (i < words.size() && words[i] == "by") {
        std::string name;
        for (++i; i < words.size(); ++i) name += (name.empty() ? "" : " ") + words[i];
        if (name.empty()) return fail(ErrorKind::bad_input, "by", "Who? A name comes after \"by\".");
        sitting.request.by = name;
    }
    if (i < words.size())
        return fail(ErrorKind::bad_input, "sitting", "\"" + words[i] + "\" does not belong at the head of a sitting.",
                    {{"form", "sitting [DAY [TIME]] [by NAME]"}, {"example", "sitting 2025-03-14 18:30 by Ines"}});
    return {};
}

Result<void> Script::take_line(const std::string& line, ScriptSitting& sitting) {
    TRY(std::vector<std::string> words, split_line(line));
    for (std::string& word : words) {
        TRY(word, with_day(word));
    }
    TRY(const std::vector<std::string> rest, take_sitting_options(words, sitting.typed));
    if (rest.empty()) return fail(ErrorKind::bad_input, "", "There is no act on this line.");
    if (rest.front() == "sitting") return take_header(rest, sitting.typed);
    return add_acts(rest, sitting.typed.request.acts);
}

Result<std::optional<ScriptSitting>> Script::next() {
    ScriptSitting sitting;
    const auto take = [&](const std::string& line) -> Result<void> {
        if (sitting.first_line == 0) sitting.first_line = m_line;
        sitting.last_line = m_line;
        if (auto taken = take_line(line, sitting); !taken) return Failure{on_line(std::move(taken).error(), m_line)};
        return {};
    };
    if (m_header) {
        TRY_VOID(take(*std::exchange(m_header, std::nullopt)));
    }
    for (std::string line; std::getline(m_in, line);) {
        ++m_line;
        const std::size_t begin = line.find_first_not_of(" \t\r");
        if (begin == std::string::npos) {
            if (!sitting.typed.request.acts.empty()) break;
            continue;  // between a head and its acts, or before any
        }
        if (line[begin] == '#') continue;
        const std::string word = line.substr(begin, line.find_first_of(" \t\r", begin) - begin);
        if (word == "sitting" && sitting.first_line != 0) {
            if (sitting.typed.request.acts.empty())
                return Failure{
                    on_line({ErrorKind::bad_input, "sitting", "Two sittings begin and the first has no acts.", {}, {}},
                            m_line)};
            m_header = line;
            break;
        }
        TRY_VOID(take(line));
    }
    if (sitting.typed.request.acts.empty()) return std::nullopt;
    if (sitting.typed.request.by.empty()) sitting.typed.request.by = m_by;
    return sitting;
}

}  // namespace undercroft::cli
