// How a row is found by what a keeper types, alike in every table.
#pragma once

#include <cstddef>
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

}  // namespace undercroft::tables
