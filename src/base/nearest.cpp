#include "base/nearest.hpp"

#include <algorithm>
#include <utility>

#include "base/letters.hpp"

namespace undercroft {

namespace {}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
    const std::string from = lower(a);
    const std::string to = lower(b);
    // Three rows of the matrix are enough: a swap looks two rows back.
    std::vector<std::size_t> before_last(to.size() + 1);
    std::vector<std::size_t> last(to.size() + 1);
    std::vector<std::size_t> current(to.size() + 1);
    for (std::size_t j = 0; j <= to.size(); ++j) last[j] = j;
    for (std::size_t i = 1; i <= from.size(); ++i) {
        current[0] = i;
        for (std::size_t j = 1; j <= to.size(); ++j) {
            const std::size_t replace = last[j - 1] + (from[i - 1] == to[j - 1] ? 0U : 1U);
            current[j] = std::min({last[j] + 1, current[j - 1] + 1, replace});
            if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1]) {
                current[j] = std::min(current[j], before_last[j - 2] + 1);
            }
        }
        std::swap(before_last, last);
        std::swap(last, current);
    }
    return last[to.size()];
}

std::vector<std::string> nearest_names(std::string_view wanted, const std::vector<std::string>& names,
                                       std::size_t most) {
    const std::string typed = lower(wanted);
    if (typed.empty()) return {};
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const std::string& name : names) {
        if (std::any_of(near.begin(), near.end(), [&](const auto& held) { return held.second == name; })) continue;
        const std::string candidate = lower(name);
        std::size_t distance = edit_distance(typed, candidate);
        // One or two letters are part of nearly everything, so they prove nothing.
        const bool part = typed.size() >= 3 && candidate.find(typed) != std::string::npos;
        if (part) distance = std::min<std::size_t>(distance, 1);
        if (2 * distance <= std::max(typed.size(), candidate.size())) near.emplace_back(distance, name);
    }
    std::stable_sort(near.begin(), near.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    if (near.size() > most) near.resize(most);
    std::vector<std::string> result;
    result.reserve(near.size());
    for (auto& [distance, name] : near) result.push_back(std::move(name));
    return result;
}

}  // namespace undercroft
