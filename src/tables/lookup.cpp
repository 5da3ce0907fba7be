#include "tables/lookup.hpp"

#include <algorithm>

#include "base/nearest.hpp"

namespace undercroft::tables {

namespace {

// Without what stands in parentheses.
std::string short_name(std::string_view name) {
    const std::size_t open = name.find('(');
    const std::size_t close = name.find(')');
    if (open == std::string_view::npos || close == std::string_view::npos || close < open) return std::string(name);
    return std::string(name.substr(0, open)).append(name.substr(close + 1));
}

// Takes `part` out of `words`; false when it is not all there.
bool take_out(std::vector<std::string>& words, const std::vector<std::string>& part) {
    for (const std::string& word : part) {
        const auto found = std::find(words.begin(), words.end(), word);
        if (found == words.end()) return false;
        words.erase(found);
    }
    return true;
}

bool names_it(const std::vector<std::string>& typed, const Candidate& candidate) {
    return typed == words_of(candidate.name) || typed == words_of(short_name(candidate.name));
}

// Every word of the name is there, and every other word belongs to the form.
bool names_it_with_form(const std::vector<std::string>& typed, const Candidate& candidate) {
    for (const std::string& name : {candidate.name, short_name(candidate.name)}) {
        std::vector<std::string> rest = typed;
        std::vector<std::string> form = words_of(candidate.form);
        if (take_out(rest, words_of(name)) && take_out(form, rest)) return true;
    }
    return false;
}

std::string shown(const Candidate& candidate) {
    return candidate.form.empty() ? candidate.name : candidate.name + ", " + candidate.form;
}

Failure not_found(const std::vector<Candidate>& candidates, std::string_view wanted, std::string_view noun) {
    std::vector<std::string> names;
    for (const Candidate& candidate : candidates) {
        if (candidate.in_use) names.push_back(candidate.name);
    }
    for (const Candidate& candidate : candidates) names.push_back(candidate.id);
    std::string next_step;
    for (const std::string& name : nearest_names(wanted, names, 3)) {
        next_step.append(next_step.empty() ? "Did you mean \"" : "\" or \"").append(name);
    }
    if (!next_step.empty()) next_step.append("\"?");
    return fail(ErrorKind::not_found, std::string(noun),
                "There is no " + std::string(noun) + " \"" + std::string(wanted) + "\" in the tables.", {},
                std::move(next_step));
}

Failure ambiguous(const std::vector<Candidate>& candidates, const std::vector<std::size_t>& found,
                  std::string_view wanted, std::string_view noun) {
    std::vector<Fact> facts;
    for (const std::size_t index : found) facts.push_back({candidates[index].id, shown(candidates[index])});
    return fail(ErrorKind::bad_input, std::string(noun),
                "\"" + std::string(wanted) + "\" can mean " + std::to_string(found.size()) + " rows.", std::move(facts),
                "Say which, by its id.");
}

}  // namespace

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words(1);
    for (const char c : text) {
        if (c >= 'A' && c <= 'Z') {
            words.back().push_back(static_cast<char>(c - 'A' + 'a'));
        } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80) {
            words.back().push_back(c);
        } else if (!words.back().empty()) {
            words.emplace_back();
        }
    }
    if (words.back().empty()) words.pop_back();
    return words;
}

Result<std::size_t> look_up(const std::vector<Candidate>& candidates, std::string_view wanted, std::string_view noun) {
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        if (candidates[i].id == wanted) return i;
    }
    const std::vector<std::string> typed = words_of(wanted);
    if (typed.empty()) return not_found(candidates, wanted, noun);
    std::vector<std::size_t> named;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        if (candidates[i].in_use && names_it(typed, candidates[i])) named.push_back(i);
    }
    std::vector<std::size_t> meant;
    std::copy_if(named.begin(), named.end(), std::back_inserter(meant),
                 [&](std::size_t i) { return candidates[i].meant_by_name; });
    if (!meant.empty()) named = meant;
    if (named.empty()) {
        for (std::size_t i = 0; i < candidates.size(); ++i) {
            if (candidates[i].in_use && names_it_with_form(typed, candidates[i])) named.push_back(i);
        }
    }
    if (named.empty()) return not_found(candidates, wanted, noun);
    if (named.size() > 1) return ambiguous(candidates, named, wanted, noun);
    return named.front();
}

}  // namespace undercroft::tables
