// How a row is found by what a keeper types, alike in every table.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

struct Candidate {
    std::string id;
    std::string name;
    std::string form;           // may be empty
    bool meant_by_name = true;  // what the bare name means, where several rows share it
    bool in_use = true;         // found by words; else by its id only
};

// Lower case; anything but letters and digits parts words.
[[nodiscard]] std::vector<std::string> words_of(std::string_view text);

// Index of the row meant: exact id; then name; then name with words of its form, in any order. A part of a
// name in parentheses may be left out. `noun` is for messages: "fruit".
[[nodiscard]] Result<std::size_t> look_up(const std::vector<Candidate>& candidates, std::string_view wanted,
                                          std::string_view noun);

// For tables whose rows have an id and a name only.
template <class T>
[[nodiscard]] Result<const T*> look_up_by_name(const std::vector<T>& rows, std::string_view wanted,
                                               std::string_view noun) {
    std::vector<Candidate> candidates;
    candidates.reserve(rows.size());
    for (const T& row : rows) candidates.push_back({row.id, row.name, {}, true, true});
    TRY(const std::size_t index, look_up(candidates, wanted, noun));
    return &rows[index];
}

// Refuses the second row with the same key; `key` gives the text that must be unique.
template <class T, class Key>
[[nodiscard]] Result<void> require_unique(const std::vector<T>& rows, std::string_view file, Key key) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (key(rows[i]) == key(rows[j])) {
                return fail(ErrorKind::bad_input, std::string(file) + ", column id",
                            "\"" + std::string(key(rows[i])) + "\" stands in rows " + std::to_string(j + 1) + " and " +
                                std::to_string(i + 1) + ": expected each id once.");
            }
        }
    }
    return {};
}

// For tables whose rows have an id, a name and other words for it (`also`): all of it must fit, upper and lower case
// alike.
template <class T>
[[nodiscard]] Result<const T*> look_up_by_any_word(const std::vector<T>& rows, std::string_view wanted,
                                                   std::string_view noun) {
    const std::vector<std::string> typed = words_of(wanted);
    std::vector<Candidate> candidates;
    candidates.reserve(rows.size());
    for (const T& row : rows) {
        if (!typed.empty()) {
            for (const std::string& word : row.also)
                if (words_of(word) == typed) return &row;
            if (words_of(row.id) == typed) return &row;
        }
        candidates.push_back({row.id, row.name, {}, true, true});
    }
    TRY(const std::size_t index, look_up(candidates, wanted, noun));
    return &rows[index];
}

// No two rows share an id, a name or another word.
template <class T>
[[nodiscard]] Result<void> require_words_of_one_row(const std::vector<T>& rows, std::string_view file) {
    std::map<std::vector<std::string>, std::string> row_of;
    for (const T& row : rows) {
        std::vector<std::string> all = row.also;
        all.push_back(row.id);
        all.push_back(row.name);
        for (const std::string& word : all) {
            const auto [known, added] = row_of.emplace(words_of(word), row.id);
            if (!added && known->second != row.id)
                return fail(ErrorKind::bad_input, std::string(file) + ", column also",
                            "\"" + word + "\" stands for " + known->second + " and for " + row.id +
                                ": expected each word once.");
        }
    }
    return require_unique(rows, file, [](const T& row) { return row.id; });
}

}  // namespace undercroft::tables
