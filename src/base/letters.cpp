#include "base/letters.hpp"

namespace undercroft {

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return result;
}

std::string trimmed(std::string_view text) {
    constexpr std::string_view k_blanks = " \t\r\n";
    const auto begin = text.find_first_not_of(k_blanks);
    if (begin == std::string_view::npos) return {};
    return std::string(text.substr(begin, text.find_last_not_of(k_blanks) - begin + 1));
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string all;
    for (const std::string& part : parts) {
        if (part.empty()) continue;
        if (!all.empty()) all += between;
        all += part;
    }
    return all;
}

}  // namespace undercroft
