#include "engine/finish/option.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "engine/fruit/plan.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

using tables::TechniqueKind;

// Tasks of data/tasks.csv that a technique asks for, beside what every portion asks for.
std::vector<const char*> tasks_of(const tables::Technique& technique) {
    switch (technique.kind) {
        case TechniqueKind::fruit:
            if (technique.way == tables::FruitWay::pre_fermented)
                return {"order_fruit",   "freeze_fruit", "thaw_fruit",      "enzyme",       "pitch_fruit_yeast",
                        "fruit_ferment", "fruit_check",  "rack_onto_fruit", "age_on_fruit", "rack_off_fruit"};
            return {"order_fruit",     "freeze_fruit", "thaw_fruit",    "enzyme",
                    "fruit_into_beer", "age_on_fruit", "rack_off_fruit"};
        case TechniqueKind::spice:
            return {"bench_trial", "spice_in", "spice_first_taste", "spice_latest_out"};
        case TechniqueKind::oak:
            return {"oak_in", "oak_taste", "oak_out"};
        case TechniqueKind::dry_hop:
            return {"dry_hop_in", "dry_hop_out", "creep_watch"};
        case TechniqueKind::blend:
        case TechniqueKind::sweeten:
            return {"bench_trial", "blend"};
        case TechniqueKind::acid:
        case TechniqueKind::base:
        case TechniqueKind::dilute:
            return {"bench_trial"};
        case TechniqueKind::time:
            return {"taste"};
        case TechniqueKind::rest:
            return {technique.id == "cold_rest" ? "cold_rest" : "warm_rest"};
        case TechniqueKind::leave:
        case TechniqueKind::carbonate:
        case TechniqueKind::rescue:
            return {};
    }
    return {};
}

std::string culture_words(const Portion& portion, const tables::Technique& technique) {
    std::string now;
    for (const tables::CultureKind* one : portion.beer.cultures) now += (now.empty() ? "" : ", ") + one->name;
    if (now.empty()) now = "nobody knows what lives in it: taken as wild";
    if (technique.culture_after == "unchanged") return now;
    if (technique.culture_after == "none") return "none";
    if (technique.kind == TechniqueKind::fruit && technique.way == tables::FruitWay::pre_fermented)
        return now + "; and the fruit's yeast" +
               (portion.yeast_is_neutral ? ", said to be no killer" : ", a killer unless its packet says otherwise");
    return now + "; " +
           (technique.kind == TechniqueKind::fruit     ? "and what lives on the fruit's skin"
            : technique.kind == TechniqueKind::dry_hop ? "and what lives on hops"
                                                       : "and all that lives in the other beer");
}

bool may_kill(const Portion& portion) {
    return std::any_of(portion.beer.cultures.begin(), portion.beer.cultures.end(),
                       [](const tables::CultureKind* one) { return one->killer == tables::KillerType::killer; });
}

std::string back_words(const Portion& portion, const tables::Technique& technique) {
    if (may_kill(portion))
        return "never back into a solera: a killer yeast lives in it, and would take the solera over";
    if (technique.kind == TechniqueKind::fruit && technique.way == tables::FruitWay::pre_fermented &&
        !portion.yeast_is_neutral)
        return "never back into a solera: fruited, and the fruit's yeast may be a killer";
    if (!portion.faults.empty()) return "not back into a solera: " + portion.faults.front().name + " stands";
    switch (technique.back) {
        case tables::BackToSolera::yes:
            if (portion.beer.cultures.empty())
                return "not back into a solera: nobody knows what lives in it, and an unknown yeast is taken as a "
                       "killer";
            return "may go back into the solera it came from as plain beer, closed and purged, within about 7 days";
        case tables::BackToSolera::ask:
            return "back into a solera only where all that lives in it is known and wanted there";
        case tables::BackToSolera::no:
            return "not back into a solera";
    }
    return "";
}

std::string as_sentence(std::string words) {
    if (!words.empty()) words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    return words;
}

std::string signed_text(double value, int places) {
    return (value < 0.0 ? "-" : "+") + number_text(std::abs(value), places);
}

int places_of_figure(const std::string& figure) {
    return figure == "gravity" ? 4 : figure == blend::k_ph ? 2 : 1;
}

std::string band_text(const blend::Wish& wish) {
    const int places = places_of_figure(wish.figure);
    if (wish.range.low && wish.range.high)
        return number_text(*wish.range.low, places) + " to " + number_text(*wish.range.high, places);
    return wish.range.low ? "at least " + number_text(*wish.range.low, places)
                          : "at most " + number_text(wish.range.high.value_or(0.0), places);
}

}  // namespace

std::string dose_text(const tables::Technique& technique, double amount) {
    using U = tables::TechniqueDose;
    const auto text = [&](const char* unit) {
        const int places = amount >= 10.0 ? 0 : amount >= 1.0 ? 1 : 2;
        return number_text(amount, places) + unit;
    };
    switch (technique.dose_unit) {
        case U::none:
            return "";
        case U::g_per_l:
            return text(" g/L");
        case U::percent:
            return text(" %");
        case U::volumes:
            return text(" volumes");
        case U::days:
            return text(" days");
        case U::weeks:
            return text(" weeks");
        case U::months:
            return text(" months");
    }
    return "";
}

double watch_days_of(const tables::Tables& tables, const Portion& portion) {
    const auto task = tables.find_task(fruit::watch_for(portion.beer.cultures));
    return task ? (*task)->duration_typical : 0.0;
}

double hands_on_of(const tables::Tables& tables, const tables::Technique& technique, double litres) {
    constexpr double k_litres_of_row = 20.0;
    double minutes = 0.0;
    for (const char* id : tasks_of(technique))
        if (const auto task = tables.find_task(id))
            minutes += (*task)->hands_on_fixed_min + (*task)->hands_on_min_per_20_l * litres / k_litres_of_row;
    return minutes;
}

Result<Option> option_of(const tables::Tables& tables, const std::vector<tables::Effect>& effects,
                         const Portion& portion, const Target& target, const Prices& prices, const Draws& draws,
                         const tables::Technique& technique, const Dose& dose) {
    (void)target;
    Option it;
    it.technique = technique;
    it.name = technique.name;
    it.dose = dose;
    it.days = dose.days;
    TRY(it.chemistry, chemistry_of(tables, portion, technique, dose));
    Quantities beer;
    if (const auto ta = portion.beer.figures.find("ta"); ta != portion.beer.figures.end())
        beer[k_acidity_row] = ta->second.mean;
    if (const auto ibu = portion.beer.figures.find("ibu"); ibu != portion.beer.figures.end())
        beer["bitterness_IBU"] = ibu->second.mean;
    beer["oxygen_ingress"] = portion.oxygen_mg_per_l_year.value_or(k_barrel_oxygen);
    it.points = changes_of(effects, technique, dose, portion.sour, beer, it.chemistry.points);
    it.outcome = draws.of({it.points, it.chemistry.figures, technique.kind == TechniqueKind::fruit});
    it.watch_days = technique.restarts_watch ? watch_days_of(tables, portion) : 0.0;
    it.hands_on_minutes = hands_on_of(tables, technique, portion.beer.litres);
    if (const auto price = prices.find(technique.id); price != prices.end()) {
        const bool share = technique.dose_unit == tables::TechniqueDose::percent;
        it.cost = price->second * (share ? portion.beer.litres * dose.amount / (100.0 - dose.amount)
                                         : portion.beer.litres * dose.amount / 1000.0);
    }
    it.exposure = exposure_of(technique, dose.amount);
    it.too_large = portion.vessel_litres && it.chemistry.least_vessel_litres > *portion.vessel_litres;
    if (technique.kind == TechniqueKind::leave && !portion.faults.empty()) {
        const tables::Fault& fault = portion.faults.front();
        it.name = fault.blocks_packaging || fault.unsafe ? "Leave it alone, unpackaged" : "Leave it alone";
        it.cautions.push_back({"finish.fault_bars", fault.name + " stands: " + fault.action + "."});
    }
    it.culture = culture_words(portion, technique);
    it.back = back_words(portion, technique);
    for (const Caution& one : it.chemistry.cautions)
        if (std::none_of(it.cautions.begin(), it.cautions.end(),
                         [&](const Caution& said) { return said.id == one.id; }))
            it.cautions.push_back(one);
    if (!technique.caution.empty())
        it.cautions.push_back({"finish." + technique.id, as_sentence(technique.caution) + "."});
    if (it.exposure) {
        const std::string words = it.exposure->words + " (" + it.exposure->source + ").";
        it.cautions.push_back({it.exposure->beyond ? "finish.few_glasses" : "finish.one_glass",
                               it.exposure->beyond ? "Few glasses reach a limit: " + words : as_sentence(words)});
    }
    if (it.too_large)
        it.cautions.push_back({"finish.vessel_too_small", "It needs a vessel of " +
                                                              number_text(it.chemistry.least_vessel_litres, 1) +
                                                              " L at its fullest, head space counted; this one holds " +
                                                              number_text(*portion.vessel_litres, 1) + " L brimful."});
    constexpr double k_roomy = 0.6;  // of a vessel: fuller is no portion too small for it (own choice)
    constexpr double k_acetic_per_air =
        523.0;  // mg of acetic acid that the oxygen of a litre of air can make (derived)
    const double after = std::max(it.chemistry.litres, it.chemistry.least_vessel_litres * 0.8);
    if (portion.vessel_litres && after < k_roomy * *portion.vessel_litres) {
        const double air = *portion.vessel_litres - after;
        it.cautions.push_back(
            {"finish.half_empty",
             "It fills only " + percent_text(after / *portion.vessel_litres, 0) +
                 " of its vessel: " + number_text(air, 1) + " L of air over it can make " +
                 number_text(k_acetic_per_air * air / std::max(after, 0.1), 0) +
                 " mg/L of acetic acid each time it is changed. Take a smaller vessel, or purge it."});
    }
    if (!technique.reversible && (technique.kind == TechniqueKind::spice || technique.kind == TechniqueKind::oak))
        it.cautions.push_back({"finish.half_first",
                               "It cannot be taken back: put half of it in, taste at a third of "
                               "the time to nine tenths, then add once."});
    return it;
}

void compare(Option& option, const Outcome& alone, const Portion& portion, const Target& target) {
    const std::vector<double>& mine = option.outcome.offs;
    double sum = 0.0;
    double squares = 0.0;
    for (std::size_t i = 0; i < mine.size(); ++i) {
        const double nearer = alone.offs[i] - mine[i];
        sum += nearer;
        squares += nearer * nearer;
    }
    const double count = static_cast<double>(mine.size());
    option.gain = sum / count;
    option.gain_sd = std::sqrt(std::max(0.0, squares / count - option.gain * option.gain));
    constexpr double k_clear = 2.0;
    option.clear = option.gain > 0.0 && option.gain >= k_clear * option.gain_sd;

    struct Said {
        double telling = 0.0;
        std::string words;
    };
    std::vector<Said> said;
    for (const blend::Wish& wish : target) {
        const auto was = alone.by_wish.find(wish.figure);
        const auto is = option.outcome.by_wish.find(wish.figure);
        if (was == alone.by_wish.end() || is == option.outcome.by_wish.end()) continue;
        const double change = is->second - was->second;
        Figure before;
        Figure after;
        if (const auto tasted = option.outcome.tasted.find(wish.figure); tasted != option.outcome.tasted.end()) {
            const auto now = portion.beer.figures.find(wish.figure);
            before = now == portion.beer.figures.end() ? alone.tasted.at(wish.figure) : now->second;
            after = tasted->second;
            // Scores end at 0 and 10, which shifts the mean of one near an end: told is what the option moves.
            after.mean = before.mean + tasted->second.mean - alone.tasted.at(wish.figure).mean;
        } else {
            const auto then = option.chemistry.figures.find(wish.figure);
            const auto now = portion.beer.figures.find(wish.figure);
            if (then == option.chemistry.figures.end()) continue;
            after = then->second;
            before = now == portion.beer.figures.end() ? after : now->second;
        }
        const int places = places_of_figure(wish.figure);
        const double moved = after.mean - before.mean;
        constexpr double k_worth_saying = 0.02;
        std::string words = wish.figure + " " + number_text(before.mean, places) + ", wanted " + band_text(wish);
        if (std::abs(moved) >= 0.5 * std::pow(10.0, -places)) {
            words += ": " + (option.dose.amount > 0.0 && option.technique.dose_unit != tables::TechniqueDose::none
                                 ? dose_text(option.technique, option.dose.amount) + " moves it by "
                                 : std::string("it moves by "));
            words += signed_text(moved, places) + " to " + number_text(after.mean, places) + " ± " +
                     number_text(after.sd, places);
        } else {
            words += ": it stays ± " + number_text(after.sd, places);
        }
        words += ", inside " + percent_text(is->second, 0) +
                 (std::abs(change) >= k_worth_saying ? " instead of " + percent_text(was->second, 0) : "");
        said.push_back({wish.weight * (std::abs(change) + 0.1 * (1.0 - was->second)), words + "."});
    }
    std::stable_sort(said.begin(), said.end(), [](const Said& a, const Said& b) { return a.telling > b.telling; });
    constexpr std::size_t k_most_reasons = 4;
    for (std::size_t i = 0; i < said.size() && i < k_most_reasons; ++i) option.reasons.push_back(said[i].words);
    for (const std::string& words : option.chemistry.words) option.reasons.push_back(as_sentence(words) + ".");
    if (option.technique.kind != TechniqueKind::leave && option.technique.kind != TechniqueKind::rescue &&
        !option.clear)
        option.reasons.push_back("No clear gain: it comes " + number_text(option.gain, 1) + " ± " +
                                 number_text(option.gain_sd, 1) + " steps nearer to the target than leaving it alone.");
}

}  // namespace undercroft::engine::finish
