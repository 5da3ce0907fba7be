#include "engine/taste/ranking.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <map>
#include <set>

namespace undercroft::engine::taste {

namespace {

Result<std::set<std::string>> samples_of(const Ranking& ranking) {
    std::set<std::string> samples;
    for (const auto& [sample, place] : ranking.places)
        if (!samples.insert(sample).second)
            return fail(ErrorKind::bad_input, "ranks",
                        ranking.taster + " put " + sample + " in two places; each sample has one.");
    return samples;
}

Result<void> check(const std::vector<Ranking>& rankings) {
    if (rankings.size() < 2) return fail(ErrorKind::bad_input, "ranks", "An order needs at least two tasters.");
    std::set<std::string> tasters;
    TRY(const std::set<std::string> samples, samples_of(rankings.front()));
    if (samples.size() < 2) return fail(ErrorKind::bad_input, "ranks", "An order needs at least two samples.");
    for (const Ranking& ranking : rankings) {
        if (!tasters.insert(ranking.taster).second)
            return fail(ErrorKind::bad_input, "ranks", ranking.taster + " stands there twice; each taster ranks once.");
        TRY(const std::set<std::string> own, samples_of(ranking));
        if (own != samples)
            return fail(ErrorKind::bad_input, "ranks",
                        ranking.taster + " did not rank the same samples as " + rankings.front().taster +
                            ": every taster ranks all of them.");
    }
    return {};
}

// Places as ranks from 1, the mean of those that are tied; gives the sum of t³ - t over the ties.
double add_ranks(const Ranking& ranking, std::map<std::string, double>& sums) {
    std::vector<std::pair<double, std::string>> order;
    for (const auto& [sample, place] : ranking.places) order.emplace_back(place, sample);
    std::sort(order.begin(), order.end());
    double ties = 0.0;
    for (std::size_t from = 0; from < order.size();) {
        std::size_t to = from;
        while (to < order.size() && order[to].first == order[from].first) ++to;
        const auto tied = static_cast<double>(to - from);
        const double rank = (static_cast<double>(from + 1) + static_cast<double>(to)) / 2.0;
        for (std::size_t i = from; i < to; ++i) sums[order[i].second] += rank;
        ties += tied * tied * tied - tied;
        from = to;
    }
    return ties;
}

}  // namespace

Result<RankingAnswer> ranking_test(const std::vector<Ranking>& rankings, double alpha) {
    TRY_VOID(check(rankings));
    if (!(alpha > 0.0) || alpha > 0.5)
        return fail(ErrorKind::bad_input, "alpha",
                    "The chance of a false difference is above 0 and at most 50 %; 5 % is usual.");
    std::map<std::string, double> sums;
    double ties = 0.0;
    for (const Ranking& ranking : rankings) ties += add_ranks(ranking, sums);
    const auto tasters = static_cast<double>(rankings.size());
    const auto samples = static_cast<double>(sums.size());
    double squares = 0.0;
    for (const auto& [sample, sum] : sums) squares += sum * sum;

    RankingAnswer answer;
    answer.statistic = 12.0 * squares / (tasters * samples * (samples + 1.0)) - 3.0 * tasters * (samples + 1.0);
    const double correction = 1.0 - ties / (tasters * samples * (samples * samples - 1.0));
    // All tied by everybody: nothing differs.
    answer.statistic = correction > 1e-12 ? std::max(0.0, answer.statistic / correction) : 0.0;
    answer.p = boost::math::cdf(
        boost::math::complement(boost::math::chi_squared_distribution<double>(samples - 1.0), answer.statistic));
    answer.agreement = answer.statistic / (tasters * (samples - 1.0));
    answer.verdict = static_cast<int>(rankings.size()) >= k_least_rankers;
    answer.different = answer.verdict && answer.p <= alpha;
    const double z = boost::math::quantile(boost::math::normal_distribution<double>(), 1.0 - alpha / 2.0);
    answer.least_difference = z * std::sqrt(tasters * samples * (samples + 1.0) / 6.0);
    answer.sums.assign(sums.begin(), sums.end());
    std::stable_sort(answer.sums.begin(), answer.sums.end(),
                     [](const auto& a, const auto& b) { return a.second < b.second; });
    if (answer.different)
        for (std::size_t a = 0; a < answer.sums.size(); ++a)
            for (std::size_t b = a + 1; b < answer.sums.size(); ++b)
                if (answer.sums[b].second - answer.sums[a].second >= answer.least_difference)
                    answer.apart.emplace_back(answer.sums[a].first, answer.sums[b].first);
    return answer;
}

}  // namespace undercroft::engine::taste
