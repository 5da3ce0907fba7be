#include "engine/finish/blended.hpp"

#include <algorithm>
#include <cmath>

#include "engine/blend/refermentation.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

constexpr double k_least_share_of_pull = 0.5;

// Stocks that have every figure the wishes name; a tasted one that is missing is taken as the portion's own.
std::vector<blend::Stock> countable(const Portion& portion, const Target& target,
                                    const std::vector<blend::Stock>& partners) {
    std::vector<blend::Stock> all{portion.beer};
    for (blend::Stock one : partners) {
        const bool counts = std::all_of(target.begin(), target.end(), [&](const blend::Wish& wish) {
            if (wish.figure == blend::k_ph) return one.acids.has_value();
            return one.figures.contains(wish.figure) || !portion.beer.figures.contains(wish.figure);
        });
        if (counts && one.litres > 0.0) all.push_back(std::move(one));
    }
    return all;
}

}  // namespace

Result<std::optional<Option>> blended(const tables::Tables& tables, const Portion& portion, const Target& target,
                                      const std::vector<blend::Stock>& partners, const Prices& prices,
                                      const Draws& draws) {
    blend::Problem problem;
    problem.stocks = countable(portion, target, partners);
    if (problem.stocks.size() < 2) return std::optional<Option>{};
    blend::Blend wanted;
    wanted.litres = portion.beer.litres;
    for (const blend::Wish& wish : target)
        if (wish.figure == blend::k_ph ? portion.beer.acids.has_value() : portion.beer.figures.contains(wish.figure))
            wanted.wishes.push_back(wish);
    if (wanted.wishes.empty()) return std::optional<Option>{};
    constexpr int k_most_partners = 3;
    wanted.most_stocks = k_most_partners;
    problem.uses.push_back({portion.beer.name, k_least_share_of_pull * portion.beer.litres, false, false});
    problem.blends.push_back(wanted);
    problem.step = 0.1;
    blend::Asking asking;
    asking.seconds = 3.0;
    const auto found = blend::find_blend(problem, asking);
    if (!found) {
        if (found.error().kind == ErrorKind::impossible) return std::optional<Option>{};
        return tl::unexpected(found.error());
    }
    const blend::Made& made = found->recipes.front().made.front();
    Option it;
    it.technique.kind = tables::TechniqueKind::blend;
    it.technique.id = "blend";
    it.technique.dose_unit = tables::TechniqueDose::percent;
    it.technique.restarts_watch = true;
    it.technique.culture_after = "union";
    it.technique.back = tables::BackToSolera::ask;
    double others = 0.0;
    double cost = 0.0;
    bool priced = true;
    std::string names;
    Chemistry& chem = it.chemistry;
    chem.litres = made.litres;
    chem.least_vessel_litres = made.litres;
    for (const auto& [figure, value] : made.figures) {
        double variance = 0.0;
        for (const blend::Part& part : made.parts) {
            const blend::Stock& stock = problem.stocks[part.stock];
            const double share = part.litres / made.litres;
            const auto own = stock.figures.find(figure);
            const double sd = figure == blend::k_ph ? stock.ph_sd : own == stock.figures.end() ? 0.0 : own->second.sd;
            variance += share * share * sd * sd;
        }
        const Figure after{value, std::sqrt(variance)};
        if (!tables.find_attribute(figure)) chem.figures[figure] = after;
    }
    for (const blend::Part& part : made.parts) {
        if (part.stock == 0) continue;
        const blend::Stock& stock = problem.stocks[part.stock];
        const double share = part.litres / made.litres;
        others += share;
        names += (names.empty() ? "" : ", ") + stock.name + " " + number_text(part.litres, 1) + " L";
        for (const auto& [figure, value] : stock.figures) {
            const auto mine = portion.beer.figures.find(figure);
            if (!tables.find_attribute(figure) || mine == portion.beer.figures.end()) continue;
            Figure& change = it.points[figure];
            change.mean += share * (value.mean - mine->second.mean);
            change.sd = std::hypot(change.sd, share * value.sd);
        }
        if (const auto price = prices.find(stock.name); price != prices.end())
            cost += price->second * part.litres;
        else
            priced = false;
    }
    if (others < 1e-6) return std::optional<Option>{};
    for (auto& [figure, change] : it.points) change.sd = std::hypot(change.sd, k_tasting_noise);
    if (priced) it.cost = cost;
    it.name = "Blend with " + names;
    it.technique.name = it.name;
    it.dose.amount = 100.0 * others;
    const blend::Refermentation again = blend::refermentation_of(problem.stocks, made);
    chem.gas_expected = chem.gas_worst = again.volumes;
    if (again.points > 0.5)
        chem.words.push_back(again.culture + " may take it down by " + number_text(again.points, 0) +
                             " points of gravity more: " + number_text(again.volumes, 1) + " volumes");
    it.outcome = draws.of({it.points, chem.figures, false});
    Portion mixed = portion;
    for (const blend::Part& part : made.parts)
        for (const tables::CultureKind* one : problem.stocks[part.stock].cultures)
            if (std::find(mixed.beer.cultures.begin(), mixed.beer.cultures.end(), one) == mixed.beer.cultures.end())
                mixed.beer.cultures.push_back(one);
    it.watch_days = watch_days_of(tables, mixed);
    it.days = it.dose.days = again.until_days.value_or(0.0);
    it.hands_on_minutes = hands_on_of(tables, it.technique, made.litres);
    for (const tables::CultureKind* one : mixed.beer.cultures)
        it.culture += (it.culture.empty() ? "" : ", ") + one->name;
    const bool killer = std::any_of(mixed.beer.cultures.begin(), mixed.beer.cultures.end(),
                                    [](const auto* one) { return one->killer == tables::KillerType::killer; });
    it.back = killer ? "never back into a solera: a killer yeast lives in it, and would take the solera over"
                     : "back into a solera only where all that lives in it is known and wanted there";
    it.cautions.push_back({"finish.blend_ferments",
                           "The strongest culture of any part reaches what another left: blend cold and drink soon, or "
                           "let it finish first; package only after the watch and the gas check."});
    return std::optional<Option>{std::move(it)};
}

}  // namespace undercroft::engine::finish
