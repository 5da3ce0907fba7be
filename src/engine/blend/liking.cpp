#include "engine/blend/liking.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <string>

namespace undercroft::engine::blend {

namespace {

using Blends = std::vector<std::vector<double>>;

constexpr double k_same_share = 1e-6;
constexpr std::size_t k_usual_grid = 20'000;
constexpr std::size_t k_most_grid = 60'000;
constexpr std::size_t k_draws = 1'000;  // a chance is then known within 0.016
constexpr std::uint64_t k_luck = 1;
constexpr Eigen::Index k_rows_at_once = 1'024;

Eigen::Index terms_of(std::size_t stocks) {
    return static_cast<Eigen::Index>(stocks * (stocks + 1) / 2);
}

// The terms of the polynomial at a blend: its shares, then their products in pairs.
template <typename Row>
void write_terms(const std::vector<double>& shares, Row row) {
    Eigen::Index term = 0;
    for (const double share : shares) row(term++) = share;
    for (std::size_t i = 0; i < shares.size(); ++i)
        for (std::size_t j = i + 1; j < shares.size(); ++j) row(term++) = shares[i] * shares[j];
}

Eigen::MatrixXd terms_at(const Blends& blends, std::size_t from, std::size_t count, std::size_t stocks) {
    Eigen::MatrixXd terms(static_cast<Eigen::Index>(count), terms_of(stocks));
    for (std::size_t r = 0; r < count; ++r) write_terms(blends[from + r], terms.row(static_cast<Eigen::Index>(r)));
    return terms;
}

bool same_glass(const std::vector<double>& a, const std::vector<double>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](double one, double other) { return std::abs(one - other) <= k_same_share; });
}

// Share of a glass that is of other stocks.
double difference(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += std::abs(a[i] - b[i]);
    return 0.5 * sum;
}

Result<void> check_trials(std::size_t stocks, const std::vector<Trial>& trials, double doubt) {
    if (stocks < 2 || stocks > k_most_liked_stocks)
        return fail(ErrorKind::bad_input, "stocks",
                    "Glasses are compared of 2 to 8 stocks; these are " + std::to_string(stocks) + ".");
    if (trials.empty())
        return fail(ErrorKind::bad_input, "liked",
                    "No glass was tasted yet. plan blend with --glass 100mL pours the first ones.");
    if (trials.size() > k_most_trials)
        return fail(ErrorKind::bad_input, "liked", "At most 200 glasses are taken; keep the newest.");
    if (!(doubt >= 0.1) || doubt > 3.0)
        return fail(ErrorKind::bad_input, "doubt", "One glass is doubted by 0.1 to 3 points of liking.");
    for (std::size_t t = 0; t < trials.size(); ++t) {
        const std::string glass = "Glass " + std::to_string(t + 1);
        const Trial& trial = trials[t];
        if (trial.shares.size() != stocks)
            return fail(ErrorKind::bad_input, "liked",
                        glass + " tells " + std::to_string(trial.shares.size()) + " shares of " +
                            std::to_string(stocks) + " stocks; a stock that is not in it has the share 0.");
        if (!(trial.liking >= 0.0) || trial.liking > k_most_liking)
            return fail(ErrorKind::bad_input, "liked", glass + ": a liking is 0 to 10.");
        double sum = 0.0;
        for (const double share : trial.shares) {
            if (!(share >= 0.0) || share > 1.0 + k_same_share)
                return fail(ErrorKind::bad_input, "liked", glass + ": a share is 0 to 1 of the glass.");
            sum += share;
        }
        if (std::abs(sum - 1.0) > k_same_share)
            return fail(ErrorKind::bad_input, "liked", glass + ": its shares do not add up to the whole glass.");
    }
    return {};
}

// Glasses in an order of their own, so that sums do not depend on how they were typed.
std::vector<Trial> in_order(std::vector<Trial> trials) {
    std::sort(trials.begin(), trials.end(), [](const Trial& a, const Trial& b) {
        return a.shares != b.shares ? a.shares < b.shares : a.liking < b.liking;
    });
    return trials;
}

// Squares of what glasses poured again differ from their mean, and how many of those are free.
struct Within {
    double squares = 0.0;
    int free = 0;
};
Within within_repeats(const std::vector<Trial>& trials) {
    Within within;
    std::vector<char> seen(trials.size(), 0);
    for (std::size_t i = 0; i < trials.size(); ++i) {
        if (seen[i] != 0) continue;
        std::vector<double> likings;
        for (std::size_t j = i; j < trials.size(); ++j)
            if (seen[j] == 0 && same_glass(trials[i].shares, trials[j].shares)) {
                seen[j] = 1;
                likings.push_back(trials[j].liking);
            }
        double mean = 0.0;
        for (const double liking : likings) mean += liking / static_cast<double>(likings.size());
        for (const double liking : likings) within.squares += (liking - mean) * (liking - mean);
        within.free += static_cast<int>(likings.size()) - 1;
    }
    return within;
}

// Whole steps of each stock between its bounds that add up to the glass.
struct Lattice {
    int steps = 0;  // a glass
    std::vector<int> least;
    std::vector<int> most;

    [[nodiscard]] std::size_t count(std::size_t enough) const {
        std::vector<std::size_t> ways(static_cast<std::size_t>(steps) + 1, 0);
        ways[0] = 1;
        for (std::size_t i = 0; i < least.size(); ++i) {
            std::vector<std::size_t> more(ways.size(), 0);
            for (int sum = 0; sum <= steps; ++sum)
                for (int own = least[i]; own <= most[i] && own <= sum; ++own) {
                    std::size_t& to = more[static_cast<std::size_t>(sum)];
                    to = std::min(enough, to + ways[static_cast<std::size_t>(sum - own)]);
                }
            ways = std::move(more);
        }
        return ways.back();
    }

    void write(std::size_t stock, int left, std::vector<double>& shares, Blends& blends) const {
        if (stock + 1 == least.size()) {
            if (left < least[stock] || left > most[stock]) return;
            shares[stock] = static_cast<double>(left) / steps;
            blends.push_back(shares);
            return;
        }
        for (int own = least[stock]; own <= most[stock] && own <= left; ++own) {
            shares[stock] = static_cast<double>(own) / steps;
            write(stock + 1, left - own, shares, blends);
        }
    }
};

Lattice lattice_of(const LikingWish& wish, double step) {
    Lattice lattice;
    lattice.steps = static_cast<int>(std::lround(1.0 / step));
    for (std::size_t i = 0; i < wish.stocks; ++i) {
        const double least = wish.least.empty() ? 0.0 : wish.least[i];
        const double most = wish.most.empty() ? 1.0 : wish.most[i];
        lattice.least.push_back(static_cast<int>(std::ceil(least * lattice.steps - k_same_share)));
        lattice.most.push_back(static_cast<int>(std::floor(most * lattice.steps + k_same_share)));
    }
    return lattice;
}

Result<void> check_bounds(const LikingWish& wish) {
    for (const auto* list : {&wish.least, &wish.most}) {
        const char* field = list == &wish.least ? "least" : "most";
        if (list->empty()) continue;
        if (list->size() != wish.stocks)
            return fail(
                ErrorKind::bad_input, field,
                std::to_string(list->size()) + " bounds were told of " + std::to_string(wish.stocks) + " stocks.");
        for (const double share : *list)
            if (!(share >= 0.0) || share > 1.0)
                return fail(ErrorKind::bad_input, field, "A bound is a share of 0 to 1.");
    }
    if (wish.next < 2 || wish.next > 4)
        return fail(ErrorKind::bad_input, "next", "Two to four glasses are told for the next round.");
    if (!(wish.apart >= 0.01) || wish.apart > 0.5)
        return fail(ErrorKind::bad_input, "apart", "The next glasses differ by 1 to 50 % of a glass.");
    if (!wish.step) return {};
    const double steps = 1.0 / *wish.step;
    if (!(*wish.step >= 0.01) || *wish.step > 0.25 || std::abs(steps - std::round(steps)) > k_same_share * steps)
        return fail(ErrorKind::bad_input, "step",
                    "Steps of 1 to 25 % that fill a glass are taken: 1, 2, 2.5, 5, 10, 12.5, 20 or 25 %.");
    return {};
}

struct Grid {
    Blends blends;
    double step = 0.0;
};
Result<Grid> grid_of(const LikingWish& wish) {
    constexpr std::array<double, 4> k_usual_steps = {0.05, 0.10, 0.20, 0.25};
    Grid grid;
    if (wish.step) {
        grid.step = *wish.step;
        if (lattice_of(wish, grid.step).count(k_most_grid + 1) > k_most_grid)
            return fail(ErrorKind::bad_input, "step",
                        "That step makes more than 60,000 blends of these stocks: take a coarser one, fewer stocks or "
                        "narrower bounds.");
    } else {
        for (const double step : k_usual_steps) {
            grid.step = step;
            if (lattice_of(wish, step).count(k_usual_grid + 1) <= k_usual_grid) break;
        }
    }
    std::vector<double> shares(wish.stocks, 0.0);
    const Lattice lattice = lattice_of(wish, grid.step);
    lattice.write(0, lattice.steps, shares, grid.blends);
    if (grid.blends.empty())
        return fail(ErrorKind::bad_input, "bounds",
                    "No blend in steps of that size lies between the bounds: widen them, or take a finer step.");
    return grid;
}

bool may_be_poured(const LikingWish& wish, const std::vector<double>& shares) {
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (!wish.least.empty() && shares[i] < wish.least[i] - k_same_share) return false;
        if (!wish.most.empty() && shares[i] > wish.most[i] + k_same_share) return false;
    }
    return true;
}

// Jones, Schonlau & Welch 1998 (from memory): what is gained on average where less than the best gains nothing.
double expected_improvement(const Liked& liked, double best) {
    if (!(liked.sd > 0.0)) return std::max(0.0, liked.mean - best);
    const double z = (liked.mean - best) / liked.sd;
    const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
    return std::max(0.0, (liked.mean - best) * 0.5 * std::erfc(-z / std::numbers::sqrt2) + liked.sd * density);
}

BestSoFar best_of(const LikingWish& wish, const LikingSurface& surface) {
    // A glass that may be poured comes before one that may not; then the higher liking; then its shares, so that the
    // order of typing does not matter.
    std::optional<BestSoFar> best;
    for (std::size_t t = 0; t < wish.trials.size(); ++t) {
        const std::vector<double>& shares = wish.trials[t].shares;
        const BestSoFar one{t, surface.at(shares), 0.0, may_be_poured(wish, shares)};
        const auto better = [&] {
            if (!best) return true;
            if (one.possible != best->possible) return one.possible;
            if (one.liked.mean != best->liked.mean) return one.liked.mean > best->liked.mean;
            return shares < wish.trials[best->trial].shares;
        };
        if (better()) best = one;
    }
    return *best;
}

}  // namespace

Result<LikingSurface> LikingSurface::after(std::size_t stocks, const std::vector<Trial>& trials, double doubt) {
    TRY_VOID(check_trials(stocks, trials, doubt));
    const std::vector<Trial> glasses = in_order(trials);
    LikingSurface surface;
    surface.m_stocks = stocks;
    const Within within = within_repeats(glasses);
    surface.m_repeats = within.free;
    surface.m_noise =
        std::sqrt((k_doubt_counts_as * doubt * doubt + within.squares) / (k_doubt_counts_as + within.free));

    const Eigen::Index terms = terms_of(stocks);
    const auto linear = static_cast<Eigen::Index>(stocks);
    Eigen::MatrixXd precision = Eigen::MatrixXd::Zero(terms, terms);
    Eigen::VectorXd before = Eigen::VectorXd::Zero(terms);
    for (Eigen::Index k = 0; k < terms; ++k) {
        const double sd = k < linear ? k_stock_liking_sd : k_pair_liking_sd;
        precision(k, k) = 1.0 / (sd * sd);
        if (k < linear) before(k) = k_middle_liking;
    }
    Eigen::VectorXd pull = Eigen::VectorXd::Zero(terms);
    const double weight = 1.0 / (surface.m_noise * surface.m_noise);
    Eigen::VectorXd at(terms);
    for (const Trial& glass : glasses) {
        write_terms(glass.shares, at.array());
        precision.noalias() += weight * at * at.transpose();
        pull += weight * (glass.liking - at.dot(before)) * at;
    }
    const Eigen::LLT<Eigen::MatrixXd> solved(precision);
    const Eigen::VectorXd mean = before + solved.solve(pull);
    const Eigen::MatrixXd factor = solved.matrixL();
    surface.m_mean.assign(mean.data(), mean.data() + mean.size());
    surface.m_factor.assign(factor.data(), factor.data() + factor.size());
    return surface;
}

std::vector<Liked> LikingSurface::at_all(const std::vector<std::vector<double>>& blends) const {
    const Eigen::Index terms = terms_of(m_stocks);
    const Eigen::Map<const Eigen::VectorXd> mean(m_mean.data(), terms);
    const Eigen::Map<const Eigen::MatrixXd> factor(m_factor.data(), terms, terms);
    std::vector<Liked> liked;
    liked.reserve(blends.size());
    for (std::size_t from = 0; from < blends.size(); from += static_cast<std::size_t>(k_rows_at_once)) {
        const std::size_t count = std::min(blends.size() - from, static_cast<std::size_t>(k_rows_at_once));
        const Eigen::MatrixXd rows = terms_at(blends, from, count, m_stocks);
        const Eigen::VectorXd means = rows * mean;
        const Eigen::MatrixXd roots = factor.triangularView<Eigen::Lower>().solve(rows.transpose());
        for (Eigen::Index r = 0; r < rows.rows(); ++r) liked.push_back({means(r), roots.col(r).norm()});
    }
    return liked;
}

Liked LikingSurface::at(const std::vector<double>& shares) const {
    return at_all({shares}).front();
}

LikingSurface::Draws LikingSurface::drawn(const std::vector<std::vector<double>>& blends,
                                          const std::vector<double>& chosen, std::size_t draws) const {
    const Eigen::Index terms = terms_of(m_stocks);
    const auto columns = static_cast<Eigen::Index>(draws);
    const Eigen::Map<const Eigen::MatrixXd> factor(m_factor.data(), terms, terms);
    Eigen::MatrixXd drawn(terms, columns);
    std::mt19937_64 bits(k_luck);
    // A sum of twelve uniform numbers: the library's own normal is not said to be the same everywhere.
    for (Eigen::Index d = 0; d < columns; ++d)
        for (Eigen::Index k = 0; k < terms; ++k) {
            double value = -6.0;
            for (int i = 0; i < 12; ++i) value += static_cast<double>(bits() >> 11U) * 0x1p-53;
            drawn(k, d) = value;
        }
    factor.transpose().triangularView<Eigen::Upper>().solveInPlace(drawn);
    drawn.colwise() += Eigen::Map<const Eigen::VectorXd>(m_mean.data(), terms);

    Eigen::RowVectorXd best = Eigen::RowVectorXd::Constant(columns, -std::numeric_limits<double>::infinity());
    for (std::size_t from = 0; from < blends.size(); from += static_cast<std::size_t>(k_rows_at_once)) {
        const std::size_t count = std::min(blends.size() - from, static_cast<std::size_t>(k_rows_at_once));
        const Eigen::MatrixXd likings = terms_at(blends, from, count, m_stocks) * drawn;
        best = best.cwiseMax(likings.colwise().maxCoeff());
    }
    const Eigen::RowVectorXd own = terms_at({chosen}, 0, 1, m_stocks) * drawn;
    Draws told;
    told.best.assign(best.data(), best.data() + best.size());
    told.chosen.assign(own.data(), own.data() + own.size());
    return told;
}

Result<LikingAnswer> next_glasses(const LikingWish& wish) {
    TRY(LikingSurface surface, LikingSurface::after(wish.stocks, wish.trials, wish.doubt));
    TRY_VOID(check_bounds(wish));
    TRY(const Grid grid, grid_of(wish));
    LikingAnswer answer;
    answer.step = grid.step;
    answer.grid = grid.blends.size();
    answer.best = best_of(wish, surface);

    const std::vector<double>& best = wish.trials[answer.best.trial].shares;
    Blends others;
    std::copy_if(grid.blends.begin(), grid.blends.end(), std::back_inserter(others),
                 [&](const auto& shares) { return difference(shares, best) >= wish.apart - k_same_share; });
    const LikingSurface::Draws draws = surface.drawn(others, best, k_draws);
    std::size_t kept = 0;
    for (std::size_t d = 0; d < k_draws; ++d) kept += draws.chosen[d] >= draws.best[d] ? 1U : 0U;
    answer.best.chance = static_cast<double>(kept) / static_cast<double>(k_draws);

    const std::vector<Liked> expected = surface.at_all(grid.blends);
    std::vector<double> gains;
    for (const Liked& liked : expected) gains.push_back(expected_improvement(liked, answer.best.liked.mean));
    while (answer.next.size() < wish.next) {
        std::optional<std::size_t> most;
        for (std::size_t g = 0; g < gains.size(); ++g) {
            // What differs by rounding alone is told in the order of the grid.
            if (most && gains[g] <= gains[*most] + 1e-9) continue;
            const bool far = std::all_of(answer.next.begin(), answer.next.end(), [&](const NextGlass& one) {
                return difference(one.shares, grid.blends[g]) >= wish.apart - k_same_share;
            });
            if (far) most = g;
        }
        if (!most) break;
        const std::vector<double>& shares = grid.blends[*most];
        const bool again = std::any_of(wish.trials.begin(), wish.trials.end(),
                                       [&](const Trial& trial) { return same_glass(trial.shares, shares); });
        answer.next.push_back({shares, expected[*most], gains[*most], again});
    }
    answer.gain = answer.next.front().gain;
    answer.enough = answer.gain < k_worth_a_glass * surface.noise();
    answer.surface = std::move(surface);
    return answer;
}

}  // namespace undercroft::engine::blend
