#include "engine/blend/chance.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "base/index.hpp"
#include "engine/blend/judged.hpp"

namespace undercroft::engine::blend {

namespace {

// Standard normal numbers of every stock and wish, made once: recipes are compared on the same luck.
class Luck {
public:
    Luck(std::uint64_t seed, std::size_t draws, std::size_t stocks, std::size_t wishes)
        : m_stocks(stocks), m_wishes(wishes), m_values(draws * stocks * wishes) {
        std::mt19937_64 bits(seed);
        // A sum of twelve uniform numbers: the library's own normal is not said to be the same everywhere.
        for (double& value : m_values) {
            value = -6.0;
            for (int i = 0; i < 12; ++i) value += static_cast<double>(bits() >> 11U) * 0x1p-53;
        }
    }
    [[nodiscard]] double of(std::size_t draw, std::size_t stock, std::size_t wish) const {
        return m_values[(draw * m_stocks + stock) * m_wishes + wish];
    }

private:
    std::size_t m_stocks;
    std::size_t m_wishes;
    std::vector<double> m_values;
};

bool inside(const Wish& wish, double value) {
    return !(wish.range.low && value < *wish.range.low) && !(wish.range.high && value > *wish.range.high);
}

// How much of a stock's error is the blend's: sd times its part.
struct Spread {
    double mean = 0.0;
    std::vector<double> by_stock;
};

Result<Spread> spread_of(const Problem& problem, const Wish& wish, const Made& made,
                         const std::vector<double>& litres) {
    Spread spread;
    const auto mean = made.figures.find(wish.figure);
    spread.mean = mean == made.figures.end() ? 0.0 : mean->second;
    spread.by_stock.assign(litres.size(), 0.0);
    double buffered = 0.0;
    for (std::size_t i = 0; i < litres.size(); ++i) {
        if (litres[i] <= k_nothing) continue;
        const Stock& stock = problem.stocks[i];
        if (wish.figure == k_ph || wish.figure == k_undissociated) {
            double capacity = 1.0;
            if (stock.acids) {
                TRY(const chem::AcidState state, acid_system().state(*stock.acids));
                capacity = state.capacity;
            }
            const double sd = wish.figure == k_ph ? stock.ph_sd : 0.0;
            spread.by_stock[i] = sd * capacity * litres[i];
            buffered += capacity * litres[i];
        } else if (const auto figure = stock.figures.find(wish.figure); figure != stock.figures.end()) {
            spread.by_stock[i] = figure->second.sd * litres[i] / made.litres;
        }
    }
    if (buffered > 0.0)
        for (double& share : spread.by_stock) share /= buffered;
    return spread;
}

Result<Chance> chance_with(const Problem& problem, const Blend& blend, const std::vector<double>& litres,
                           const Luck& luck, std::size_t draws) {
    TRY(const Made made, judged(problem, blend, litres));
    std::vector<Spread> spreads;
    for (const Wish& wish : blend.wishes) {
        TRY(Spread spread, spread_of(problem, wish, made, litres));
        spreads.push_back(std::move(spread));
    }
    Chance chance;
    std::vector<std::size_t> hits(blend.wishes.size(), 0);
    std::size_t all = 0;
    for (std::size_t draw = 0; draw < draws; ++draw) {
        bool every = true;
        for (std::size_t w = 0; w < blend.wishes.size(); ++w) {
            double value = spreads[w].mean;
            for (const Part& part : made.parts) value += spreads[w].by_stock[part.stock] * luck.of(draw, part.stock, w);
            const bool hit = inside(blend.wishes[w], value);
            hits[w] += hit ? 1U : 0U;
            every = every && hit;
        }
        all += every ? 1U : 0U;
    }
    chance.inside = static_cast<double>(all) / static_cast<double>(draws);
    for (std::size_t w = 0; w < blend.wishes.size(); ++w) {
        chance.by_wish[blend.wishes[w].figure] = static_cast<double>(hits[w]) / static_cast<double>(draws);
        double variance = 0.0;
        for (const double share : spreads[w].by_stock) variance += share * share;
        chance.sd[blend.wishes[w].figure] = std::sqrt(variance);
    }
    return chance;
}

}  // namespace

Result<Chance> chance_of(const Problem& problem, const Blend& blend, const std::vector<double>& litres,
                         std::uint64_t seed, int draws) {
    if (draws < 100 || draws > 1'000'000)
        return fail(ErrorKind::bad_input, "draws", "100 to 1,000,000 draws can be made.");
    const Luck luck(seed, at(draws), problem.stocks.size(), blend.wishes.size());
    return chance_with(problem, blend, litres, luck, at(draws));
}

Result<Surest> surest_from(const Problem& problem, const std::vector<double>& litres, std::uint64_t seed) {
    constexpr std::size_t k_draws = 1'000;
    const Blend& blend = problem.blends.front();
    const Luck luck(seed, k_draws, problem.stocks.size(), blend.wishes.size());
    std::vector<double> best = litres;
    Surest surest;
    TRY(const Chance first, chance_with(problem, blend, litres, luck, k_draws));
    surest.inside = first.inside;
    double total = 0.0;
    for (const double part : litres) total += part;
    const double smallest = problem.step > 0.0 ? problem.step : total / 200.0;
    for (double step = std::max(total / 8.0, smallest); step >= smallest * (1.0 - 1e-9);) {
        bool better = false;
        const double amount = problem.step > 0.0 ? std::max(1.0, std::round(step / problem.step)) * problem.step : step;
        for (std::size_t from = 0; from < litres.size() && !better; ++from) {
            if (best[from] < amount - 1e-9) continue;
            for (std::size_t to = 0; to < litres.size(); ++to) {
                if (to == from) continue;
                std::vector<double> tried = best;
                tried[from] = std::max(0.0, tried[from] - amount);
                tried[to] += amount;
                TRY(const Made made, judged(problem, blend, tried));
                if (!holds(problem, {made}, {tried})) continue;
                TRY(const Chance chance, chance_with(problem, blend, tried, luck, k_draws));
                if (chance.inside <= surest.inside) continue;
                best = std::move(tried);
                surest.inside = chance.inside;
                better = true;
                break;
            }
        }
        if (!better) step /= 2.0;
    }
    TRY(surest.made, judged(problem, blend, best));
    surest.cost = cost_of(problem, {surest.made});
    return surest;
}

}  // namespace undercroft::engine::blend
