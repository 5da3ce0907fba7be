#include "app/jot_words.hpp"

#include <algorithm>
#include <array>

#include "base/letters.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

// "18C" and "6.2g/L" are a number and its unit, "pH3.42" a name and its number; everything else is one word.
void add_word(std::vector<std::string>& words, const std::string& word) {
    std::size_t digits = 0;
    while (digits < word.size() && (is_digit(word[digits]) || word[digits] == '.' || word[digits] == ',')) ++digits;
    if (digits > 0 && digits < word.size() && is_number_word(word.substr(0, digits)) &&
        is_unit_word(word.substr(digits))) {
        words.push_back(word.substr(0, digits));
        words.push_back(word.substr(digits));
        return;
    }
    const std::string low = lower(word);
    for (const std::string_view key : {"ph", "ta", "sg"}) {
        if (!low.starts_with(key)) continue;
        const bool linked = word.size() > key.size() && (word[key.size()] == '=' || word[key.size()] == ':');
        const std::string number = word.substr(key.size() + (linked ? 1 : 0));
        if (!number.empty() && is_number_word(number)) {
            words.push_back(word.substr(0, key.size()));
            words.push_back(number);
            return;
        }
    }
    words.push_back(word);
}

bool is_share_noun(std::string_view word) {
    static constexpr auto k_nouns =
        std::to_array<std::string_view>({"half", "third", "quarter", "fifth", "sixth", "eighth", "tenth"});
    return std::find(k_nouns.begin(), k_nouns.end(), word) != k_nouns.end();
}

const std::string k_nothing;

}  // namespace

JotWords::JotWords(std::string_view clause) {
    std::string word;
    const auto end_word = [&] {
        if (!word.empty()) add_word(m_words, word);
        word.clear();
    };
    for (std::size_t i = 0; i < clause.size(); ++i) {
        const char c = clause[i];
        const bool last = i + 1 == clause.size();
        if (c == '"') {
            end_word();
            const std::size_t close = clause.find('"', i + 1);
            const std::size_t end = close == std::string_view::npos ? clause.size() : close;
            if (end > i + 1) m_words.emplace_back(clause.substr(i + 1, end - i - 1));
            i = end;
        } else if (c == ' ' || c == '\t' || c == '\r' || c == '\n') {
            end_word();
        } else if ((c == ',' || c == ':') && (last || clause[i + 1] == ' ' || clause[i + 1] == '"')) {
            end_word();
            m_words.emplace_back(1, c);
        } else {
            word += c;
        }
    }
    end_word();
}

const std::string& JotWords::word(std::size_t ahead) const {
    return m_next + ahead < m_words.size() ? m_words[m_next + ahead] : k_nothing;
}

std::string JotWords::lower_word(std::size_t ahead) const {
    return lower(word(ahead));
}

bool JotWords::skip_one_of(std::span<const std::string_view> words) {
    if (at_end()) return false;
    if (std::find(words.begin(), words.end(), lower_word()) == words.end()) return false;
    skip();
    return true;
}

std::span<const std::string> JotWords::segment() const {
    const auto begin = m_words.begin() + static_cast<std::ptrdiff_t>(m_next);
    return {begin, std::find(begin, m_words.end(), ",")};
}

std::string JotWords::take_segment() {
    const auto words = segment();
    std::string text = jot_joined(words);
    skip(words.size());
    skip_any({","});
    return text;
}

std::string JotWords::take_rest() {
    std::string text = jot_joined(rest());
    m_next = m_words.size();
    return text;
}

std::optional<std::string> JotWords::take_amount() {
    const std::size_t ahead = lower_word() == "the" ? 1 : 0;
    const std::string first = lower_word(ahead);
    if (first == "all" || first == "rest" || first == "everything") {
        skip(ahead + 1);
        return first == "rest" ? first : std::string("all");
    }
    if ((first == "a" || first == "one") && is_share_noun(lower_word(1))) {
        skip(2);
        return "a " + lower(m_words[m_next - 1]);
    }
    if (is_share_noun(first)) {
        skip(ahead + 1);
        return first == "half" ? first : "a " + first;
    }
    const bool fraction = first.find('/') != std::string::npos && !first.empty() && is_digit(first.front());
    if (!is_jotted_number(first) && !fraction) return std::nullopt;
    std::string amount = word();
    skip();
    // "us gal", "imp fl oz": as many words as make a unit.
    for (std::size_t length = std::min<std::size_t>(3, rest().size()); length > 0; --length) {
        const std::string unit = jot_joined(rest().first(length));
        if (!is_unit_word(unit)) continue;
        const bool opener = length == 1 && (lower(unit) == "us" || lower(unit) == "imp" || lower(unit) == "fl");
        if (opener) continue;
        skip(length);
        return amount + " " + unit;
    }
    return amount;
}

std::string jot_joined(std::span<const std::string> words) {
    std::string text;
    for (const std::string& word : words) {
        const bool mark = word == "," || word == ":";
        text += (text.empty() || mark ? "" : " ") + word;
    }
    return text;
}

bool is_jotted_number(std::string_view word) {
    return !word.empty() && word.find('/') == std::string_view::npos && is_number_word(word);
}

}  // namespace undercroft::app
