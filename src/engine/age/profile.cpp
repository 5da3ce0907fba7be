#include "engine/age/profile.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace undercroft::engine {
namespace {

using AgedShare = std::pair<double, double>;  // years, share

// The parts with their ages at one end of their ranges: -1 the young end, 0 the middle, 1 the old end.
std::vector<AgedShare> aged_shares(const Age& age, double end) {
    std::vector<AgedShare> list;
    for (const VintagePart& part : age.parts)
        list.emplace_back(std::max(0.0, part.age_years + end * part.age_spread_years), part.share);
    std::sort(list.begin(), list.end());
    return list;
}

// Shares are sums of products of doubles: 25 % of four equal quarters must still be the first of them.
constexpr double k_rounding = 1e-9;

double percentile(const std::vector<AgedShare>& youngest_first, double share) {
    double reached = 0.0;
    for (const auto& [years, part] : youngest_first) {
        reached += part;
        if (reached >= share - k_rounding) return years;
    }
    return youngest_first.empty() ? 0.0 : youngest_first.back().first;
}

double older(const std::vector<AgedShare>& list, double years) {
    double sum = 0.0;
    for (const auto& [age, part] : list)
        if (age >= years - k_birthday_years) sum += part;
    return std::min(sum, 1.0);
}

}  // namespace

AgeProfile profile_of(const Age& age, const std::vector<double>& older_than_years) {
    const auto young = aged_shares(age, -1.0);
    const auto middle = aged_shares(age, 0.0);
    const auto old = aged_shares(age, 1.0);
    AgeProfile profile;
    for (const int percent : {5, 25, 50, 75, 95}) {
        const double share = percent / 100.0;
        profile.percentiles.push_back(
            {percent, {percentile(young, share), percentile(middle, share), percentile(old, share)}});
    }
    for (const double years : older_than_years)
        profile.older.push_back({years, {older(young, years), older(middle, years), older(old, years)}});
    return profile;
}

}  // namespace undercroft::engine
