#include "engine/blend/judged.hpp"

#include <algorithm>
#include <cmath>

#include "engine/blend/refermentation.hpp"

namespace undercroft::engine::blend {

namespace {

constexpr double k_rounding = 1e-6;  // of a figure
constexpr double k_ph_rounding = 1e-3;

// All acids of the blend; nothing where a part's are not known.
Result<std::optional<chem::AcidMix>> acids_of(const Problem& problem, const std::vector<double>& litres) {
    std::vector<chem::BlendPart> parts;
    for (std::size_t i = 0; i < litres.size(); ++i) {
        if (litres[i] <= k_nothing) continue;
        if (!problem.stocks[i].acids) return std::optional<chem::AcidMix>{};
        parts.push_back({*problem.stocks[i].acids, litres[i]});
    }
    if (parts.empty()) return std::optional<chem::AcidMix>{};
    TRY(const chem::AcidMix mix, chem::blend(parts));
    return std::optional<chem::AcidMix>(mix);
}

Result<void> add_acids(const Problem& problem, const std::vector<double>& litres, Made& made) {
    TRY(const auto mix, acids_of(problem, litres));
    if (!mix) return {};
    TRY(const chem::AcidState state, acid_system().state(*mix));
    made.figures[k_ph] = state.ph;
    double undissociated = 0.0;
    for (const chem::Acid acid : chem::k_all_acids)
        if (chem::constants_of(acid).organic)
            undissociated += (*mix)[acid] * state.protonated[static_cast<std::size_t>(acid)];
    made.figures[k_undissociated] = 1000.0 * undissociated;
    return {};
}

void add_linear(const Problem& problem, const std::vector<double>& litres, Made& made) {
    std::map<std::string, std::pair<double, double>> sums;  // value times litres, litres it is known of
    for (std::size_t i = 0; i < litres.size(); ++i) {
        if (litres[i] <= k_nothing) continue;
        for (const auto& [name, figure] : problem.stocks[i].figures) {
            sums[name].first += figure.mean * litres[i];
            sums[name].second += litres[i];
        }
    }
    for (const auto& [name, sum] : sums)
        if (sum.second >= made.litres * (1.0 - 1e-9)) made.figures[name] = sum.first / made.litres;
}

double missed_by(const Wish& wish, double value) {
    if (wish.range.low && value < *wish.range.low) return value - *wish.range.low;
    if (wish.range.high && value > *wish.range.high) return value - *wish.range.high;
    return 0.0;
}

double rounding_of(const Wish& wish) {
    return wish.figure == k_ph ? k_ph_rounding : k_rounding * std::max(1.0, std::abs(wish.unit));
}

}  // namespace

const chem::AcidSystem& acid_system() {
    static const chem::AcidSystem system;
    return system;
}

Result<std::optional<Medium>> medium_of(const Problem& problem, const std::vector<double>& litres) {
    TRY(const auto mix, acids_of(problem, litres));
    if (!mix) return std::optional<Medium>{};
    TRY(const chem::AcidState state, acid_system().state(*mix));
    return std::optional<Medium>(Medium{state.ionic_strength, mix->abv});
}

Result<Made> judged(const Problem& problem, const Blend& blend, const std::vector<double>& litres) {
    Made made;
    for (std::size_t i = 0; i < litres.size(); ++i) {
        if (litres[i] <= k_nothing) continue;
        made.parts.push_back({i, litres[i]});
        made.litres += litres[i];
    }
    std::stable_sort(made.parts.begin(), made.parts.end(),
                     [](const Part& a, const Part& b) { return a.litres > b.litres; });
    if (made.parts.empty()) return made;
    add_linear(problem, litres, made);
    TRY_VOID(add_acids(problem, litres, made));
    for (const Wish& wish : blend.wishes) {
        const auto figure = made.figures.find(wish.figure);
        if (figure == made.figures.end()) continue;
        const double by = missed_by(wish, figure->second);
        if (std::abs(by) > rounding_of(wish)) made.off.push_back({wish.figure, by});
    }
    return made;
}

bool holds(const Problem& problem, const std::vector<Made>& made, const std::vector<std::vector<double>>& litres) {
    std::vector<double> drawn(problem.stocks.size(), 0.0);
    for (std::size_t j = 0; j < problem.blends.size(); ++j) {
        const Blend& blend = problem.blends[j];
        if (blend.litres && std::abs(made[j].litres - *blend.litres) > 1e-6 + problem.step / 2.0) return false;
        if (blend.most_stocks > 0 && made[j].parts.size() > static_cast<std::size_t>(blend.most_stocks)) return false;
        for (const Part& part : made[j].parts)
            if (part.litres < blend.least_draw - 1e-6) return false;
        for (const Wish& wish : blend.wishes) {
            if (!wish.must && blend.aim == Aim::nearest) continue;
            if (!made[j].figures.contains(wish.figure)) return false;
            for (const Off& off : made[j].off)
                if (off.figure == wish.figure) return false;
        }
        for (std::size_t i = 0; i < drawn.size(); ++i) drawn[i] += litres[j][i];
    }
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const Stock& stock = problem.stocks[i];
        const double there = std::max(0.0, stock.litres - stock.keep_back);
        if (drawn[i] > there + 1e-6) return false;
        for (const Use& use : problem.uses) {
            if (use.stock != stock.name) continue;
            if (use.excluded && drawn[i] > k_nothing) return false;
            if (drawn[i] < use.least - 1e-6) return false;
            if (use.whole && drawn[i] > k_nothing && drawn[i] < there - 1e-6) return false;
        }
    }
    return true;
}

double cost_of(const Problem& problem, const std::vector<Made>& made) {
    double cost = 0.0;
    std::vector<double> points;
    for (std::size_t j = 0; j < problem.blends.size(); ++j) {
        const Blend& blend = problem.blends[j];
        switch (blend.aim) {
            case Aim::nearest:
                for (const Wish& wish : blend.wishes)
                    for (const Off& off : made[j].off)
                        if (!wish.must && off.figure == wish.figure) cost += wish.weight * std::abs(off.by) / wish.unit;
                break;
            case Aim::most:
                cost -= made[j].litres;
                break;
            case Aim::cheapest:
                if (const auto price = made[j].figures.find("cost"); price != made[j].figures.end())
                    cost += price->second * made[j].litres;
                break;
            case Aim::least_ferment:
                if (points.empty()) points = points_left(problem.stocks);
                for (const Part& part : made[j].parts) cost += points[part.stock] * part.litres;
                break;
        }
    }
    return cost;
}

}  // namespace undercroft::engine::blend
