#include "engine/finish/rank.hpp"

#include <algorithm>
#include <cmath>

#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

using tables::Technique;
using tables::TechniqueKind;

constexpr double k_far_vinegar = 2.0;  // points above the target: only blending or vinegar (common practice, no source)

// Could cover a fault: none of these while one bars packaging.
bool could_cover(TechniqueKind kind) {
    return kind != TechniqueKind::leave && kind != TechniqueKind::time && kind != TechniqueKind::rest &&
           kind != TechniqueKind::rescue;
}

const tables::Fault* barring(const Portion& portion) {
    for (const tables::Fault& fault : portion.faults)
        if (fault.blocks_packaging || fault.unsafe) return &fault;
    return nullptr;
}

bool calls_for_rescue(const Portion& portion, const std::string& id) {
    return std::any_of(portion.faults.begin(), portion.faults.end(), [&](const tables::Fault& fault) {
        if (id == "dump") return fault.unsafe || (!fault.mends_with_time && fault.blocks_packaging);
        return fault.blocks_return_to_solera || fault.blocks_packaging;
    });
}

std::string why_not(const Portion& portion, const Target& target, const Technique& technique) {
    if (const tables::Fault* fault = barring(portion); fault != nullptr && could_cover(technique.kind))
        return fault->name + " stands: it would only be covered. What it wants: " + fault->action + ".";
    for (const tables::Fault& fault : portion.faults)
        if (fault.unsafe && technique.kind != TechniqueKind::rescue && technique.kind != TechniqueKind::leave)
            return fault.name + " is not safe: it is dumped, not finished.";
    if (technique.applies_to == tables::AppliesTo::sour && !portion.sour) return "of sour beer only.";
    if (portion.sorbate_in_fruit && technique.kind == TechniqueKind::fruit && has_bacteria(portion))
        return "sorbate in the fruit and live lactic bacteria make a taste of geranium that never leaves (Crowell & "
               "Guymon 1975, from memory).";
    if (technique.id == "sweeten_cold_keg" && portion.beer.cultures.empty())
        return "nobody knows what lives in it; sugar in a closed vessel with a live culture bursts it.";
    const bool sharp = technique.kind == TechniqueKind::fruit || technique.kind == TechniqueKind::oak ||
                       technique.kind == TechniqueKind::dry_hop || technique.kind == TechniqueKind::sweeten;
    if (sharp)
        for (const blend::Wish& wish : target) {
            const auto found = portion.beer.figures.find("vinegar");
            if (wish.figure == "vinegar" && wish.range.high && found != portion.beer.figures.end() &&
                found->second.mean >= *wish.range.high + k_far_vinegar)
                return "vinegar lies " + number_text(found->second.mean - *wish.range.high, 1) +
                       " points above what is wanted: blend it with clean beer below 1 g/L of acetic acid, or make "
                       "vinegar of it (common practice, no source).";
        }
    return "";
}

// Doses to choose from: between the table's lowest and highest.
std::vector<double> doses_of(const Technique& technique) {
    if (technique.dose_unit == tables::TechniqueDose::none || technique.kind == TechniqueKind::rescue)
        return {technique.dose_mid};
    return {technique.dose_low, (technique.dose_low + technique.dose_mid) / 2.0, technique.dose_mid,
            (technique.dose_mid + technique.dose_high) / 2.0, technique.dose_high};
}

// Better by chance, to one in fifty; then by the worst case; then by the mean distance; then by name.
bool is_better(const Option& a, const Option& b) {
    constexpr double k_alike = 0.02;
    const double step_a = std::floor(a.outcome.inside / k_alike);
    const double step_b = std::floor(b.outcome.inside / k_alike);
    if (step_a != step_b) return step_a > step_b;
    if (std::abs(a.outcome.worst - b.outcome.worst) > 1e-9) return a.outcome.worst < b.outcome.worst;
    if (std::abs(a.outcome.off - b.outcome.off) > 1e-9) return a.outcome.off < b.outcome.off;
    return a.technique.id < b.technique.id;
}

Result<void> check(const RankWish& wish, const Draws& draws) {
    if (!(wish.portion.beer.litres > 0.0))
        return fail(ErrorKind::bad_input, "volume", "There is nothing to finish: say how much it is.");
    if (wish.target.empty())
        return fail(ErrorKind::bad_input, "want", "Without a target nothing is better than anything else.", {},
                    "Say what it shall be like: --want \"sourness 4 to 6\", or book a target of its vessel.");
    std::string missing;
    std::size_t known = 0;
    for (const blend::Wish& one : wish.target) {
        const bool guessed = draws.taken_as_usual().contains(one.figure) || draws.unknown().contains(one.figure);
        if (!guessed) ++known;
        if (guessed) missing += (missing.empty() ? "" : ", ") + one.figure;
    }
    if (known == 0)
        return fail(ErrorKind::bad_input, "tasting", "Nothing of what is wanted was tasted or read: " + missing + ".",
                    {}, "Taste it first and score these, best by three people; a pH and an acidity tell the rest.");
    return {};
}

void propose_splits(Ranked& ranked, const RankWish& wish) {
    const double litres = wish.portion.beer.litres;
    const double least = wish.least_split_litres.value_or(7.5);
    if (litres < 2.0 * least || barring(wish.portion) != nullptr) return;
    const auto alone = std::find_if(ranked.options.begin(), ranked.options.end(),
                                    [](const Option& one) { return one.technique.kind == TechniqueKind::leave; });
    if (alone == ranked.options.end()) return;
    const auto place = [&](const Option& one) { return static_cast<std::size_t>(&one - ranked.options.data()); };
    const auto add = [&](std::vector<Split::Part> parts, std::string why) {
        Split split;
        split.parts = std::move(parts);
        double none = 1.0;
        double total = 0.0;
        for (const Split::Part& part : split.parts) {
            none *= 1.0 - ranked.options[part.option].outcome.inside;
            split.off += part.litres * ranked.options[part.option].outcome.off;
            total += part.litres;
        }
        split.one_inside = 1.0 - none;
        split.off /= total;
        split.why = std::move(why);
        ranked.splits.push_back(std::move(split));
    };
    // The best that changes it for good, and the best of another kind.
    const Option* best = nullptr;
    const Option* other = nullptr;
    for (const Option& one : ranked.options) {
        const TechniqueKind kind = one.technique.kind;
        if (kind == TechniqueKind::leave || kind == TechniqueKind::rescue || kind == TechniqueKind::carbonate ||
            one.too_large || one.gain <= 0.0)
            continue;
        if (best == nullptr) {
            best = &one;
        } else if (other == nullptr && kind != best->technique.kind) {
            other = &one;
        }
    }
    if (best == nullptr) return;
    const double half = std::max(least, litres / 2.0);
    if (litres - half >= least)
        add({{place(*alone), litres - half}, {place(*best), half}},
            best->technique.reversible || best->clear
                ? "Half stays as it is, to compare and to blend with; half is finished."
                : "It cannot be taken back and the gain is not clear: risk at most half (common practice, no source).");
    constexpr double k_small_share = 0.2;
    const double small = std::max(least, k_small_share * litres);
    if (!best->clear && litres - small >= least && small < 0.45 * litres)
        add({{place(*alone), litres - small}, {place(*best), small}},
            "A new idea on a fifth; the rest is safe (a tenth to a quarter: common practice, no source).");
    if (other != nullptr && litres >= 3.0 * least)
        add({{place(*alone), litres / 3.0}, {place(*best), litres / 3.0}, {place(*other), litres / 3.0}},
            "A third as it is, and two ways beside it: the next pull knows more.");
}

}  // namespace

Result<Option> at_dose(const tables::Tables& tables, const std::vector<tables::Effect>& effects, const RankWish& wish,
                       const Technique& technique, const Dose& dose) {
    constexpr double k_beyond = 1.5;
    if (technique.dose_unit != tables::TechniqueDose::none &&
        !(dose.amount > 0.0 && dose.amount <= k_beyond * technique.dose_high))
        return fail(ErrorKind::bad_input, "dose",
                    dose_text(technique, dose.amount) + " is beyond every range of " + technique.name + "; it is " +
                        dose_text(technique, technique.dose_low) + " to " + dose_text(technique, technique.dose_high) +
                        ", and nothing is known above " + dose_text(technique, k_beyond * technique.dose_high) + ".");
    const std::string why = why_not(wish.portion, wish.target, technique);
    if (!why.empty()) return fail(ErrorKind::impossible, "technique", technique.name + " is not offered: " + why);
    const Draws draws(tables, wish.portion, wish.target, wish.seed);
    TRY_VOID(check(wish, draws));
    Technique alone;
    alone.id = "leave";
    TRY(const Option left, option_of(tables, effects, wish.portion, wish.target, wish.prices, draws, alone, {}));
    TRY(Option option, option_of(tables, effects, wish.portion, wish.target, wish.prices, draws, technique, dose));
    compare(option, left.outcome, wish.portion, wish.target);
    return option;
}

Result<Ranked> ranked(const tables::Tables& tables, const std::vector<tables::Effect>& effects, const RankWish& wish) {
    const Draws draws(tables, wish.portion, wish.target, wish.seed);
    TRY_VOID(check(wish, draws));
    Ranked out;
    for (const std::string& figure : draws.taken_as_usual())
        out.remarks.push_back(figure +
                              " was not tasted: taken as what is usual, widely. Tasting it narrows every row.");
    for (const std::string& figure : draws.unknown())
        out.remarks.push_back(figure + " is not known and counts neither way: read it.");
    std::optional<Outcome> alone;
    for (const Technique& technique : tables.techniques) {
        const bool rescue = technique.kind == TechniqueKind::rescue;
        if (rescue && !calls_for_rescue(wish.portion, technique.id)) continue;
        const bool always = technique.kind == TechniqueKind::leave || rescue;
        if (!always && !wish.only.empty() &&
            std::find(wish.only.begin(), wish.only.end(), tables::word(technique.kind)) == wish.only.end())
            continue;
        // A partner that is named is better than any.
        if (technique.kind == TechniqueKind::blend && !wish.blends.empty()) continue;
        if (const std::string why = why_not(wish.portion, wish.target, technique); !why.empty()) {
            out.not_offered.push_back({technique.name, why});
            continue;
        }
        std::optional<Option> best;
        std::string refused;
        for (const double amount : doses_of(technique)) {
            auto option = option_of(tables, effects, wish.portion, wish.target, wish.prices, draws, technique,
                                    {amount, days_of(technique, amount)});
            if (!option) {
                refused = option.error().what;
                continue;
            }
            if (!best || is_better(*option, *best)) best = std::move(*option);
        }
        if (!best) {
            out.not_offered.push_back({technique.name, refused});
            continue;
        }
        if (technique.kind == TechniqueKind::leave) alone = best->outcome;
        out.options.push_back(std::move(*best));
    }
    for (const Option& blended : wish.blends) out.options.push_back(blended);
    if (!alone) {
        Technique left;
        left.id = "leave";
        TRY(const Option option, option_of(tables, effects, wish.portion, wish.target, wish.prices, draws, left, {}));
        alone = option.outcome;
    }
    for (Option& option : out.options) compare(option, *alone, wish.portion, wish.target);
    std::stable_sort(out.options.begin(), out.options.end(), is_better);
    // A fault that bars packaging comes before every wish: what it calls for stands first.
    if (barring(wish.portion) != nullptr)
        std::stable_partition(out.options.begin(), out.options.end(),
                              [](const Option& one) { return one.technique.kind == TechniqueKind::rescue; });
    propose_splits(out, wish);
    return out;
}

}  // namespace undercroft::engine::finish
