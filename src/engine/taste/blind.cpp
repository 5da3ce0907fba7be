#include "engine/taste/blind.hpp"

#include <algorithm>
#include <numeric>
#include <random>
#include <set>
#include <stdexcept>

namespace undercroft::engine::taste {
namespace {

using Random = std::mt19937_64;

// The same on every machine, which std::shuffle does not promise.
template <class T>
void shuffle(std::vector<T>& all, Random& random) {
    for (std::size_t left = all.size(); left > 1; --left) std::swap(all[left - 1], all[random() % left]);
}

// 0, 1, n-1, 2, n-2, ... and its turns; an odd number wants the same backwards too.
std::vector<std::vector<int>> williams_rows(int n) {
    std::vector<int> first = {0};
    for (int low = 1, high = n - 1; low <= high; ++low, --high) {
        first.push_back(low);
        if (low != high) first.push_back(high);
    }
    std::vector<std::vector<int>> rows;
    for (int turn = 0; turn < n; ++turn) {
        std::vector<int> row;
        for (const int place : first) row.push_back((place + turn) % n);
        rows.push_back(row);
    }
    if (n % 2 == 1)
        for (int turn = 0; turn < n; ++turn) {
            std::vector<int> row = rows[static_cast<std::size_t>(turn)];
            std::reverse(row.begin(), row.end());
            rows.push_back(std::move(row));
        }
    return rows;
}

}  // namespace

BlindSet blind_set(int glasses, int tasters, std::uint64_t seed) {
    if (glasses < 1 || glasses > k_most_glasses || tasters < 1 || tasters > k_most_tasters)
        throw std::invalid_argument("a blind set has 1 to 12 glasses and 1 to 60 tasters");
    Random random(seed);
    BlindSet set;
    std::set<std::uint64_t> taken;
    while (set.codes.size() < static_cast<std::size_t>(glasses)) {
        const std::uint64_t code = 100 + random() % 900;
        if (taken.insert(code).second) set.codes.push_back(std::to_string(code));
    }
    std::vector<int> glass_of_letter(static_cast<std::size_t>(glasses));
    std::iota(glass_of_letter.begin(), glass_of_letter.end(), 0);
    shuffle(glass_of_letter, random);
    std::vector<std::vector<int>> rows = williams_rows(glasses);
    shuffle(rows, random);
    for (int taster = 0; taster < tasters; ++taster) {
        std::vector<int> order;
        for (const int letter : rows[static_cast<std::size_t>(taster) % rows.size()])
            order.push_back(glass_of_letter[static_cast<std::size_t>(letter)]);
        set.orders.push_back(std::move(order));
    }
    return set;
}

}  // namespace undercroft::engine::taste
