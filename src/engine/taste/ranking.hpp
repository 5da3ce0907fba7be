// Samples put in order by several tasters: do they differ, and which from which?
//
// Friedman's test as ISO 8587 has it, with its correction for ties, and the least significant difference of rank sums.
// Leaves out: tasters who ranked only some of the samples.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace undercroft::engine::taste {

inline constexpr int k_least_rankers = 3;  // for a verdict; own choice

struct Ranking {
    std::string taster;
    std::vector<std::pair<std::string, double>> places;  // sample, place; equal places are a tie
};

struct RankingAnswer {
    bool verdict = false;  // enough tasters for one
    bool different = false;
    double p = 1.0;  // by the chi-square distribution
    double statistic = 0.0;
    double agreement = 0.0;                                  // Kendall's W: 0 none, 1 all alike
    std::vector<std::pair<std::string, double>> sums;        // rank sums, smallest first
    double least_difference = 0.0;                           // of two rank sums, at alpha
    std::vector<std::pair<std::string, std::string>> apart;  // pairs that differ by it, where the whole does
};

// Fails: bad_input without two samples and two tasters, for a taster twice, for sets that are not the same, and an
// alpha that is not above 0 and at most 0.5.
[[nodiscard]] Result<RankingAnswer> ranking_test(const std::vector<Ranking>& rankings, double alpha = 0.05);

}  // namespace undercroft::engine::taste
