#include "cli/typed.hpp"

#include <algorithm>
#include <cctype>

#include "base/letters.hpp"
#include "base/nearest.hpp"
#include "units/amount.hpp"
#include "units/duration.hpp"

namespace undercroft::cli {
namespace {

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

// "1/3": digits, a stroke, digits.
bool is_fraction_word(std::string_view word) {
    const std::size_t stroke = word.find('/');
    if (stroke == 0 || stroke == std::string_view::npos || stroke + 1 == word.size()) return false;
    return std::all_of(word.begin(), word.end(), [](char c) { return is_digit(c) || c == '/'; }) &&
           word.find('/', stroke + 1) == std::string_view::npos;
}

// How many words after tokens[at - 1] are its unit: "L", "us gal", "imp fl oz", "% vol", "months".
std::size_t unit_length(std::span<const std::string> tokens, std::size_t at) {
    if (at >= tokens.size()) return 0;
    static const std::vector<std::string> k_openers = {"us", "imp", "imperial", "uk", "fl", "fluid", "%"};
    const bool opener = std::find(k_openers.begin(), k_openers.end(), lower(tokens[at])) != k_openers.end();
    for (std::size_t length = std::min<std::size_t>(opener ? 3 : 1, tokens.size() - at); length > 0; --length) {
        std::string unit = tokens[at];
        for (std::size_t k = 1; k < length; ++k) unit += " " + tokens[at + k];
        if (is_unit_word(unit) || is_duration_unit(unit)) return length;
    }
    return 0;
}

bool is_share_noun(std::string_view word) {
    static const std::vector<std::string_view> k_nouns = {"half",  "third",  "quarter", "fifth",
                                                          "sixth", "eighth", "tenth"};
    return std::find(k_nouns.begin(), k_nouns.end(), word) != k_nouns.end();
}

// "5 L", "a third", "30 %", "1/3", "rest": what can only be how much, as one word.
bool is_volume_word(std::string_view word) {
    if (word == "rest" || word == "all" || word == "half" || is_fraction_word(word)) return true;
    const std::size_t digits = std::min(word.find_first_not_of("0123456789.,"), word.size());
    const std::string_view behind = word.substr(digits);
    if (digits > 0 && (behind == "%" || is_unit_word(behind))) return true;  // "5L"
    const std::size_t blank = word.find(' ');
    if (blank == std::string_view::npos) return false;
    const std::string_view front = word.substr(0, blank);
    return is_number_word(front) || is_fraction_word(front) || is_share_noun(word.substr(blank + 1));
}

// How many tokens from `at` on make one word.
std::size_t joined_length(std::span<const std::string> tokens, std::size_t at) {
    const std::string& word = tokens[at];
    // A fraction alone is a share of what a vessel holds, and a vessel's mark may be a single letter.
    if (is_fraction_word(word)) {
        const bool mark = at + 1 < tokens.size() && tokens[at + 1].size() == 1 && lower(tokens[at + 1]) != "l";
        return mark ? 1 : 1 + unit_length(tokens, at + 1);
    }
    if (is_number_word(word)) {
        if (const std::size_t unit = unit_length(tokens, at + 1)) return 1 + unit;
        if (at + 1 < tokens.size() && is_fraction_word(tokens[at + 1]))
            if (const std::size_t unit = unit_length(tokens, at + 2)) return 2 + unit;
        return 1;
    }
    if ((word == "a" || word == "one") && at + 1 < tokens.size() && is_share_noun(tokens[at + 1])) return 2;
    return 1;
}

}  // namespace

Result<std::vector<std::string>> split_line(std::string_view line) {
    std::vector<std::string> words;
    std::string word;
    bool in_word = false;
    char quote = '\0';
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (c == '\\' && quote != '\'') {
            const bool takes_next = i + 1 < line.size() && (quote == '\0' || line[i + 1] == '"' || line[i + 1] == '\\');
            word += takes_next ? line[++i] : c;
            in_word = true;
        } else if (quote != '\0') {
            if (c == quote)
                quote = '\0';
            else
                word += c;
        } else if (c == '\'' || c == '"') {
            quote = c;
            in_word = true;
        } else if (c == ' ' || c == '\t' || c == '\r') {
            if (in_word) words.push_back(std::move(word));
            word.clear();
            in_word = false;
        } else {
            word += c;
            in_word = true;
        }
    }
    if (quote != '\0')
        return fail(ErrorKind::bad_input, "quote",
                    std::string("A quote is opened with ") + quote + " and never closed.", {},
                    "Close it, or write \\" + std::string(1, quote) + " for the character itself.");
    if (in_word) words.push_back(std::move(word));
    return words;
}

std::vector<std::string> join_amounts(std::span<const std::string> tokens) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < tokens.size();) {
        const std::size_t length = joined_length(tokens, i);
        std::string word = tokens[i];
        for (std::size_t k = 1; k < length; ++k) word += " " + tokens[i + k];
        words.push_back(std::move(word));
        i += length;
    }
    return words;
}

bool is_time_word(std::string_view word) {
    const std::size_t colon = word.find(':');
    if (colon == 0 || colon == std::string_view::npos || colon > 2 || word.size() != colon + 3) return false;
    return std::all_of(word.begin(), word.end(), [](char c) { return is_digit(c) || c == ':'; });
}

bool is_option_word(std::string_view word) {
    if (word.size() < 2 || word[0] != '-' || word == "--") return false;
    return !is_digit(word[1]) && word[1] != '.' && word[1] != ',';
}

std::string Typed::one(std::string_view option) const {
    const auto found = options.find(option);
    return found == options.end() || found->second.front().empty() ? std::string{} : found->second.front().front();
}

std::vector<std::string> Typed::all(std::string_view option) const {
    std::vector<std::string> values;
    if (const auto found = options.find(option); found != options.end())
        for (const auto& given : found->second) values.push_back(given.front());
    return values;
}

std::string Typed::rest(std::size_t first, std::size_t last) const {
    std::string text;
    for (std::size_t i = first; i + last < words.size(); ++i) text += (text.empty() ? "" : " ") + words[i];
    return text;
}

Result<void> take_option(std::span<const std::string> tokens, std::size_t& i, std::span<const Option> known,
                         Typed& into) {
    const std::size_t equals = tokens[i].find('=');
    const std::string name = tokens[i].substr(0, equals);
    const auto option = std::find_if(known.begin(), known.end(), [&](const Option& o) { return o.name == name; });
    if (option == known.end()) {
        std::vector<std::string> names;
        for (const Option& o : known) names.emplace_back(o.name);
        std::vector<Fact> facts;
        for (const std::string& near : nearest_names(name, names, 3)) facts.push_back({"perhaps", near});
        if (facts.empty()) {
            std::string all;
            for (const std::string& one : names) all += (all.empty() ? "" : ", ") + one;
            facts.push_back({"options here", all.empty() ? "none" : all});
        }
        return fail(ErrorKind::bad_input, name, "\"" + name + "\" is not an option here.", std::move(facts),
                    "Words that begin with -- can stand after a lone --.");
    }
    std::vector<std::string> values;
    if (equals != std::string::npos) {
        if (option->takes == Takes::nothing)
            return fail(ErrorKind::bad_input, name, name + " stands alone: it takes no value.");
        values.push_back(tokens[i].substr(equals + 1));
    }
    ++i;
    const std::size_t wanted = option->takes == Takes::nothing ? 0 : option->takes == Takes::two ? 2 : 1;
    for (; values.size() < wanted; ++i) {
        if (i >= tokens.size() || is_option_word(tokens[i]) || tokens[i] == "--")
            return fail(ErrorKind::bad_input, name,
                        name + " wants " + std::string(option->value) + ": " + std::string(option->about) + ".");
        values.push_back(tokens[i]);
    }
    if (option->takes == Takes::span && i < tokens.size() && is_number_word(values[0])) values[0] += " " + tokens[i++];
    if (option->takes == Takes::one_or_two && i < tokens.size() && is_volume_word(tokens[i]))
        values.push_back(tokens[i++]);
    if (option->takes == Takes::moment && i < tokens.size() && is_time_word(tokens[i])) values[0] += " " + tokens[i++];
    auto& given = into.options[name];
    if (!given.empty() && !option->repeats)
        return fail(ErrorKind::bad_input, name, name + " is given twice.",
                    {{"first", given.front().empty() ? "" : given.front().front()},
                     {"then", values.empty() ? "" : values.front()}},
                    "Keep one of them.");
    given.push_back(std::move(values));
    return {};
}

Result<Typed> read_typed(const Command& command, std::span<const std::string> tokens) {
    const std::vector<std::string> words = join_amounts(tokens);
    Typed typed;
    bool only_words = false;
    for (std::size_t i = 0; i < words.size();) {
        if (!only_words && words[i] == "--") {
            only_words = true;
            ++i;
        } else if (!only_words && is_option_word(words[i])) {
            TRY_VOID(take_option(words, i, command.options, typed));
        } else {
            typed.words.push_back(words[i++]);
        }
    }
    return typed;
}

Failure wants_words(std::string_view command, std::string what) {
    std::vector<Fact> facts;
    for (const Command& row : commands())
        if (row.name == command) {
            facts.push_back({"form", std::string(row.name) + (row.words.empty() ? "" : " ") + std::string(row.words)});
            facts.push_back({"example", "undercroft " + std::string(row.example)});
        }
    return fail(ErrorKind::bad_input, std::string(command), std::move(what), std::move(facts),
                "undercroft help " + std::string(command));
}

}  // namespace undercroft::cli
