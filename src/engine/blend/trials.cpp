#include "engine/blend/trials.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

namespace undercroft::engine::blend {

namespace {

// Shares of one glass by stock.
using Shares = std::vector<double>;

std::vector<Pour> poured(const Shares& shares, const TrialWish& wish) {
    return pours_of(shares, wish.glass_ml, wish.ml_step);
}

// More or less of one stock, the others keeping their proportions.
Shares moved(const Shares& shares, std::size_t stock, double by) {
    const double before = shares[stock];
    const double after = std::clamp(before + by, 0.0, 1.0);
    Shares other = shares;
    for (std::size_t i = 0; i < other.size(); ++i)
        other[i] = i == stock ? after : before < 1.0 ? shares[i] * (1.0 - after) / (1.0 - before) : 0.0;
    return other;
}

bool same_pours(const std::vector<Pour>& a, const std::vector<Pour>& b) {
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](const Pour& one, const Pour& other) {
               return one.stock == other.stock && std::abs(one.ml - other.ml) < 1e-9;
           });
}

void add(std::vector<Glass>& glasses, std::string what, std::vector<Pour> pours) {
    for (const Glass& glass : glasses)
        if (same_pours(glass.pours, pours)) return;
    glasses.push_back({"", std::move(what), std::move(pours)});
}

std::vector<std::string> drawn_codes(std::size_t count, std::mt19937_64& bits) {
    std::set<std::uint64_t> taken;
    std::vector<std::string> codes;
    while (codes.size() < count) {
        const std::uint64_t code = 100 + bits() % 900;
        if (taken.insert(code).second) codes.push_back(std::to_string(code));
    }
    return codes;
}

void give_codes(std::vector<Glass>& glasses, std::uint64_t seed) {
    std::mt19937_64 bits(seed);
    const std::vector<std::string> codes = drawn_codes(glasses.size(), bits);
    for (std::size_t i = 0; i < glasses.size(); ++i) glasses[i].code = codes[i];
    for (std::size_t i = glasses.size(); i > 1; --i) std::swap(glasses[i - 1], glasses[bits() % i]);
}

}  // namespace

// Whole steps that add up to the glass: the largest remainders get what is over.
std::vector<Pour> pours_of(const std::vector<double>& shares, double glass_ml, double ml_step) {
    const auto steps = static_cast<long>(std::lround(glass_ml / ml_step));
    std::vector<Pour> pours;
    std::vector<std::pair<double, std::size_t>> rest;
    long given = 0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (shares[i] <= 1e-9) continue;
        const double exact = shares[i] * static_cast<double>(steps);
        const long whole = static_cast<long>(std::floor(exact + 1e-9));
        rest.emplace_back(exact - static_cast<double>(whole), pours.size());
        pours.push_back({i, static_cast<double>(whole) * ml_step});
        given += whole;
    }
    std::stable_sort(rest.begin(), rest.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    for (std::size_t k = 0; given < steps && !rest.empty(); ++k, ++given)
        pours[rest[k % rest.size()].second].ml += ml_step;
    std::erase_if(pours, [](const Pour& pour) { return pour.ml <= 0.0; });
    return pours;
}

std::vector<std::string> blind_codes(std::size_t count, std::uint64_t seed) {
    std::mt19937_64 bits(seed);
    return drawn_codes(count, bits);
}

Result<TrialSheet> trial_sheet(const std::vector<Stock>& stocks, const std::vector<Made>& made, const TrialWish& wish) {
    if (!(wish.glass_ml >= 20.0) || wish.glass_ml > 500.0)
        return fail(ErrorKind::bad_input, "glass", "A tasting glass holds 20 to 500 mL.");
    if (!(wish.step > 0.0) || wish.step > 0.5)
        return fail(ErrorKind::bad_input, "neighbours", "Neighbours differ by a share above 0 and up to 50 %.");
    if (!(wish.ml_step > 0.0) || wish.ml_step > wish.glass_ml / 4.0)
        return fail(ErrorKind::bad_input, "measure",
                    "What can be measured is above 0 and at most a quarter of the glass.");
    TrialSheet sheet;
    for (std::size_t r = 0; r < made.size(); ++r) {
        Shares shares(stocks.size(), 0.0);
        for (const Part& part : made[r].parts) shares[part.stock] = part.litres / made[r].litres;
        const std::string name = made.size() == 1 ? "the recipe" : "recipe " + std::to_string(r + 1);
        add(sheet.glasses, name, poured(shares, wish));
        if (!wish.neighbours || made[r].parts.size() < 2) continue;
        for (const Part& part : made[r].parts) {
            const std::string& stock = stocks[part.stock].name;
            add(sheet.glasses, name + ", more of " + stock, poured(moved(shares, part.stock, wish.step), wish));
            add(sheet.glasses, name + ", less of " + stock, poured(moved(shares, part.stock, -wish.step), wish));
        }
    }
    if (sheet.glasses.empty()) return fail(ErrorKind::bad_input, "recipe", "There is no recipe to pour.");
    if (sheet.glasses.size() > 40)
        return fail(ErrorKind::bad_input, "recipe",
                    std::to_string(sheet.glasses.size()) +
                        " glasses are too many for one sitting: fewer recipes, or no "
                        "neighbours.");
    give_codes(sheet.glasses, wish.seed);
    return sheet;
}

}  // namespace undercroft::engine::blend
