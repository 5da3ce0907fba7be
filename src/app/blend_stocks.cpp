#include "app/blend_stocks.hpp"

#include <algorithm>
#include <cmath>

#include "app/bodies.hpp"
#include "app/gas.hpp"
#include "base/letters.hpp"
#include "chem/acid_inverse.hpp"

namespace undercroft::app {
namespace {

namespace blend = engine::blend;

constexpr double k_lactic = 90.078;  // g/mol: TA is told as lactic acid
// One taster's doubt of one attribute, of 10 points (common practice, no source).
constexpr double k_taste_sd = 1.2;

// What was tasted on the newest day that anything was scored, each attribute with how many scored it.
void add_tasted(const Seen& seen, engine::HolderRef holder, blend::Stock& stock) {
    const std::vector<int>& entries = holder.run >= 0 ? seen.cellar.runs[at_index(holder.run)].entries
                                                      : seen.cellar.vessels[at_index(holder.vessel)].entries;
    std::map<std::string, std::pair<double, int>> sums;
    std::optional<Instant> newest;
    constexpr std::int64_t k_one_day_ms = 86'400'000;
    for (auto index = entries.rbegin(); index != entries.rend(); ++index) {
        const ledger::Entry& entry = *seen.cellar.entries[at_index(*index)];
        const auto* tasting = std::get_if<ledger::Tasting>(&entry.body);
        if (tasting == nullptr || tasting->scores.empty()) continue;
        if (newest && newest->ms - entry.at().ms > k_one_day_ms) break;
        if (!newest) newest = entry.at();
        for (const auto& [attribute, score] : tasting->scores) {
            auto& sum = sums[seen.tables.attribute_id(attribute)];
            sum.first += score.value();
            ++sum.second;
        }
    }
    for (const auto& [attribute, sum] : sums)
        stock.figures[attribute] = {sum.first / sum.second, k_taste_sd / std::sqrt(double(sum.second))};
}

void add_shares(const Seen& seen, engine::HolderRef holder, const std::vector<std::string>& lots, blend::Stock& stock) {
    if (lots.empty()) return;
    const engine::BackTrace trace = engine::trace_back(seen.cellar, holder);
    for (const std::string& wanted : lots) {
        double share = 0.0;
        for (const auto& [lot, of_it] : trace.lots)
            if (lower(seen.cellar.lots[at_index(lot)].name) == lower(wanted)) share += of_it;
        stock.figures["share of " + wanted] = {100.0 * share, 0.0};
    }
}

}  // namespace

Result<void> give_acids(blend::Stock& stock, const Acidity& acidity) {
    if (!acidity.ph) return {};
    const auto alcohol = stock.figures.find("alcohol");
    const double abv = alcohol == stock.figures.end() ? 5.0 : std::clamp(alcohol->second.mean, 0.0, 15.0);
    chem::AcidReadings readings;
    readings.ph = chem::Uncertain{acidity.ph->mean, std::max(acidity.ph->sd, 0.01)};
    if (acidity.ta)
        readings.ta = chem::Uncertain{acidity.ta->mean / k_lactic, std::max(acidity.ta->sd, 0.05) / k_lactic};
    const chem::AcidSystem system;
    TRY(const chem::InferredAcids found, chem::infer_acids(system, readings, chem::usual_prior(abv)));
    // The reading stands: what holds it up moves with it.
    TRY(stock.acids, system.with_ph(found.mix, acidity.ph->mean));
    stock.ph_sd = acidity.ph->sd;
    if (!acidity.ta) {
        TRY(const double ta, system.titratable(*stock.acids));
        stock.figures["ta"] = {ta * k_lactic, 1.5};
    }
    return {};
}

Acidity wide_guess() {
    return {blend::Figure{3.9, 0.5}, blend::Figure{4.0, 2.5}};
}

double usual_sd(const std::string& figure, double value) {
    if (figure == "ta") return 0.2;
    if (figure == "alcohol") return 0.3;
    if (figure == "cost" || figure.starts_with("share of ")) return 0.0;
    if (figure == "extract" || figure == "ibu" || figure == "colour") return std::max(1.0, 0.1 * value);
    return figure == "age" ? 0.1 : k_taste_sd;
}

Result<KnownStock> stock_of(const Seen& seen, engine::HolderRef holder, const std::vector<std::string>& lots) {
    const bool bottled = holder.run >= 0;
    const engine::LiquidState& state =
        bottled ? seen.states.runs[at_index(holder.run)] : seen.states.vessels[at_index(holder.vessel)];
    const ledger::Liquid& liquid =
        bottled ? seen.cellar.runs[at_index(holder.run)].liquid : seen.cellar.vessels[at_index(holder.vessel)].liquid;
    KnownStock known;
    blend::Stock& stock = known.stock;
    stock.name =
        bottled ? seen.cellar.runs[at_index(holder.run)].as.run : seen.cellar.vessels[at_index(holder.vessel)].as.name;
    stock.litres = liquid.volume.in_litres();
    const engine::package::GasQuestion beer = gas_question_of(seen.cellar, seen.states, seen.tables, holder);
    stock.cultures = beer.cultures;
    if (beer.gravity) {
        stock.gravity = beer.gravity->mean;
        stock.figures["gravity"] = {beer.gravity->mean, beer.gravity->sd};
    }
    stock.original_gravity = beer.original_gravity;
    if (state.composition) stock.figures["extract"] = {state.composition->real_extract_g_per_l, 2.0};
    if (const auto alcohol = state.alcohol()) stock.figures["alcohol"] = {alcohol->mean, alcohol->sd};
    if (state.ibu) stock.figures["ibu"] = {state.ibu->mean, state.ibu->sd};
    if (state.colour_ebc) stock.figures["colour"] = {state.colour_ebc->mean, state.colour_ebc->sd};
    if (const auto age = engine::age_of(seen.cellar, liquid, seen.when, seen.telling.zone, engine::AgeFrom::brew_day))
        stock.figures["age"] = {age->mean_years, (age->high_years - age->low_years) / 4.0};
    for (const ledger::AllergenHere& allergen : liquid.allergens) stock.allergens.push_back(allergen.group);
    add_tasted(seen, holder, stock);
    add_shares(seen, holder, lots, stock);
    Acidity acidity;
    if (const auto ph = state.ph_estimate()) acidity.ph = blend::Figure{ph->mean, ph->sd};
    if (state.ta) {
        acidity.ta = blend::Figure{state.ta->mean, state.ta->sd};
        stock.figures["ta"] = *acidity.ta;
    }
    TRY_VOID(give_acids(stock, acidity));
    return known;
}

}  // namespace undercroft::app
