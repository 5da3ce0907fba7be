// The words of one clause, and a place in them. For the jot*.cpp files.
//
// Holds: a comma or a colon after a word is a word of its own, a comma between digits is not; "18C" and "pH3.42" are
// two words each; quotes keep words together.
#pragma once

#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/act.hpp"
#include "app/names.hpp"
#include "base/result.hpp"

namespace undercroft::app {

class JotWords {
public:
    explicit JotWords(std::string_view clause);

    [[nodiscard]] bool at_end() const { return m_next == m_words.size(); }
    // The word `ahead` places on, or "".
    [[nodiscard]] const std::string& word(std::size_t ahead = 0) const;
    [[nodiscard]] std::string lower_word(std::size_t ahead = 0) const;
    void skip(std::size_t count = 1) { m_next += count; }
    // Skips one of them when it comes next.
    bool skip_any(std::initializer_list<std::string_view> words) { return skip_one_of({words.begin(), words.size()}); }
    bool skip_one_of(std::span<const std::string_view> words);
    // Up to the next comma, or all that is left.
    [[nodiscard]] std::span<const std::string> segment() const;
    [[nodiscard]] std::span<const std::string> rest() const { return std::span(m_words).subspan(m_next); }
    // The words of `segment()` joined, skipped, and the comma after them.
    std::string take_segment();
    // Everything left as it reads: no blank before a comma.
    std::string take_rest();

    // "18 L", "a third", "30 %", "all", "the rest": how much comes next; nothing when no amount does. A bare number
    // is an amount here: whoever reads it refuses it.
    [[nodiscard]] std::optional<std::string> take_amount();

private:
    std::vector<std::string> m_words;
    std::size_t m_next = 0;
};

[[nodiscard]] std::string jot_joined(std::span<const std::string> words);
[[nodiscard]] bool is_jotted_number(std::string_view word);

// One measured value when it comes next. False, and nothing taken, when something else does.
[[nodiscard]] Result<bool> take_measure(JotWords& words, TakeReading& reading);
// One segment of a tasting: scores, a fault, a liking, who tasted, what it cost, or words.
[[nodiscard]] Result<void> take_taste(JotWords& words, TasteIt& tasting);

}  // namespace undercroft::app
